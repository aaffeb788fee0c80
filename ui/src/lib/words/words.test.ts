import { FluentBundle, FluentResource } from '@fluent/bundle';
import { describe, expect, it } from 'vitest';
import en from '../../../../words/en/screens.ftl?raw';
import es from '../../../../words/es/screens.ftl?raw';
import officeEn from '../../../../words/en/office-screens.ftl?raw';
import officeEs from '../../../../words/es/office-screens.ftl?raw';
import { pickLanguage, Words, type Language } from './words';

// Every message with every value a screen could give; what the file leaves out or misspells shows as an error.
const VALUES = Object.fromEntries(
  ['after', 'auc', 'before', 'closed', 'device', 'expected', 'firm', 'have', 'houses', 'last', 'new', 'old', 'p50', 'p80', 'p90', 'refuse', 'reliability', 'resolution', 'sent', 'take', 'uncertainty', 'why', 'base', 'brier', 'came', 'carried', 'days', 'entries', 'found', 'label', 'lies', 'notOpened', 'notThere', 'odds', 'range', 'size', 'wanting', 'entered', 'answer', 'answered', 'shown', 'other', 'at', 'by', 'catalog', 'chance', 'engine', 'feet', 'high', 'inches', 'kept', 'length', 'metric', 'of', 'question', 'tolerance', 'how', 'likely', 'left', 'low', 'marks', 'minutes', 'money', 'id', 'name', 'no', 'now', 'number', 'path', 'since', 'software', 'note', 'place', 'reading', 'reason', 'said', 'says', 'share', 'value', 'wanted', 'what', 'when', 'who', 'within', 'year', 'yes'].map(
    (name) => [name, `«${name}»`],
  ),
);
const ids = (text: string) => [...text.matchAll(/^([a-z][a-z0-9-]*) =/gm)].map((match) => match[1]!);

describe('messages of the screens', () => {
  it('are_the_same_in_both_languages', () => {
    expect(ids(officeEs)).toEqual(ids(officeEn));
    expect(ids(es)).toEqual(ids(en));
    expect(ids(en).length).toBeGreaterThan(60);
  });

  it('are_said_without_an_error_for_none_one_and_many', () => {
    for (const [region, text] of [['en-US', en], ['es-US', es], ['en-US', officeEn], ['es-US', officeEs]] as const) {
      const bundle = new FluentBundle(region, { useIsolating: false });
      expect(bundle.addResource(new FluentResource(text))).toEqual([]);
      for (const id of ids(text)) {
        for (const [n, open] of [[0, 0], [1, 1], [2, 1], [1, 3], [1200, 7]] as const) {
          const errors: Error[] = [];
          const said = bundle.formatPattern(bundle.getMessage(id)!.value!, { ...VALUES, n, open }, errors);
          expect(errors, `${region} ${id}`).toEqual([]);
          expect(said.trim(), `${region} ${id}`).not.toBe('');
          expect(said, `${region} ${id}`).not.toMatch(/[{}]/);
        }
      }
    }
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
    expect(english.say('photos', { n: 1 })).toBe('1 photo');
    expect(english.say('photos', { n: 1200 })).toBe('1,200 photos');
    expect(spanish.say('photos', { n: 0 })).toBe('0 fotos');
    expect(spanish.say('houses-heading', { n: 0 })).toBe('Todavía no hay casas en este dispositivo');
    expect(spanish.say('walk-open-disagree', { open: 2, n: 1 })).toBe('Quedan 2 preguntas abiertas, y una tiene respuestas que no coinciden');
  });

  it('shows_an_id_that_is_in_no_file_instead_of_failing', () => {
    expect(english.say('no-such-message')).toBe('no-such-message');
  });

  it('marks_every_letter_in_the_made_up_language', () => {
    const said = new Words('qps' satisfies Language).say('walk-open-disagree', { open: 2, n: 3 });
    expect(said).toMatch(/^2\[.*\]3\[.*\]$/);
    expect(said).not.toMatch(/[A-Za-z]/);
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
