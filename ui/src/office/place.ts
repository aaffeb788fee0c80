// Where the reader is, kept in the address: #/ is the inbox, #/people, #/tablets and #/me what they say, #/house/ID a house as
// recorded, #/house/ID/packet/DIGEST as that packet holds it, #/record and #/record/BY the track record, #/learning what houses teach; #/house/ID/findings and #/house/ID/compared its other leaves, #/house/ID/findings/KEY at one condition.
// #set-up/TOKEN is the one-time link that the program prints.
import type { Split } from './host/host';

const LEAVES = ['house', 'findings', 'compared'] as const;

export type Leaf = (typeof LEAVES)[number];
const SPLITS: readonly string[] = ['condition', 'era', 'scope', 'surveyor', 'month'] satisfies Split[];

export type Place = { at: 'inbox' } | { at: 'people' } | { at: 'tablets' } | { at: 'me' } | { at: 'learning' } | { at: 'record'; by: Split } | { at: 'set-up'; token: string } | { at: Leaf; survey: string; of?: string };

export function readPlace(hash: string): Place {
  const [first, second, named, of] = hash.replace(/^#\/?/, '').split('/');
  if ((first === 'people' || first === 'me' || first === 'tablets' || first === 'learning') && !second) return { at: first };
  if (first === 'record' && !named) return { at: 'record', by: (SPLITS.find((split) => split === second) as Split | undefined) ?? 'condition' };
  if (first === 'set-up' && second) return { at: 'set-up', token: second };
  if (first !== 'house' || !second) return { at: 'inbox' };
  try {
    // A house as an earlier packet holds it; any other third word is a leaf.
    if (named === 'packet' && of) return { at: 'house', survey: decodeURIComponent(second), of: decodeURIComponent(of) };
    const at = LEAVES.find((leaf) => leaf === named) ?? 'house';
    if (at === 'house') return { at, survey: decodeURIComponent(second) };
    return { at, survey: decodeURIComponent(second), ...(of ? { of: decodeURIComponent(of) } : {}) };
  } catch {
    return { at: 'inbox' };
  }
}

export function writePlace(place: Place): string {
  if (place.at === 'inbox') return '#/';
  if (place.at === 'set-up') return `#set-up/${place.token}`;
  if (place.at === 'record') return place.by === 'condition' ? '#/record' : `#/record/${place.by}`;
  if (!('survey' in place)) return `#/${place.at}`;
  const of = place.of === undefined ? '' : `/${encodeURIComponent(place.of)}`;
  return `#/house/${encodeURIComponent(place.survey)}${place.at === 'house' ? (of && `/packet${of}`) : `/${place.at}${of}`}`;
}
