// A house as the program would say it in the made-up language: what the catalog and the program say is marked, what
// people wrote is not. Trade calculations stay in English in this version.
import type { DrawingView, FitView } from '../../src/lib/bindings/views';
import type { KeptHouse } from '../../src/lib/host/memory';
import type { Recorded, RecordedFits } from '../../src/lib/host/recorded';
import { pseudo } from '../../src/lib/words/pseudo';

/** The words of a drawing, as the program would have lettered them. */
const svg = (text: string) => text.replace(/>([^<>]*[a-z]{2}[^<>]*)</g, (_, words: string) => `>${pseudo(words)}<`);
const drawing = (one: DrawingView | null) => one && { wide: svg(one.wide), beside: svg(one.beside), narrow: svg(one.narrow) };

export function marked(house: KeptHouse): KeptHouse {
  const it = house.now;
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
    now: it && {
      ...it,
      caution: pseudo(it.caution),
      money: { ...it.money, drawing: drawing(it.money.drawing) },
      days: { ...it.days, drawing: drawing(it.days.drawing) },
      weights: it.weights.map((one) => ({ ...one, name: pseudo(one.name), aboutIn10: pseudo(one.aboutIn10) })),
      conditions: it.conditions.map((one) => ({
        ...one,
        name: pseudo(one.name),
        words: pseudo(one.words),
        aboutIn10: pseudo(one.aboutIn10),
        bandWords: pseudo(one.bandWords),
        recommendationWords: pseudo(one.recommendationWords),
        caution: pseudo(one.caution),
        because: one.because.map(pseudo),
        path: one.path.map((step) => ({ question: pseudo(step.question), answer: pseudo(step.answer), how: pseudo(step.how), to: step.to, aboutIn10: pseudo(step.aboutIn10) })),
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

/** Trade calculations as the program would give them: names of trades, and what the walk says to them; the rest is in
 *  English in this version. */
export function markedFits({ list, fits, typed }: RecordedFits): RecordedFits {
  const fit = (one: FitView): FitView => ({
    ...one,
    inputs: one.inputs.map((it) => ({ ...it, question: pseudo(it.question), answer: it.answer && pseudo(it.answer) })),
  });
  return { list: { ...list, trades: list.trades.map((trade) => ({ ...trade, name: pseudo(trade.name) })) }, fits: fits.map(fit), typed: typed.map(fit) };
}

function deep(value: unknown, name: string): unknown {
  // A place of something amiss is words; elsewhere it is an id.
  if (typeof value === 'string') return KEPT.has(name) && !(name === 'place' && value.includes(' ')) ? value : pseudo(value);
  if (Array.isArray(value)) return value.map((one) => deep(one, name));
  if (value !== null && typeof value === 'object') return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, deep(one, key)]));
  return value;
}
