// A signature as it is drawn: lines of whole points in a field of its own, however large it is on the screen.

export type Spot = [number, number];

/** A hand draws no more; the program refuses what has. */
const MOST_STROKES = 400;
const MOST_POINTS = 10_000;
/** Points nearer than this to the last one tell nothing. */
const NEAR = 4;

export class Strokes {
  drawn = $state<Spot[][]>([]);
  #drawing = false;
  #points = 0;

  constructor(
    readonly wide: number,
    readonly high: number,
  ) {}

  down(at: Spot) {
    if (this.drawn.length >= MOST_STROKES || this.#points >= MOST_POINTS) return;
    this.#drawing = true;
    this.drawn.push([this.#inside(at)]);
    this.#points += 1;
  }

  move(at: Spot) {
    const stroke = this.drawn.at(-1);
    if (!this.#drawing || !stroke || this.#points >= MOST_POINTS) return;
    const [x, y] = this.#inside(at);
    const [a, b] = stroke.at(-1)!;
    if (Math.hypot(x - a, y - b) < NEAR) return;
    stroke.push([x, y]);
    this.#points += 1;
  }

  up() {
    this.#drawing = false;
  }

  rubOut() {
    this.drawn = [];
    this.#drawing = false;
    this.#points = 0;
  }

  /** A line as a path; one that is a point only is drawn as a dot. */
  static path(stroke: readonly Spot[]): string {
    const [first, ...rest] = stroke;
    if (!first) return '';
    const on = rest.length > 0 ? rest : [first];
    return `M${first[0]} ${first[1]}${on.map(([x, y]) => `L${x} ${y}`).join('')}`;
  }

  #inside([x, y]: Spot): Spot {
    return [Math.round(Math.min(Math.max(x, 0), this.wide)), Math.round(Math.min(Math.max(y, 0), this.high))];
  }
}
