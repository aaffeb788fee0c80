// The words of the screens, in the language of the device; and how figures and times are written.
// What the catalog says (questions, names, cautions) comes from the program and is not translated here.
import en from './en.json';
import es from './es.json';

export type Key = keyof typeof en;
/** Keys that come in a `.one` and a `.other`. */
export type CountKey = Key extends infer K ? (K extends `${infer Stem}.other` ? Stem : never) : never;
export type Values = Record<string, string | number>;

const catalogs = { en, es } satisfies Record<string, Record<Key, string>>;
export type Language = keyof typeof catalogs;

/** The first language wished for that we have; English when there is none. */
export function pickLanguage(wished: readonly string[]): Language {
  for (const tag of wished) {
    const language = tag.slice(0, 2).toLowerCase();
    if (language in catalogs) return language as Language;
  }
  return 'en';
}

export class Words {
  readonly #region: string;

  constructor(readonly language: Language) {
    this.#region = language === 'es' ? 'es-US' : 'en-US';
  }

  say(key: Key, values: Values = {}): string {
    return catalogs[this.language][key].replace(/\{(\w+)\}/g, (whole, name: string) => String(values[name] ?? whole));
  }

  /** The right form for a count, which is also the value {n}. */
  count(stem: CountKey, n: number, values: Values = {}): string {
    const form = new Intl.PluralRules(this.#region).select(n) === 'one' ? 'one' : 'other';
    return this.say(`${stem}.${form}` as Key, { n: this.number(n), ...values });
  }

  number(n: number): string {
    return new Intl.NumberFormat(this.#region, { maximumFractionDigits: 1 }).format(n);
  }

  days(n: number): string {
    return this.count('days', Math.round(n * 10) / 10);
  }

  /** A sum as an estimator says it: to the nearest 10 dollars below 1,000 and to the nearest 50 above. */
  money(cents: number): string {
    const step = Math.abs(cents) < 100_000 ? 1_000 : 5_000;
    const style = { style: 'currency', currency: 'USD', currencyDisplay: 'narrowSymbol', maximumFractionDigits: 0 } as const;
    return new Intl.NumberFormat(this.#region, style).format((Math.round(cents / step) * step) / 100);
  }

  /** A time as the clock on the wall of the house showed it: the offset written with it is kept, not ours. */
  when(rfc3339: string): string {
    const parts = /^(\d{4})-(\d\d)-(\d\d)T(\d\d):(\d\d)/.exec(rfc3339);
    if (!parts) return rfc3339;
    const [year, month, day, hour, minute] = parts.slice(1).map(Number) as [number, number, number, number, number];
    const wall = new Date(Date.UTC(year, month - 1, day, hour, minute));
    const style = { dateStyle: 'medium', timeStyle: 'short', timeZone: 'UTC' } as const;
    // The hour stays together on its line, whatever space the language writes in it.
    return new Intl.DateTimeFormat(this.#region, style).format(wall).replace(/[^,]*$/, (hour) => ` ${hour.trim().replace(/\s/g, '\u00a0')}`);
  }
}

/** The words of this run. */
export const words = new Words(pickLanguage(typeof navigator === 'undefined' ? [] : navigator.languages));
