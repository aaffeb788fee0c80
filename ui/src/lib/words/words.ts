// The words of the screens, in the language of the device, from the same Fluent files the program reads; and how
// figures and times are written. What the catalog says (questions, names, cautions) comes from the program, already in
// this language.
import { FluentBundle, FluentResource, type FluentVariable } from '@fluent/bundle';
import en from '../../../../words/en/screens.ftl?raw';
import es from '../../../../words/es/screens.ftl?raw';
import { keptLanguage } from '../settings/device';
import { pseudo } from './pseudo';

export type Values = Record<string, FluentVariable>;

const files = { en, es, qps: en };
export type Language = keyof typeof files;

/** The first language wished for that we have; English when there is none. */
export function pickLanguage(wished: readonly string[]): Language {
  for (const tag of wished) {
    const language = tag.split('-')[0]!.toLowerCase();
    if (language in files) return language as Language;
  }
  return 'en';
}

export class Words {
  readonly #region: string;
  /** What it says from; a door with screens of its own adds theirs. */
  readonly bundle: FluentBundle;

  constructor(readonly language: Language) {
    this.#region = language === 'es' ? 'es-US' : 'en-US';
    // Both languages run from left to right, so nothing is set apart with marks of direction.
    this.bundle = new FluentBundle(this.#region, { useIsolating: false, ...(language === 'qps' ? { transform: pseudo } : {}) });
    this.bundle.addResource(new FluentResource(files[language]));
  }

  /** A message with its values; a number among them chooses the form. What is in no file is shown by its id. */
  say(id: string, values: Values = {}): string {
    const pattern = this.bundle.getMessage(id)?.value;
    // A place without a value is shown by its name; a test holds that there is none.
    return pattern ? this.bundle.formatPattern(pattern, values, []) : id;
  }

  number(n: number): string {
    return new Intl.NumberFormat(this.#region, { maximumFractionDigits: 1 }).format(n);
  }

  /** A sum as an estimator says it: to the nearest 10 dollars below 1,000 and to the nearest 50 above. */
  money(cents: number): string {
    const step = Math.abs(cents) < 100_000 ? 1_000 : 5_000;
    const style = { style: 'currency', currency: 'USD', currencyDisplay: 'narrowSymbol', maximumFractionDigits: 0 } as const;
    return new Intl.NumberFormat(this.#region, style).format((Math.round(cents / step) * step) / 100 || 0);
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

/** The words of this run: as set on this device, or as the device itself. `?language=es` in the address chooses for
 *  looking and trying. */
function ofThisRun(): Words {
  const asked = typeof location === 'undefined' ? null : new URLSearchParams(location.search).get('language');
  const device = typeof navigator === 'undefined' ? [] : navigator.languages;
  return new Words(pickLanguage([asked, keptLanguage(), ...device].filter((tag) => tag !== null)));
}

export const words = ofThisRun();
