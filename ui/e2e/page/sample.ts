// Three invented houses with every kind of row. People, places and figures are invented.
import daysBeside from '../../../crates/drawing/tests/snapshots/chances-days-beside.svg?raw';
import daysNarrow from '../../../crates/drawing/tests/snapshots/chances-days-phone.svg?raw';
import daysWide from '../../../crates/drawing/tests/snapshots/chances-days-tablet.svg?raw';
import moneyBeside from '../../../crates/drawing/tests/snapshots/chances-money-beside.svg?raw';
import moneyNarrow from '../../../crates/drawing/tests/snapshots/chances-money-phone.svg?raw';
import moneyWide from '../../../crates/drawing/tests/snapshots/chances-money-tablet.svg?raw';
import type { ConditionView, RowView, RowKind, StationView, StepView, WeightView } from '../../src/lib/bindings/views';
import type { KeptHouse } from '../../src/lib/host/memory';

const by = 'Rosa Lind';
const at = (time: string) => `2026-03-03T${time}:00-05:00`;

function row(item: string, question: string, answer: string, kind: RowKind, more: Partial<RowView> = {}): RowView {
  const who = kind === 'open' ? {} : { by, at: at('10:31') };
  return { item, question, answer, kind, entered: null, tolerance: null, by: null, at: null, rivals: [], photos: 0, ...who, ...more };
}

/** A stop of the walk; one of several places carries its own name. */
function stop(id: string, label: string, rows: RowView[], place = id, placeLabel: string | null = null): StationView {
  return { id, place, label, placeLabel, rows };
}

function condition(
  id: string, name: string, base: number, probability: number, aboutIn10: string, words: string, recommendation: [string, string],
  dollars: [number, number, number], caution: string, because: string[], place: string | null = null, path: StepView[] = [], band: [number, number] | null = null, bandWords = '',
): ConditionView {
  const [costLowCents, costLikelyCents, costHighCents] = dollars.map((d) => d * 100) as [number, number, number];
  return {
    id, name, place, probability, words, base, aboutIn10,
    recommendation: recommendation[0], recommendationWords: recommendation[1],
    costLowCents, costLikelyCents, costHighCents, caution, because, path, band, bandWords,
  };
}

const step = (question: string, answer: string, how: string, to: number, aboutIn10: string): StepView => ({ question, answer, how, to, aboutIn10 });

/** A condition that weighs, in dollars; shares of the longest whisker. */
function weight(id: string, name: string, aboutIn10: string, average: number, low: number, high: number): WeightView {
  const share = (dollars: number) => dollars / 5200;
  return { id, name, aboutIn10, averageCents: average * 100, lowCents: low * 100, highCents: high * 100, average: share(average), low: share(low), high: share(high) };
}

/** A drawing's ids are its own on each page; the committed ones share theirs. */
const drawn = (name: string, wide: string, beside: string, narrow: string) => ({
  wide,
  beside: beside.replaceAll(name, `${name}-beside`),
  narrow: narrow.replaceAll(name, `${name}-narrow`),
});

const open: [string, string] = ['open-first', 'Open a small hole before the price is fixed.'];
const carry: [string, string] = ['carry', 'Carry an allowance for it.'];
const include: [string, string] = ['include', 'Price the work as if it is there.'];
const leave: [string, string] = ['leave', 'Leave it out, and say so in the agreement.'];

