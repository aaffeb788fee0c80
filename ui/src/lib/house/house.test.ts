import { describe, expect, it } from 'vitest';
import { houses } from '../../../e2e/page/sample';
import { HostError } from '../host/host';
import { MemoryHost } from '../host/memory';
import { Words } from '../words/words';
import { House } from './house.svelte';

const words = new Words('en');

async function read(survey: string, host = new MemoryHost(houses)) {
  const house = new House(host, survey);
  await house.read();
  return house;
}

describe('a house', () => {
  it('counts_an_answer_that_is_not_knowing_as_an_answer', async () => {
    const house = await read('0195-alder-street');
    const kinds = house.rows.map((row) => row.kind);
    expect(kinds).toContain('cant-tell');
    expect(kinds).toContain('could-not-reach');
    expect(house.wanted).toBe(12);
    expect(house.answered).toBe(10);
    expect(house.disagreeing).toBe(1);
  });

  it('says_the_point_of_the_walk_in_a_sentence', async () => {
    const house = await read('0195-alder-street');
    expect(house.walkHeading(words)).toBe('2 questions are still open, and one has answers that disagree');
    const one = await read('0195-tanner-row');
    expect(one.walkHeading(words)).toBe('One question is still open');
  });

  it('says_that_a_walk_is_done_only_when_nothing_is_open', async () => {
    const all = houses[1]!.stations.map((s) => ({ ...s, rows: s.rows.filter((row) => row.kind !== 'open') }));
    const house = await read('done', new MemoryHost([{ ...houses[1]!, survey: 'done', stations: all }]));
    expect(house.walkHeading(words)).toBe('Every question is answered, 1 in all');
  });

  it('says_that_it_reads_before_it_has_read_and_what_failed_after', async () => {
    const host = new MemoryHost(houses);
    const house = new House(host, 'nowhere');
    expect(house.walkHeading(words)).toBe('Reading the record…');
    await house.read();
    expect(house.walkHeading(words)).toBe('The record could not be read');
    expect(house.trouble).toMatchObject({ kind: 'missing', hint: 'Look at the list of houses.' });
  });

  it('stays_on_the_screen_when_a_second_reading_is_refused', async () => {
    const host = new MemoryHost(houses);
    const house = await read('0195-alder-street', host);
    host.refusal = new HostError('damaged', 'No.');
    await house.read();
    expect(house.value?.label).toBe('Alder Street kitchen');
    expect(house.trouble?.message).toBe('No.');
  });
});
