// Marks as lines over a picture, by the rules of crates/views/src/marks.rs: what is drawn here while it is pulled is what
// the pages and copies will show. A test holds both to the same paths.
import type { MarkKind } from '../bindings/views';
import type { Spot } from '../host/host';

/** What there is of a mark to be drawn. */
export interface Drawable {
  kind: MarkKind;
  points: Spot[];
  text: string;
}

/** A photograph with what there is to be drawn over it; its size is that of the upright picture in pixels. */
export interface MarkedPhoto {
  width: number;
  height: number;
  marks: Drawable[];
}

export interface Pieces {
  paths: string[];
  ring: { at: Spot; r: number } | null;
  words: { at: Spot; anchor: 'start' | 'middle' | 'end'; text: string } | null;
}

/** Width of a line over a picture of this size. */
export const lineOf = (width: number, height: number): number => Math.max(width, height) / 240;

/** A mark by a line of this width, over a picture of this one. */
export function pieces({ kind, points, text }: Drawable, line: number, width: number): Pieces {
  const out: Pieces = { paths: [], ring: null, words: null };
  const [a, b] = points;
  if (!a) return out;
  if (kind === 'words') out.words = { at: a, anchor: 'start', text };
  if (kind === 'paper') out.paths.push(`${path(points)} Z`);
  if (!b) return out;
  if (kind === 'ring') out.ring = { at: a, r: Math.hypot(b[0] - a[0], b[1] - a[1]) };
  if (kind === 'arrow') out.paths.push(path([a, b]), head(a, b, line * 7));
  if (kind === 'dimension') {
    out.paths.push(path([a, b]), tick(a, b, line * 5), tick(b, a, line * 5));
    out.words = { ...beside(a, b, width, line), text };
  }
  return out;
}

/** Where the words of a dimension stand: above a line that lies; beside one that stands, on the side where there is more of the picture. */
function beside(a: Spot, b: Spot, width: number, line: number): Pick<NonNullable<Pieces['words']>, 'at' | 'anchor'> {
  const [x, y] = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  if (Math.abs(b[0] - a[0]) >= Math.abs(b[1] - a[1])) return { at: [x, y - line * 4], anchor: 'middle' };
  return x * 2 <= width ? { at: [x + line * 4, y + line * 3], anchor: 'start' } : { at: [x - line * 4, y + line * 3], anchor: 'end' };
}

const path = (points: Spot[]): string => points.map((at, i) => `${i === 0 ? 'M' : 'L'}${pair(at)}`).join(' ');

/** Two strokes at the end of a line. */
function head(from: Spot, to: Spot, size: number): string {
  const [u, v] = along(to, from, size);
  const side = (s: number): Spot => [to[0] + u - (s * v) / 2, to[1] + v + (s * u) / 2];
  return path([side(1), to, side(-1)]);
}

/** A stroke across the end of a line. */
function tick(at: Spot, other: Spot, size: number): string {
  const [u, v] = along(at, other, size / 2);
  return path([
    [at[0] - v, at[1] + u],
    [at[0] + v, at[1] - u],
  ]);
}

function along(from: Spot, to: Spot, size: number): Spot {
  const far = Math.max(Math.hypot(to[0] - from[0], to[1] - from[1]), 1e-9);
  return [((to[0] - from[0]) / far) * size, ((to[1] - from[1]) / far) * size];
}

const pair = ([x, y]: Spot): string => `${short(x)} ${short(y)}`;
const short = (x: number): string => String(Number(x.toFixed(2)) || 0);
