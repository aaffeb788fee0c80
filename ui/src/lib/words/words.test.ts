import { describe, expect, it } from 'vitest';
import en from './en.json';
import es from './es.json';
import { pickLanguage, Words } from './words';

const places = (text: string) => [...text.matchAll(/\{(\w+)\}/g)].map((m) => m[1]).sort();

describe('catalogs of words', () => {
  it('have_the_same_keys_in_both_languages', () => {
    expect(Object.keys(es)).toEqual(Object.keys(en));
  });

  it('leave_nothing_empty_and_keep_the_same_places_for_values', () => {
    for (const key of Object.keys(en) as (keyof typeof en)[]) {
      expect(es[key].trim(), key).not.toBe('');
      expect(places(es[key]), key).toEqual(places(en[key]));
    }
  });

  it('have_both_forms_of_every_count', () => {
    const forms = Object.keys(en).filter((key) => key.includes('.'));
    for (const key of forms) expect(en).toHaveProperty([key.replace(/\.\w+$/, '.one')]);
    for (const key of forms) expect(en).toHaveProperty([key.replace(/\.\w+$/, '.other')]);
  });

  it('never_say_a_house_or_a_cut_is_safe', () => {
    const banned = /\b(safe|compliant|passed|clear to cut|segur[oa]s?|aprobad[oa])\b/i;
    for (const text of [...Object.values(en), ...Object.values(es)]) expect(text).not.toMatch(banned);
  });
});

describe('writing', () => {
  const english = new Words('en');
  const spanish = new Words('es');

  it('picks_the_first_language_it_has', () => {
    expect(pickLanguage(['fr-CA', 'es-MX', 'en-US'])).toBe('es');
    expect(pickLanguage(['fr'])).toBe('en');
    expect(pickLanguage([])).toBe('en');
  });

  it('counts_in_the_right_form', () => {
    expect(english.count('photos', 1)).toBe('1 photo');
    expect(english.count('photos', 12)).toBe('12 photos');
    expect(spanish.count('photos', 0)).toBe('0 fotos');
    expect(english.days(3.5)).toBe('3.5 days');
  });

  it('writes_a_sum_as_an_estimator_says_it', () => {
    expect(english.money(2240219)).toBe('$22,400');
    expect(english.money(183740)).toBe('$1,850');
    expect(english.money(18300)).toBe('$180');
    expect(english.money(99_600)).toBe('$1,000');
    expect(english.money(0)).toBe('$0');
  });

  it('keeps_the_wall_clock_of_the_house_whatever_our_own_zone', () => {
    expect(english.when('2026-03-03T10:52:07-08:00')).toBe('Mar 3, 2026, 10:52\u00a0AM');
    expect(english.when('2026-03-03T23:59:00+13:45')).toBe('Mar 3, 2026, 11:59\u00a0PM');
    expect(english.when('not a time')).toBe('not a time');
  });
});
