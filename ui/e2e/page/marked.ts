// A house as the program would say it in the made-up language: what the catalog and the program say is marked, what
// people wrote is not. Trade calculations stay in English in this version.
import type { HouseView } from '../../src/lib/bindings/views';
import type { Recorded } from '../../src/lib/host/recorded';
import { pseudo } from '../../src/lib/words/pseudo';

export function marked(house: HouseView): HouseView {
  const it = house.assessment;
  return {
    ...house,
    stations: house.stations.map((station) => ({
      ...station,
      label: pseudo(station.label),
      rows: station.rows.map((row) => ({
        ...row,
        question: pseudo(row.question),
        answer: pseudo(row.answer),
        rivals: row.rivals.map((rival) => ({ ...rival, answer: pseudo(rival.answer) })),
      })),
    })),
    assessment: it && {
      ...it,
      caution: pseudo(it.caution),
      conditions: it.conditions.map((one) => ({
        ...one,
        name: pseudo(one.name),
        words: pseudo(one.words),
        aboutIn10: pseudo(one.aboutIn10),
        recommendationWords: pseudo(one.recommendationWords),
        caution: pseudo(one.caution),
        because: one.because.map(pseudo),
      })),
    },
  };
}

/** What in a view is no text of the catalog or of the program: keys, kinds, people and times. */
const KEPT = new Set(['key', 'item', 'place', 'station', 'kind', 'id', 'photo', 'survey', 'before', 'after', 'check', 'by', 'at', 'entered', 'tolerance', 'unit']);

/** A walk as the program would say it in the made-up language. */
export function markedWalk(walk: Recorded): Recorded {
  return deep(walk, '') as Recorded;
}

function deep(value: unknown, name: string): unknown {
  // A place of something amiss is words; elsewhere it is an id.
  if (typeof value === 'string') return KEPT.has(name) && !(name === 'place' && value.includes(' ')) ? value : pseudo(value);
  if (Array.isArray(value)) return value.map((one) => deep(one, name));
  if (value !== null && typeof value === 'object') return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, deep(one, key)]));
  return value;
}
