// Where the stations of the walk lie in the drawn section of a house. A station that a firm adds has no spot and is
// left out of the drawing; the list names it.
export type Spot = readonly [x: number, y: number];

const SPOTS: Record<string, Spot> = {
  plan: [446, 214],
  beforehand: [492, 214],
  talk: [538, 214],
  sink: [206, 226],
  bulkhead: [180, 166],
  ceiling: [330, 164],
  'wall-faces': [360, 196],
  walls: [398, 188],
  floor: [340, 244],
  power: [258, 206],
  air: [300, 226],
  below: [262, 304],
  panel: [520, 300],
  water: [192, 304],
  gas: [328, 304],
  outside: [656, 232],
  above: [372, 66],
  bath: [222, 108],
  leaving: [606, 206],
};

/** The spot of a station; further places of the same kind lie beside the first. */
export function spotOf(station: string, nth: number): Spot | null {
  const spot = SPOTS[station];
  return spot ? [spot[0] + nth * 30, spot[1]] : null;
}
