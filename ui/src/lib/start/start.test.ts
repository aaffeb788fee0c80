import { describe, expect, it } from 'vitest';
import recorded from '../../../e2e/page/recorded.json';
import { houses } from '../../../e2e/page/sample';
import { MemoryHost } from '../host/memory';
import type { Recorded } from '../host/recorded';
import { Start } from './start.svelte';

async function form() {
  const host = new MemoryHost([...houses], recorded as unknown as Recorded);
  const start = new Start(host);
  await start.read();
  return { host, start };
}

describe('a house to be started', () => {
  it('numbers_the_planned_works_in_the_order_they_were_touched', async () => {
    const { start } = await form();
    const [a, b] = start.value!.works.map((work) => work.id) as [string, string];
    start.toggle(b);
    start.toggle(a);
    expect([start.number(a), start.number(b)]).toEqual([2, 1]);
    start.toggle(b);
    expect([start.number(a), start.number(b)]).toEqual([1, 0]);
  });

  it('becomes_a_survey_and_the_house_is_there', async () => {
    const { host, start } = await form();
    start.label = 'Elm Court bath';
    start.year = '1964';
    const survey = await start.start();
    expect(survey).not.toBeNull();
    expect((await host.ask('houses', {})).map((house) => house.label)).toContain('Elm Court bath');
  });

  it('is_refused_with_how_to_mend_it_and_keeps_what_was_keyed', async () => {
    const { start } = await form();
    start.label = 'Alder Street kitchen';
    expect(await start.start()).toBeNull();
    expect(start.refused!.hint).toBe('Give this one another label.');
    expect([start.label, start.busy]).toEqual(['Alder Street kitchen', false]);
  });

  it('has_a_year_on_the_tape_only_when_it_is_one', async () => {
    const { start } = await form();
    for (const [keyed, on] of [['1964', 1964], ['196', null], ['1492', null], ['about', null], ['', null]] as const) {
      start.year = keyed;
      expect(start.onTape, keyed).toBe(on);
    }
  });
});
