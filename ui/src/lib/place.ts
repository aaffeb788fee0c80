// Where the reader is, kept in the address: #/ is the list, #/start a new house, #/house/ID the walk of one house at
// the card where it was left, #/house/ID/LEAF its other leaves.
const LEAVES = ['walk', 'places', 'next', 'leaving', 'record', 'odds', 'fits'] as const;

export type Leaf = (typeof LEAVES)[number];
export type Place = { at: 'houses' } | { at: 'start' } | { at: Leaf; survey: string };

export function readPlace(hash: string): Place {
  const [first, survey, named] = hash.replace(/^#\/?/, '').split('/');
  if (first === 'start' && !survey) return { at: 'start' };
  if (first !== 'house' || !survey) return { at: 'houses' };
  try {
    return { at: LEAVES.find((leaf) => leaf === named) ?? 'walk', survey: decodeURIComponent(survey) };
  } catch {
    return { at: 'houses' };
  }
}

export function writePlace(place: Place): string {
  if (place.at === 'houses') return '#/';
  if (place.at === 'start') return '#/start';
  return `#/house/${encodeURIComponent(place.survey)}${place.at === 'walk' ? '' : `/${place.at}`}`;
}
