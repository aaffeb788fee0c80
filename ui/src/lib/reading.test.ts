import { describe, expect, it } from 'vitest';
import { HostError } from './host/host';
import { Reading } from './reading.svelte';

describe('a reading', () => {
  it('starts_with_neither_value_nor_trouble', () => {
    const reading = new Reading(async () => 1);
    expect([reading.value, reading.trouble]).toEqual([null, null]);
  });

  it('keeps_the_kind_and_hint_of_a_refusal', async () => {
    const reading = new Reading(async () => Promise.reject({ kind: 'damaged', message: 'No.', hint: 'Restore it.' }));
    await reading.read();
    expect(reading.trouble).toBeInstanceOf(HostError);
    expect(reading.trouble).toMatchObject({ kind: 'damaged', message: 'No.', hint: 'Restore it.' });
  });

  it('takes_any_thrown_thing_for_an_error_in_words', async () => {
    const reading = new Reading(async () => Promise.reject('gone'));
    await reading.read();
    expect(reading.trouble).toMatchObject({ kind: 'internal', message: 'gone', hint: null });
  });

  it('keeps_what_was_there_when_a_second_reading_fails_and_forgets_trouble_when_one_succeeds', async () => {
    const answers = [() => Promise.resolve(1), () => Promise.reject(new Error('x')), () => Promise.resolve(2)];
    const reading = new Reading(() => answers.shift()!());
    await reading.read();
    await reading.read();
    expect(reading.value).toBe(1);
    expect(reading.trouble?.message).toBe('x');
    await reading.read();
    expect([reading.value, reading.trouble]).toEqual([2, null]);
  });

  it('lets_a_late_answer_to_an_earlier_question_pass', async () => {
    const waiting: ((n: number) => void)[] = [];
    const reading = new Reading(() => new Promise<number>((done) => waiting.push(done)));
    const first = reading.read();
    const second = reading.read();
    waiting[1]!(2);
    await second;
    waiting[0]!(1);
    await first;
    expect(reading.value).toBe(2);
  });
});
