import { describe, expect, it } from 'vitest';
import { Figures, Pad, reduced } from './pad.svelte';

/** A pad after keys: digits, h8 h4 h2 h1 for the halves, f for feet, < to rub out, + and - to nudge. */
function keyed(unit: string, keys: string): Pad {
  const pad = new Pad(unit);
  for (const key of keys.split(' ').filter((one) => one !== '')) {
    if (/^\d+$/.test(key)) for (const digit of key) pad.digit(digit);
    else if (key.startsWith('h')) pad.half(Number(key.slice(1)));
    else if (key === 'f') pad.toInches();
    else if (key === '<') pad.rubOut();
    else if (key === 'mm') pad.use(true);
    else pad.nudge(key === '+' ? 1 : -1);
  }
  return pad;
}

describe('the pad', () => {
  it('writes_what_was_keyed_as_one_would_write_it', () => {
    for (const [unit, keys, text] of [
      ['in', '', ''],
      ['in', '19', '19"'],
      ['in', '19 h4 h2', '19 3/8"'],
      ['in', 'h8', '1/2"'],
      ['in', 'h8 h8', ''],
      ['in', '1 f 7 h4 h2', `1' 7 3/8"`],
      ['in', '3 f', `3' 0"`],
      ['in', '007', '7"'],
      ['ft', '48', `48'`],
      ['ft', '48 f 6', `48' 6"`],
      ['ft', '8 h8', `8' 1/2"`],
      ['in', 'mm 492', '492 mm'],
    ] as const) expect(keyed(unit, keys).text, `${unit} ${keys}`).toBe(text);
  });

  it('adds_halves_up_to_any_sixteenth', () => {
    for (let n = 1; n < 16; n += 1) {
      const keys = [8, 4, 2, 1].filter((half) => n & half).map((half) => `h${half}`).join(' ');
      const [over, under] = reduced(n);
      expect(keyed('in', keys).text).toBe(`${over}/${under}"`);
      expect(over / under).toBe(n / 16);
    }
  });

  it('nudges_by_a_sixteenth_and_carries', () => {
    for (const [keys, text] of [
      ['19 h8 h4 h2 h1 +', '20"'],
      ['20 -', '19 15/16"'],
      ['-', '0"'],
      ['1 f 11 h8 h4 h2 h1 +', `2' 0"`],
      ['2 f 0 -', `1' 11 15/16"`],
      ['mm 492 +', '493 mm'],
    ] as const) expect(keyed('in', keys).text, keys).toBe(text);
  });

  it('rubs_out_the_last_thing_keyed_first', () => {
    const pad = keyed('in', '1 f 7 h2');
    const seen = [];
    for (let i = 0; i < 4; i += 1) {
      pad.rubOut();
      seen.push(pad.text);
    }
    expect(seen).toEqual([`1' 7"`, `1' 0"`, '1"', '']);
  });

  it('never_turns_a_reading_into_the_other_system', () => {
    expect(keyed('in', '19 h8 mm').text).toBe('');
  });

  it('starts_from_the_unit_and_tolerance_of_the_last_measurement', () => {
    expect(new Pad('in').like(false, '1/16"').toleranceText).toBe('1/16 in');
    expect(new Pad('in').like(true, '1/16"').toleranceText).toBe('2 mm');
    expect(new Pad('in').like(false, null).toleranceText).toBe('1/8 in');
    expect(new Pad('ft').like(false, '1/8"').toleranceText).toBe('1 in');
  });

  it('says_lower_with_a_sign', () => {
    const pad = keyed('in', 'h4');
    pad.minus = true;
    expect(pad.text).toBe('-1/4"');
  });

  it('takes_words_as_they_are_until_a_key_is_pressed', () => {
    const pad = new Pad('in');
    pad.typed = ` 1' 7 3/8 `;
    expect(pad.text).toBe(`1' 7 3/8`);
    pad.digit('9');
    expect(pad.text).toBe('9"');
  });
});

describe('the pad of a number', () => {
  it('takes_one_point_and_no_point_first', () => {
    const figures = new Figures();
    for (const key of ['.', '1', '.', '.', '5']) figures.digit(key);
    expect(figures.text).toBe('1.5');
    figures.rubOut();
    expect(figures.text).toBe('1.');
  });
});