const alder: KeptHouse = {
  survey: '0195-alder-street',
  label: 'Alder Street kitchen',
  photos: 9,
  takenOut: [{ place: 'west-wall', station: 'wall', label: 'West wall', reason: null, answers: 2 }],
  stations: [
    stop('plan', 'Start: what is planned', [
      row('planned-work', 'Which of these jobs are in the plan, even as a maybe?', 'Take down the soffit, deep sink, new floor, new circuits', 'answer', { at: at('10:02') }),
      row('bowl-depth', 'How deep is the bowl of the planned sink?', '10"', 'answer', { entered: '10 in', tolerance: '±1/8"', at: at('10:03') }),
    ]),
    stop('sink', 'Kitchen: under the sink', [
      row('stub-height', 'How high above the finished floor is the center of the drain stub-out?', '19-3/8"', 'answer', { entered: '19 3/8', tolerance: '±1/16"', photos: 2 }),
      row('drain-kind', 'What is the drain pipe in the wall made of?', 'Galvanized steel', 'answer', { photos: 1 }),
      row('base-damp', 'What does the moisture meter read on the cabinet floor?', '', 'could-not-reach', { answer: 'could not reach: the cabinet is full and the owner asked to leave it.' }),
      row('air-valve', 'Is there an air admittance valve under the sink?', 'can’t tell', 'cant-tell'),
    ]),
    stop('bulkhead', 'Kitchen: soffit', [
      row('joists-run', 'Which way do the joists above the soffit run?', '', 'disagreement', {
        by: null, at: null, photos: 1,
        rivals: [
          { answer: 'Toward you', by, at: at('10:31') },
          { answer: 'Left to right', by: 'Ines Okafor', at: at('10:52') },
        ],
      }),
      row('bulkhead-drop', 'How far does the soffit hang below the ceiling?', '13"', 'answer', { tolerance: '±1/8"', photos: 1 }),
    ], 'bulkhead', 'Soffit over the sink'),
    stop('bulkhead', 'Kitchen: soffit', [
      row('bulkhead-sound', 'What is heard in the soffit while the tub above drains?', 'Water', 'answer'),
      row('bulkhead-pinhole', 'What does the pinhole camera show?', '', 'open'),
    ], 'over-refrigerator-soffit', 'Soffit over the refrigerator'),
    stop('panel', 'Electrical panel', [
      row('panel-spaces', 'How many free spaces has the panel?', '2', 'answer', { photos: 1, at: at('11:20') }),
      row('panel-cover', 'What does the licensed electrician say of the panel with its cover off?', '', 'open'),
    ]),
  ],
  now: {
    madeAt: at('16:40'),
    catalog: '1 (4fd1c0a7b2e9)',
    engine: '0.1.0',
    money: {
      meanCents: 512000, p50Cents: 415000, p80Cents: 790000, p90Cents: 1110000, p80ErrorCents: 6000, draws: 20000,
      drawing: drawn('chances-money', moneyWide, moneyBeside, moneyNarrow),
    },
    days: { mean: 2.6, p50: 2, p80: 4, p90: 5.5, said: ['2', '4', '5 1/2'], drawing: drawn('chances-days', daysWide, daysBeside, daysNarrow) },
    weights: [
      weight('drain-stub-high', 'Drain stub must be lowered', 'more than 9 in 10', 1150, 450, 2400),
      weight('bulkhead-vent', 'Plumbing vent or drain in the soffit (Soffit over the refrigerator)', 'about 7 in 10', 890, 600, 3100),
      weight('floor-asbestos', 'Old floor covering that must be tested first', 'about 4 in 10', 640, 300, 5200),
      weight('bulkhead-cables', 'More than two cables in the soffit (Soffit over the sink)', 'about 6 in 10', 330, 250, 1400),
      weight('gas-line', 'Gas line in the wall to go', 'less than 1 in 10', 40, 400, 1900),
    ],
    caution: 'An estimate from what was seen and asked, not a finding. Licensed trades decide; local code governs.',
    conditions: [
      condition('drain-stub-high', 'Drain stub must be lowered', 0.3, 0.962, 'more than 9 in 10', 'expect it', include, [450, 1100, 2400],
        'A licensed plumber decides; local code governs.', ['far up: How high above the finished floor is the center of the drain stub-out? — 19-3/8"', 'up: How deep is the bowl of the planned sink? — 10"'], null, [
          step('How deep is the bowl of the planned sink?', '10"', 'up', 0.44, 'about 4 in 10'),
          step('How high above the finished floor is the center of the drain stub-out?', '19-3/8"', 'far up', 0.962, 'more than 9 in 10'),
        ]),
      condition('bulkhead-vent', 'Plumbing vent or drain in the soffit', 0.28, 0.71, 'about 7 in 10', 'likely', open, [600, 1250, 3100],
        'A licensed plumber decides what may be moved; local code governs.', ['up: What is heard in the soffit while the tub above drains? — Water', 'a little up: What lies over the kitchen? — Bath'], 'Soffit over the refrigerator', [
          step('What lies over the kitchen?', 'Bath', 'up', 0.41, 'about 4 in 10'),
          step('7 more answers together', '', 'up', 0.46, 'about 5 in 10'),
          step('What is heard in the soffit while the tub above drains?', 'Water', 'far up', 0.8, 'about 8 in 10'),
          step('How far does the soffit hang below the ceiling?', '13"', 'a little down', 0.71, 'about 7 in 10'),
        ], [0.5, 0.84], 'between 5 and 8 in 10'),
      condition('bulkhead-cables', 'More than two cables in the soffit', 0.62, 0.55, 'about 6 in 10', 'even', carry, [250, 600, 1400],
        'Treat every cable as live until a licensed electrician has shown otherwise.', ['a little down: What does the scanner say along the soffit? — Nothing'], 'Soffit over the sink', [
          step('What does the scanner say along the soffit?', 'Nothing', 'a little down', 0.55, 'about 6 in 10'),
        ], [0.33, 0.74], 'between 3 and 7 in 10'),
      condition('floor-asbestos', 'Old floor covering that must be tested first', 0.41, 0.41, 'about 4 in 10', 'even', open, [300, 900, 5200],
        'May hold asbestos: do not sand, cut or lift it. A licensed inspector takes the sample; state and local rules govern.', [], null, [], [0.22, 0.61], 'between 2 and 6 in 10'),
      condition('gas-line', 'Gas line in the wall to go', 0.11, 0.04, 'less than 1 in 10', 'unlikely', leave, [400, 900, 1900],
        'A licensed plumber or gas fitter decides; local code governs.', ['down: Where is the gas meter? — Far wall'], null, [step('Where is the gas meter?', 'Far wall', 'down', 0.04, 'less than 1 in 10')], [0, 0.12], 'anywhere up to 1 in 10'),
    ],
  },
};

const tanner: KeptHouse = {
  survey: '0195-tanner-row',
  label: 'Tanner Row bath',
  photos: 1,
  takenOut: [],
  stations: [
    stop('talk', 'At the table, kitchen in sight', [
      row('year-built', 'When was the house built?', '1951', 'answer', { at: at('08:15'), photos: 1 }),
      row('leak-story', 'Has water ever come through the ceiling?', '', 'open'),
    ]),
  ],
  now: null,
};

const heron: KeptHouse = {
  ...alder,
  survey: '0195-heron-court',
  label: 'Heron Court kitchen and the laundry behind it',
  photos: 24,
  stations: Array.from({ length: 8 }, (_, s) =>
    stop(`part-${s}`, `Part ${s + 1} of the walk`, Array.from({ length: 15 }, (_, i) =>
      row(`q-${s}-${i}`, `Question ${i + 1} of part ${s + 1}?`, (s + i) % 9 ? 'Yes' : '', (s + i) % 9 ? 'answer' : 'open', { at: at('09:30') })))),
};

export const houses: KeptHouse[] = [alder, tanner, heron];
