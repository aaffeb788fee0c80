// A house as the program would say it in the made-up language: what the catalog and the program say is marked, what
// people wrote is not. Trade calculations stay in English in this version.
import type { HouseView } from '../../src/lib/bindings/views';
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
