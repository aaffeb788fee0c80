import { describe, expect, it } from 'vitest';
import { MemoryHost } from '../host/memory';
import { fingerprintGroups, Link } from './link.svelte';
import { Sends } from './sends.svelte';

describe('the office of a tablet', () => {
  it('is_compared_before_it_is_paired_and_unpaired_again', async () => {
    const host = new MemoryHost([]);
    const link = new Link(host);
    await link.read();
    expect(link.office).toBeNull();
    link.pasted = 'https://elsewhere.example';
    await link.readPasted();
    expect([link.refused?.kind, link.pairing]).toEqual(['input', null]);
    link.pasted = ' underlath-office:v1 ';
    await link.readPasted();
    expect([link.refused, link.pairing?.firm, link.office]).toEqual([null, 'Hale & Daughter', null]);
    link.name = ' Tablet 4 ';
    await link.pair();
    expect([link.office?.device, link.pairing, link.pasted]).toEqual(['Tablet 4', null, '']);
    await link.unpair();
    expect(link.office).toBeNull();
  });

  it('that_does_not_take_the_code_leaves_it_on_the_screen', async () => {
    const link = new Link(new MemoryHost([]));
    await link.readPhoto(new Blob([new Uint8Array([0xff, 0xd8])]));
    expect(link.pairing?.address).toBe('office.hale.example:8443');
    link.pairing = { ...link.pairing!, link: 'underlath-office:used' };
    await link.pair();
    expect([link.refused?.kind, link.pairing?.link]).toEqual(['conflict', 'underlath-office:used']);
    link.not();
    expect([link.refused, link.pairing]).toEqual([null, null]);
  });

  it('is_asked_for_a_newer_catalog_and_says_where_there_is_none', async () => {
    const host = new MemoryHost([]);
    const link = new Link(host);
    await link.lookForCatalog();
    expect([link.refused?.kind, link.nothingNew]).toEqual(['missing', false]);
    host.line.paired();
    await link.read();
    expect(link.value!.catalog).toBeNull();
    host.line.published = { number: 3, at: '2026-03-01T08:00:00-05:00', by: 'Magda Hale', houses: 12, catalog: '9d41c07be2aa' };
    await link.lookForCatalog();
    expect([link.refused, link.nothingNew, link.value!.catalog!.version.number]).toEqual([null, false, 3]);
    await link.lookForCatalog();
    expect([link.nothingNew, link.value!.catalog!.version.number]).toEqual([true, 3]);
  });

  it('has_a_fingerprint_in_groups_of_four_however_it_is_written', () => {
    const groups = ['9A41', 'C07B', 'E2'];
    for (const text of ['9a41c07be2', '9A:41:C0:7B:E2', '9a41 c07b e2']) expect(fingerprintGroups(text)).toEqual(groups);
    expect(fingerprintGroups('')).toEqual([]);
  });
});

describe('a packet on its way', () => {
  it('is_watched_until_the_office_has_it', async () => {
    const host = new MemoryHost([]);
    const sends = new Sends(host, 'alder');
    await sends.send('d1');
    expect([sends.refused?.kind, sends.of('d1')]).toEqual(['conflict', null]);
    host.line.paired();
    await sends.send('d1');
    expect([sends.of('d1')?.state, sends.going]).toEqual(['going', true]);
    await sends.send('d1');
    while (sends.going) await sends.read();
    expect(sends.of('d1')).toMatchObject({ state: 'acknowledged', sent: 31_400_000 });
    expect(sends.value!.length).toBe(1);
  });

  it('of_another_house_is_not_watched_here', async () => {
    const host = new MemoryHost([]);
    host.line.paired();
    host.line.send('elsewhere', 'd2');
    host.line.stands = 0.4;
    const sends = new Sends(host, 'alder');
    await sends.read();
    expect([sends.value!.length, sends.going]).toEqual([1, false]);
  });
});
