import { describe, expect, it } from 'vitest';
import recorded from '../../../e2e/page/marks.json';
import { lineOf, pieces, type Drawable } from './drawn';

const places = (x: number) => Number(x.toFixed(2));

describe('marks over a photograph', () => {
  it('are_drawn_as_the_pages_and_copies_draw_them', () => {
    const { width, height, marks, svg } = recorded;
    for (const mark of marks as unknown as Drawable[]) {
      const { paths, ring, words } = pieces(mark, lineOf(width, height), width);
      for (const path of paths) expect(svg, mark.kind).toContain(`<path d="${path}"/>`);
      if (ring) expect(svg).toContain(`<circle cx="${ring.at[0]}" cy="${ring.at[1]}" r="${ring.r}"/>`);
      if (words) expect(svg).toContain(`<text x="${places(words.at[0])}" y="${places(words.at[1])}" text-anchor="${words.anchor}">${words.text}</text>`);
      expect(paths.length + (ring ? 1 : 0) + (words ? 1 : 0), mark.kind).toBeGreaterThan(0);
    }
    const drawn = marks.flatMap((mark) => pieces(mark as unknown as Drawable, lineOf(width, height), width).paths);
    // Each lies there twice: once as the halo, once as the pencil.
    expect(svg.split('<path').length - 1).toBe(drawn.length * 2);
  });

  it('say_a_length_above_a_line_that_lies_and_beside_one_that_stands', () => {
    const words = (a: [number, number], b: [number, number]) => pieces({ kind: 'dimension', points: [a, b], text: '1 in' }, 1, 240).words;
    expect(words([0, 10], [0, 60])).toEqual({ at: [4, 38], anchor: 'start', text: '1 in' });
    expect(words([200, 60], [200, 10])).toEqual({ at: [196, 38], anchor: 'end', text: '1 in' });
    expect(words([10, 50], [60, 50])).toEqual({ at: [35, 46], anchor: 'middle', text: '1 in' });
  });

  it('are_drawn_as_far_as_they_are_set', () => {
    expect(pieces({ kind: 'arrow', points: [], text: '' }, 4, 240)).toEqual({ paths: [], ring: null, words: null });
    expect(pieces({ kind: 'ring', points: [[5, 5]], text: '' }, 4, 240).ring).toBeNull();
    expect(pieces({ kind: 'arrow', points: [[5, 5], [5, 5]], text: '' }, 4, 240).paths).toEqual(['M5 5 L5 5', 'M5 5 L5 5 L5 5']);
  });
});
