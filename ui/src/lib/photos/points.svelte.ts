// Points of a picture, set by drag, by single taps or by keys, and moved afterwards. Pixels of the upright picture.
import type { Spot } from '../host/host';

/** A tap this near to a point takes hold of it, and one that moves less than this is no drag; pixels of the screen. */
export const GRIP = 24;
const STILL = 8;

export class Points {
  set = $state<Spot[]>([]);
  /** The point that keys move and the detail shows; the last one set. */
  chosen = $state(0);
  /** The point a finger holds. */
  held = $state<number | null>(null);
  #from: Spot = [0, 0];
  #placed = false;

  constructor(
    readonly width: number,
    readonly height: number,
    /** How many there are to be. */
    public needs: number,
  ) {}

  get all(): boolean {
    return this.set.length === this.needs;
  }

  clear(needs = this.needs) {
    this.set = [];
    this.chosen = 0;
    this.held = null;
    this.needs = needs;
  }

  /** A finger comes down. `scale`: pixels of the picture in one of the screen. */
  down(at: Spot, scale: number) {
    const near = this.#near(at, GRIP * scale);
    this.#from = at;
    this.#placed = near < 0;
    if (near >= 0) this.#hold(near);
    else if (!this.all) this.#put(at);
    else {
      // All are set: the chosen one goes there.
      this.#hold(this.chosen);
      this.#move(this.chosen, at);
    }
  }

  /** It moves. From a first point that was just set, a drag pulls out the second. */
  move(at: Spot, scale: number) {
    if (this.held === null) return;
    const far = Math.hypot(at[0] - this.#from[0], at[1] - this.#from[1]) > STILL * scale;
    if (this.#placed && this.held === 0 && this.set.length === 1 && this.needs === 2) {
      if (far) this.#put(at);
      return;
    }
    if (far || this.#placed) this.#move(this.held, at);
  }

  up() {
    this.held = null;
  }

  /** Sets the next point without a finger: in the middle, each a little to the side of the one before. */
  middle() {
    if (this.all) return;
    const step = this.set.length * 0.1;
    this.#put([this.width * (0.4 + step), this.height * (0.4 + step)].map(Math.round) as Spot);
    this.held = null;
  }

  /** Moves the chosen point by so many pixels of the picture. */
  nudge(right: number, down: number) {
    const at = this.set[this.chosen];
    if (at) this.#move(this.chosen, [at[0] + right, at[1] + down]);
  }

  #near([x, y]: Spot, within: number): number {
    let best = -1;
    let least = within;
    this.set.forEach(([a, b], i) => {
      const far = Math.hypot(a - x, b - y);
      if (far <= least) [best, least] = [i, far];
    });
    return best;
  }

  #hold(i: number) {
    this.chosen = this.held = i;
  }

  #put(at: Spot) {
    this.set = [...this.set, this.#within(at)];
    this.#hold(this.set.length - 1);
  }

  #move(i: number, at: Spot) {
    this.set = this.set.map((old, k) => (k === i ? this.#within(at) : old));
  }

  #within([x, y]: Spot): Spot {
    return [Math.min(Math.max(x, 0), this.width), Math.min(Math.max(y, 0), this.height)];
  }
}

const KEYS: Record<string, Spot> = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

/** Moves the chosen point by an arrow key; ten times as far with shift. True when it was one. */
export function byKey(points: Points, key: string, far: boolean, scale: number): boolean {
  const step = KEYS[key];
  if (!step) return false;
  const by = scale * (far ? 10 : 1);
  points.nudge(step[0] * by, step[1] * by);
  return true;
}
