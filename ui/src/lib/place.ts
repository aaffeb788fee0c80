// Where the reader is, kept in the address: #/ is the list, #/start a new house, #/settings and #/help what they say,
// #/house/ID the walk of one house at the card where it was left, #/house/ID/LEAF its other leaves, #/house/ID/LEAF/OF
// one of its photographs, or those of one card.
const LEAVES = ['walk', 'places', 'next', 'leaving', 'record', 'odds', 'fits', 'photos', 'marks', 'sheet', 'seal', 'demolition'] as const;

export type Leaf = (typeof LEAVES)[number];
export type Place = { at: 'houses' } | { at: 'start' } | { at: 'settings' } | { at: 'help' } | { at: Leaf; survey: string; of?: string };

export function readPlace(hash: string): Place {
  const [first, survey, named, of] = hash.replace(/^#\/?/, '').split('/');
  if ((first === 'start' || first === 'settings' || first === 'help') && !survey) return { at: first };
  if (first !== 'house' || !survey) return { at: 'houses' };
  try {
    const at = LEAVES.find((leaf) => leaf === named) ?? 'walk';
    return { at, survey: decodeURIComponent(survey), ...(of ? { of: decodeURIComponent(of) } : {}) };
  } catch {
    return { at: 'houses' };
  }
}

export function writePlace(place: Place): string {
  if (place.at === 'houses') return '#/';
  if (!('survey' in place)) return `#/${place.at}`;
  const of = place.of === undefined ? '' : `/${encodeURIComponent(place.of)}`;
  return `#/house/${encodeURIComponent(place.survey)}${place.at === 'walk' ? '' : `/${place.at}${of}`}`;
}
