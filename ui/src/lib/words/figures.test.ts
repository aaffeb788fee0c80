import { describe, expect, it } from 'vitest';
import cases from '../../../../words/figures.json';

// The file is made by crates/words/tests/all/figures.rs from the same data the pages and the command line are written
// with; here `Intl` writes the same values. Known difference: the hour. CLDR has U+202F in "10:52 AM" and Node's `Intl`
// a plain space in English; the screens and the program both put U+00A0 there, so that the hour stays on its line.
// Known difference: Node's ICU shortens September to "sept" in es-US, the data of the program to "sep"; both are right.
const september = (text: string) => text.replace(/\bsept\b/, 'sep');
const together = (text: string) => text.replace(/[^,]*$/, (hour) => ` ${hour.trim().replace(/\s/g, '\u00a0')}`);

function written({ kind, region, value, places }: (typeof cases)[number]): string {
  const number = value as number;
  const dollars = (sum: number, digits: number) =>
    new Intl.NumberFormat(region, {
      style: 'currency', currency: 'USD', currencyDisplay: 'narrowSymbol', minimumFractionDigits: digits, maximumFractionDigits: digits,
    }).format(sum);
  switch (kind) {
    case 'number':
      return new Intl.NumberFormat(region, { maximumFractionDigits: places! }).format(number);
    case 'percent':
      return new Intl.NumberFormat(region, { style: 'percent', maximumFractionDigits: 0 }).format(number);
    case 'money':
      return dollars(number / 100, number % 100 === 0 ? 0 : 2);
    case 'whole':
      return dollars(number / 100, 0);
    case 'round': {
      const step = Math.abs(number) < 100_000 ? 1_000 : 5_000;
      return dollars((Math.sign(number) * Math.round(Math.abs(number) / step) * step) / 100 || 0, 0);
    }
    default: {
      const [, year, month, day, hour, minute] = /^(\d{4})-(\d\d)-(\d\d)T(\d\d):(\d\d)/.exec(value as string)!.map(Number);
      const wall = new Date(Date.UTC(year!, month! - 1, day!, hour!, minute!));
      return kind === 'date'
        ? new Intl.DateTimeFormat(region, { dateStyle: 'long', timeZone: 'UTC' }).format(wall)
        : september(together(new Intl.DateTimeFormat(region, { dateStyle: 'medium', timeStyle: 'short', timeZone: 'UTC' }).format(wall)));
    }
  }
}

describe('numbers, money, percents and moments', () => {
  it('are_written_here_as_the_program_writes_them', () => {
    expect(cases.length).toBeGreaterThan(200);
    const differing = cases.map((one) => ({ ...one, here: written(one) })).filter((one) => one.here !== one.text);
    expect(differing).toEqual([]);
  });
});
