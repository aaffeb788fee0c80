import { describe, expect, it } from 'vitest';
import { scale } from './scale';

describe('a scale', () => {
  it('ends_beyond_the_greatest_value_and_letters_at_most_seven', () => {
    for (let value = 0.1; value < 1e7; value *= 1.37) {
      const { end, letters } = scale(value);
      expect(end, String(value)).toBeGreaterThan(value);
      expect(letters.length).toBeLessThanOrEqual(7);
      expect(letters.length).toBeGreaterThanOrEqual(3);
      expect(letters[0]).toBe(0);
      expect(letters.at(-1)).toBe(end);
    }
  });

  it('letters_round_values', () => {
    expect(scale(11100)).toEqual({ end: 15000, letters: [0, 5000, 10000, 15000] });
    expect(scale(0.7).letters).toEqual([0, 0.2, 0.4, 0.6, 0.8]);
  });

  it('has_an_end_when_there_is_nothing_to_measure', () => {
    expect(scale(0)).toEqual({ end: 1, letters: [0, 1] });
  });
});
