import { describe, expect, it } from 'vitest';
import { pieces } from './lettered';

describe('lettering', () => {
  it('sets_a_fraction_after_its_whole_number_with_a_thin_space', () => {
    expect(pieces('19 3/8 in')).toEqual([{ text: '19\u2009' }, { over: '3', under: '8' }, { text: ' in' }]);
  });

  it('sets_inch_and_foot_marks_as_primes', () => {
    expect(pieces('18-1/2"')).toEqual([{ text: '18\u2009' }, { over: '1', under: '2' }, { text: '″' }]);
    expect(pieces(`3'-6 1/2"`)).toEqual([{ text: '3′-6\u2009' }, { over: '1', under: '2' }, { text: '″' }]);
    expect(pieces('±1/16"')).toEqual([{ text: '±' }, { over: '1', under: '16' }, { text: '″' }]);
    expect(pieces(`the "1960's" part`)).toEqual([{ text: `the "1960's" part` }]);
  });

  it('leaves_dates_words_and_decimals_alone', () => {
    for (const text of ['3/8/26', 'and/or', '19.375', '']) {
      expect(pieces(text)).toEqual(text ? [{ text }] : []);
    }
  });

  it('sets_every_fraction_of_a_text', () => {
    expect(pieces('1/2 to 3/4')).toEqual([
      { over: '1', under: '2' },
      { text: ' to ' },
      { over: '3', under: '4' },
    ]);
  });
});
