// Where the reader is, kept in the address: #/ is the inbox, #/people and #/me what they say, #/house/ID a house as
// recorded, #/house/ID/findings and #/house/ID/compared its other leaves, #/house/ID/findings/KEY at one condition.
// #set-up/TOKEN is the one-time link that the program prints.
const LEAVES = ['house', 'findings', 'compared'] as const;

export type Leaf = (typeof LEAVES)[number];
export type Place = { at: 'inbox' } | { at: 'people' } | { at: 'me' } | { at: 'set-up'; token: string } | { at: Leaf; survey: string; of?: string };

export function readPlace(hash: string): Place {
  const [first, second, named, of] = hash.replace(/^#\/?/, '').split('/');
  if ((first === 'people' || first === 'me') && !second) return { at: first };
  if (first === 'set-up' && second) return { at: 'set-up', token: second };
  if (first !== 'house' || !second) return { at: 'inbox' };
  try {
    const at = LEAVES.find((leaf) => leaf === named) ?? 'house';
    return { at, survey: decodeURIComponent(second), ...(of ? { of: decodeURIComponent(of) } : {}) };
  } catch {
    return { at: 'inbox' };
  }
}

export function writePlace(place: Place): string {
  if (place.at === 'inbox') return '#/';
  if (place.at === 'set-up') return `#set-up/${place.token}`;
  if (!('survey' in place)) return `#/${place.at}`;
  const of = place.of === undefined ? '' : `/${encodeURIComponent(place.of)}`;
  return `#/house/${encodeURIComponent(place.survey)}${place.at === 'house' ? '' : `/${place.at}${of}`}`;
}
