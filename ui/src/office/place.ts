// Where the reader is, kept in the address: #/ is the inbox, #/people, #/tablets and #/me what they say, #/house/ID a house as
// recorded, #/house/ID/packet/DIGEST as that packet holds it, both with /photo/DIGEST behind them one of its photographs, #/record and #/record/BY the track record, #/learning what houses teach; #/house/ID/findings and #/house/ID/compared its other leaves, #/house/ID/findings/KEY at one condition.
// #set-up/TOKEN is the one-time link that the program prints.
import type { Split } from './host/host';

const LEAVES = ['house', 'findings', 'compared'] as const;

export type Leaf = (typeof LEAVES)[number];
const SPLITS: readonly string[] = ['condition', 'era', 'scope', 'surveyor', 'month'] satisfies Split[];

export type Place = { at: 'inbox' } | { at: 'people' } | { at: 'tablets' } | { at: 'me' } | { at: 'learning' } | { at: 'record'; by: Split } | { at: 'set-up'; token: string } | { at: 'house'; survey: string; of?: string; photo?: string } | { at: Exclude<Leaf, 'house'>; survey: string; of?: string };

export function readPlace(hash: string): Place {
  const [first, second, named, of, ...rest] = hash.replace(/^#\/?/, '').split('/');
  if ((first === 'people' || first === 'me' || first === 'tablets' || first === 'learning') && !second) return { at: first };
  if (first === 'record' && !named) return { at: 'record', by: (SPLITS.find((split) => split === second) as Split | undefined) ?? 'condition' };
  if (first === 'set-up' && second) return { at: 'set-up', token: second };
  if (first !== 'house' || !second) return { at: 'inbox' };
  try {
    // A house as an earlier packet holds it; any other third word is a leaf.
    const photo = named === 'photo' ? of : rest[0] === 'photo' ? rest[1] : undefined;
    const one = photo ? { photo: decodeURIComponent(photo) } : {};
    if (named === 'packet' && of) return { at: 'house', survey: decodeURIComponent(second), of: decodeURIComponent(of), ...one };
    const at = LEAVES.find((leaf) => leaf === named) ?? 'house';
    if (at === 'house') return { at, survey: decodeURIComponent(second), ...one };
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
  const house = `#/house/${encodeURIComponent(place.survey)}`;
  if (place.at !== 'house') return `${house}/${place.at}${of}`;
  return `${house}${of && `/packet${of}`}${place.photo === undefined ? '' : `/photo/${encodeURIComponent(place.photo)}`}`;
}
