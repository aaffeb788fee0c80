import { describe, expect, it } from 'vitest';
import recorded from '../../../e2e/page/office.json';
import { HostError } from '../../lib/host/host';
import { MemoryOffice } from '../host/memory';
import type { RecordedOffice } from '../host/recorded';
import { Learning } from './learning.svelte';
import { Publishing } from './publishing.svelte';
import { FIRST, Track } from './record.svelte';

function memory() {
  const host = new MemoryOffice(structuredClone(recorded) as unknown as RecordedOffice);
  host.person('I. Okafor', 'reviewer', 'the first of them', true);
  return host;
}

describe('the track record', () => {
  it('says_what_was_found_beside_what_was_to_be_expected_and_leads_to_the_houses', async () => {
    const track = new Track(memory(), 'condition');
    await track.read();
    const { all, houses } = track.value!;
    expect(track.heading.replace(/,(?=\d{3})/g, '')).toBe(`${all.opened} places opened: ${all.found} found, ${Math.round(all.expected)} to be expected by what we said`);
    expect(track.houses(all.houses).map((house) => house.survey)).toEqual(all.houses.map((place) => houses[place]!.survey));
    expect(track.houses(all.houses).reduce((sum, house) => sum + house.opened, 0)).toBe(all.opened);
    track.toggle('bin-0');
    expect(track.open).toBe('bin-0');
    track.toggle('bin-0');
    expect(track.open).toBeNull();
  });

  it('shows_the_parts_that_say_most_until_all_are_asked_for', async () => {
    const track = new Track(memory(), 'condition');
    await track.read();
    const told = track.value!.groups.filter((group) => group.record.opened > 0);
    expect([track.groups.length, track.further]).toEqual([FIRST, told.length - FIRST]);
    const opened = track.groups.map((group) => group.record.opened);
    expect(opened).toEqual([...opened].sort((a, b) => b - a));
    track.all = true;
    expect([track.groups.length, track.further]).toEqual([told.length, 0]);
  });

  it('asks_again_with_the_houses_that_the_numbers_learned_from', async () => {
    const host = memory();
    const track = new Track(host, 'era');
    await track.read();
    expect(track.value!.withSeen).toBe(false);
    await track.withSeen();
    expect([track.value!.withSeen, host.asked]).toEqual([true, ['track', 'track']]);
  });
});

describe('what houses teach', () => {
  it('is_chosen_line_by_line_and_taken_over_at_once', async () => {
    const host = memory();
    const learning = new Learning(host);
    await learning.read();
    const [first, second] = learning.lines;
    learning.choose();
    learning.step(1);
    expect(learning.line!.id).toBe(second!.id);
    learning.choose();
    learning.choose();
    expect([...learning.chosen]).toEqual([first!.id]);
    await learning.accept();
    expect(learning.chosen.size).toBe(0);
    expect(learning.value!).toMatchObject({ state: 'none', lines: [], known: recorded.learning.houses.length });
    expect(learning.value!.decided[0]).toMatchObject({ line: first!.id, accepted: true, by: 'I. Okafor' });
    expect(learning.said).toContain('One line is taken over');
  });

  it('is_refused_with_a_word_why_and_no_longer_chosen', async () => {
    const learning = new Learning(memory());
    await learning.read();
    learning.choose();
    learning.why = 'too few';
    await learning.refuse();
    expect([learning.chosen.size, learning.why, learning.line!.decided?.why]).toEqual([0, null, 'too few']);
  });

  it('that_is_refused_by_the_program_stays_chosen', async () => {
    const host = memory();
    const learning = new Learning(host);
    await learning.read();
    learning.choose();
    host.refusal = new HostError('conflict', 'The proposal was made from another catalog; learn again.');
    await learning.accept();
    expect([learning.chosen.size, learning.refused?.kind]).toEqual([1, 'conflict']);
  });

  it('is_asked_for_again_only_while_it_is_worked_out', async () => {
    const host = memory();
    const learning = new Learning(host);
    await learning.read();
    expect(learning.going).toBe(false);
    host.learning = { ...host.learning, state: 'working', lines: [] };
    await learning.read();
    expect([learning.going, learning.line]).toEqual([true, null]);
    host.learning = { ...host.learning, state: 'ready', scoring: true };
    await learning.read();
    expect(learning.going).toBe(true);
  });

  it('is_published_once_it_was_taken_over_and_not_again', async () => {
    const host = memory();
    const publishing = new Publishing(host);
    await publishing.read();
    expect(publishing.value).toEqual({ last: null, differs: false });
    const learning = new Learning(host);
    await learning.read();
    learning.choose();
    await learning.accept();
    await publishing.read();
    expect(publishing.value!.differs).toBe(true);
    publishing.sure = true;
    await publishing.publish();
    expect(publishing.value).toMatchObject({ last: { number: 1, by: 'I. Okafor', houses: recorded.learning.houses.length }, differs: false });
    expect(publishing.sure).toBe(false);
    await publishing.publish();
    expect([publishing.refused?.kind, publishing.value!.last!.number]).toEqual(['conflict', 1]);
  });
});
