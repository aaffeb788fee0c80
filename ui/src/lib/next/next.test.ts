import { describe, expect, it } from 'vitest';
import recorded from '../../../e2e/page/recorded.json';
import { houses } from '../../../e2e/page/sample';
import { MemoryHost } from '../host/memory';
import type { Recorded } from '../host/recorded';
import { Leaving } from '../leaving/leaving.svelte';
import { until } from '../until';
import { Words } from '../words/words';
import { LookNext } from './next.svelte';

const words = new Words('en');
const SURVEY = '0195-alder-street';
const memory = () => new MemoryHost([...houses], recorded as unknown as Recorded);

describe('looking next', () => {
  it('says_how_many_looks_are_worth_their_minutes', async () => {
    const next = new LookNext(memory(), SURVEY);
    expect(next.heading(words)).toBe('Weighing what is left to look at…');
    await next.read();
    expect(next.heading(words)).toBe('3 looks are worth their minutes');
  });

  it('records_what_a_look_showed_once_it_was_said_of_every_condition', async () => {
    const host = memory();
    const next = new LookNext(host, SURVEY);
    await next.read();
    const look = next.value!.looks.find((one) => one.changes.length > 1)!;
    next.go(look);
    await next.show(look.changes[0]!.key, 'shows-it');
    expect(host.asked).not.toContain('show-check');
    await next.show(look.changes[1]!.key, 'unclear');
    expect(host.asked).toContain('show-check');
    expect(next.made).toBeNull();
    expect(next.said).toBe(look.check);
  });
});

describe('before leaving', () => {
  it('counts_what_is_still_open', async () => {
    const leaving = new Leaving(memory(), SURVEY);
    await leaving.read();
    const it = leaving.value!;
    expect(leaving.open).toBe(it.photos.length + it.implausible.length + it.clashes.length);
    expect(leaving.heading(words)).toBe(`${leaving.open} things are still open`);
  });
});

describe('asking again', () => {
  it('waits_for_an_answer_that_was_not_broken_off', async () => {
    const answers = [null, null, 'here'];
    expect(await until(async () => answers.shift() ?? null, 0)).toBe('here');
  });

  it('gives_up_after_a_while', async () => {
    await expect(until(async () => null, 0)).rejects.toThrow('broken off');
  });
});
