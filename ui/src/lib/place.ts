// Where the reader is, kept in the address: #/ is the list, #/house/ID the walk of one house, #/house/ID/odds its
// odds, #/house/ID/fits what its measurements answer.
export type Leaf = 'walk' | 'odds' | 'fits';
export type Place = { at: 'houses' } | { at: Leaf; survey: string };

export function readPlace(hash: string): Place {
  const [first, survey, leaf] = hash.replace(/^#\/?/, '').split('/');
  if (first !== 'house' || !survey) return { at: 'houses' };
  try {
    return { at: leaf === 'odds' || leaf === 'fits' ? leaf : 'walk', survey: decodeURIComponent(survey) };
  } catch {
    return { at: 'houses' };
  }
}

export function writePlace(place: Place): string {
  if (place.at === 'houses') return '#/';
  return `#/house/${encodeURIComponent(place.survey)}${place.at === 'walk' ? '' : `/${place.at}`}`;
}
