import { describe, expect, it } from 'vitest';
import { centsOf, daysTyped, dollarsTyped, tenthsOf } from './figures';

describe('figures typed by hand', () => {
  it('are_dollars_with_or_without_signs_and_cents', () => {
    const read = [['', 0], ['1480', 148_000], ['$1,480', 148_000], ['1,480.5', 148_050], [' 12.25 ', 1_225], ['1,234,567', 123_456_700]];
    for (const [text, cents] of read) expect(centsOf(text as string), String(text)).toBe(cents);
  });

  it('are_days_in_halves_quarters_or_tenths', () => {
    const read = [['', 0], ['2', 20], ['1.5', 15], ['1,5', 15], ['1 1/2', 15], ['1/4', 3], ['0.75', 8]];
    for (const [text, tenths] of read) expect(tenthsOf(text as string), String(text)).toBe(tenths);
  });

  it('are_refused_where_they_could_mean_something_else', () => {
    for (const text of ['-5', '12.345', '1,48', '1.480,00', 'about 900', '1e9', '12 34', '9999999999']) expect(centsOf(text), text).toBeNull();
    for (const text of ['-1', 'two', '1/0', '1 / 2', '99999', '1.234']) expect(tenthsOf(text), text).toBeNull();
  });

  it('are_typed_again_as_they_were', () => {
    for (const cents of [148_000, 148_050, 1_225]) expect(centsOf(dollarsTyped(cents))).toBe(cents);
    for (const tenths of [5, 15, 20, 3]) expect(tenthsOf(daysTyped(tenths))).toBe(tenths);
    expect([dollarsTyped(0), daysTyped(0)]).toEqual(['', '']);
  });
});
