import { describe, expect, it } from 'vitest';
import { houses } from '../../../e2e/page/sample';
import { HostError } from '../host/host';
import { MemoryHost } from '../host/memory';
import { Words } from '../words/words';
import { grouped, Packets } from './packets.svelte';

const words = new Words('en');
const alder = houses[0]!.survey;

async function read(host = new MemoryHost([...houses])) {
  const packets = new Packets(host, alder);
  await packets.read();
  return { host, packets };
}

describe('the packets of a house', () => {
  it('are_sealed_one_file_after_the_other_and_headed_by_what_they_hold', async () => {
    const { host, packets } = await read();
    expect(packets.heading(words)).toBe('Not sealed yet');
    const sealing = packets.seal();
    expect(packets.heading(words)).toBe('Sealing the packet');
    await sealing;
    expect(host.asked.filter((name) => name === 'seal-on').length).toBe(houses[0]!.photos + 1);
    expect(packets.heading(words)).toBe('Packet 1 holds all that is recorded');
    host.desk.since.set(alder, 3);
    await packets.read();
    expect(packets.heading(words)).toBe('3 entries were recorded since packet 1');
    await packets.seal();
    expect(packets.value!.packets.map((one) => one.number)).toEqual([2, 1]);
  });

  it('are_sealed_with_the_households_pages_in_the_language_chosen', async () => {
    const { host } = await read();
    const asked: unknown[] = [];
    const ask = host.ask.bind(host);
    host.ask = (name, args) => (name === 'seal' && asked.push(args), ask(name, args));
    const packets = new Packets(host, alder, 'es');
    await packets.seal();
    packets.household = 'en';
    await packets.seal();
    expect(asked).toEqual([{ survey: alder, household: 'es', signs: false }, { survey: alder, household: 'en', signs: false }]);
  });

  it('wait_for_the_household_to_sign_and_say_who_did', async () => {
    const { host, packets } = await read();
    host.desk.sheets = ['one', 'two'];
    packets.signs = true;
    await packets.seal();
    expect([packets.page?.pictures.length, packets.busy, host.asked.includes('seal-on')]).toEqual([2, false, false]);
    await packets.sign('  ', []);
    expect([packets.refused?.kind, packets.page !== null]).toEqual(['input', true]);
    await packets.sign('Ada Alder', [[[1, 2]]]);
    expect([packets.page, packets.refused, packets.last?.signedBy]).toEqual([null, null, 'Ada Alder']);
  });

  it('are_sealed_unsigned_or_stopped_while_they_wait', async () => {
    const { host, packets } = await read();
    packets.signs = true;
    await packets.seal();
    await packets.stop();
    expect([packets.page, packets.going, packets.last, host.asked.includes('stop-sealing')]).toEqual([null, null, null, true]);
    await packets.seal();
    await packets.unsigned();
    expect([packets.page, packets.last?.signedBy]).toEqual([null, null]);
  });

  it('are_not_there_after_a_sealing_that_was_stopped', async () => {
    const { host, packets } = await read();
    const sealing = packets.seal();
    packets.stop();
    await sealing;
    expect(host.asked).toContain('stop-sealing');
    expect([packets.value!.packets.length, packets.going, packets.busy]).toEqual([0, null, false]);
    await packets.seal();
    expect(packets.last?.number).toBe(1);
  });

  it('say_why_a_sealing_was_refused_and_can_be_sealed_once_that_is_mended', async () => {
    const { host, packets } = await read();
    host.desk.full = true;
    await packets.seal();
    expect(packets.refused).toBeInstanceOf(HostError);
    expect(packets.refused?.hint).toBe('Everything recorded before is kept.');
    host.desk.full = false;
    await packets.seal();
    expect([packets.refused, packets.last?.number]).toEqual([null, 1]);
  });

  it('are_handed_over_as_a_copy_whose_place_is_said', async () => {
    const { packets } = await read();
    await packets.seal();
    await packets.handOver(1, false);
    expect(packets.copy).toMatch(/-1\.zip$/);
    await packets.handOver(1, true);
    expect(packets.copy).toMatch(/-1-pages$/);
    await packets.handOver(7, false);
    expect([packets.copy, packets.refused?.kind]).toEqual(['', 'missing']);
  });

  it('have_a_sum_in_groups_of_eight', () => {
    expect(grouped('sha256:00112233445566778899aabbccddeeff')).toEqual(['00112233', '44556677', '8899aabb', 'ccddeeff']);
  });
});
