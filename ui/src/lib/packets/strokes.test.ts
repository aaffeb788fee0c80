import { describe, expect, it } from 'vitest';
import { Strokes } from './strokes.svelte';

describe('a signature', () => {
  it('is_whole_points_inside_its_field_and_ends_where_the_finger_is_lifted', () => {
    const strokes = new Strokes(1000, 320);
    strokes.move([5, 5]);
    expect(strokes.drawn).toEqual([]);
    strokes.down([10.4, 20.6]);
    strokes.move([11, 21]); // too near to tell anything
    strokes.move([-50, 999]);
    strokes.up();
    strokes.move([400, 100]);
    strokes.down([500, 100]);
    expect(strokes.drawn).toEqual([[[10, 21], [0, 320]], [[500, 100]]]);
    strokes.rubOut();
    strokes.move([1, 1]);
    expect(strokes.drawn).toEqual([]);
  });

  it('takes_no_more_than_the_program_does', () => {
    const strokes = new Strokes(1000, 320);
    for (let n = 0; n < 500; n += 1) strokes.down([n, 1]);
    expect(strokes.drawn.length).toBe(400);
    strokes.rubOut();
    strokes.down([0, 0]);
    for (let n = 0; n < 12_000; n += 1) strokes.move([n % 2 ? 900 : 100, 1]);
    expect(strokes.drawn[0]!.length).toBe(10_000);
  });

  it('is_drawn_as_lines_and_dots', () => {
    expect(Strokes.path([[1, 2], [3, 4]])).toBe('M1 2L3 4');
    expect(Strokes.path([[1, 2]])).toBe('M1 2L1 2');
    expect(Strokes.path([])).toBe('');
  });
});
