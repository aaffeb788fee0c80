// The screens of the office over a house held in memory, to be looked at in a browser. Never part of the program.
import { mount } from 'svelte';
import '../../src/look/tokens.css';
import '../../src/look/look.css';
import '../../src/office/look.css';
import App from '../../src/office/App.svelte';
import { HostError } from '../../src/lib/host/host';
import { MemoryOffice } from '../../src/office/host/memory';
import type { RecordedOffice } from '../../src/office/host/recorded';
import { words } from '../../src/office/words';
import recorded from './office.json';

const shots = import.meta.glob<string>('../../../sample-surveys/quarry-bend/*/*.jpg', { query: '?url', import: 'default', eager: true });
const wish = new URLSearchParams(location.search);
const office = recorded as unknown as RecordedOffice;
const host = new MemoryOffice(office);
host.shots = (digest) => shots[`../../../sample-surveys/${office.shots[digest]}`] ?? '/no-such-picture.jpg';

// ?as=ROLE: somebody is signed in; ?set-up: nobody was ever here.
const as = wish.get('as');
host.person('Magda Hale', 'owner', 'three words apart', as === 'owner');
host.person('Ines Okafor', 'reviewer', 'three words apart', as === 'reviewer');
host.person('Rosa Lind', 'estimator', 'three words apart', as === 'estimator');
host.person('Teodor Ames-Villalobos', 'office', 'three words apart').locked = true;
if (wish.has('demanded')) host.demanded = true;
// ?closed: owners see the house, and the reviewer.
if (wish.has('closed')) host.closed = host.people.filter((one) => one.role === 'reviewer').map((one) => one.id);
const me = host.people.find((one) => one.role === as);
if (wish.has('second') && me) me.second_factor = true;
host.people[0]!.second_factor = true;
if (as === 'owner' || wish.has('demanded') || wish.has('second')) host.refresh();
host.own = [['192.168.4.12', '2026-06-10T08:02:00-04:00', '2026-06-10T10:20:00-04:00'], ['192.168.4.31', '2026-06-10T07:10:00-04:00', '2026-06-10T07:55:00-04:00'], [null, '2026-06-09T22:41:00-04:00', '2026-06-10T09:30:00-04:00']].map(([from, since, seen], i) => ({ id: `${i}`.repeat(16), from: from ?? null, since: since!, seen: seen!, here: i === 0 }));
if (wish.has('first')) host.session = { ...host.session, person: { ...host.session.person!, first_password: true } };
if (wish.has('set-up')) host.session = { person: null, set_up: false, firm: null };
// Two tablets are certified, one is not yet; a packet that was corrected came later that day.
host.packets = host.packets.map((one, i) => ({
  ...one,
  bytes: 31_400_000 - i * 4_100_000,
  certified: i !== 1,
  device: ['Tablet 2', 'Tablet 3', 'Tablet 1'][i] ?? null,
  seal: i === 1 ? one.seal.replace(/\..*/, '. The key that sealed it is certified by nobody: compare it with the tablet’s.') : 'Whole. The key that sealed it is certified by the firm, and the seal holds.',
}));
if (wish.has('set-aside')) host.refused = Array.from({ length: 23 }, (_, i) => ({ name: `mill-lane-kitchen-${23 - i}.zip`, at: `2026-06-${String(30 - i).padStart(2, '0')}T10:19:00-04:00`, why: i % 2 === 0 ? 'the packet cannot be read: it ends in the middle of a file. Seal the house again on the tablet, or copy the packet again' : 'nobody vouches for the key that sealed it' }));
if (wish.has('empty')) host.packets = [];
if (wish.has('torn')) host.packets = host.packets.map((one, i) => (i === 0 ? { ...one, trouble: 'the packet cannot be read: it ends in the middle of photos/3f2a9c.jpg', seal: 'Not to be opened any more. Receive the same packet again; the tablet still has it.' } : one));
office.house.pages = ['office.pdf', 'household.pdf', 'plumber.pdf', 'electrician.pdf', 'change-orders.pdf', 'conditions.csv'].map((name, i) => ({ name: `pages/${name}`, bytes: 412_000 - i * 57_000 }));
office.house.packets = host.packets.filter((one) => one.survey === office.house.survey);
// ?two: a second packet came later that day; the household signed the first.
if (wish.has('two')) {
  const [one] = office.house.packets;
  office.house.packets = [{ ...one!, packet: 'b2'.repeat(32), number: one!.number + 1, receivedAt: '2026-03-03T17:40:00-05:00' }, one!];
  office.house.signature = { name: 'Odalys Brandt', at: '2026-03-03T14:02:00-05:00', said: 'I have read this page. Signing it agrees to no price.', wide: 1000, high: 320,
    drawn: 'M90 210L140 120L175 95L205 130L190 215L150 250L120 225M260 180L300 150L335 165L330 215L290 220L265 190M370 90L362 225M400 215L470 150L520 205L585 140L640 210L700 150L905 190' };
}
host.lines = [
  ['2026-06-10T08:02:00-04:00', 'Ines Okafor', 'signed-in', null], ['2026-06-09T17:31:00-04:00', 'Magda Hale', 'unlocked', 'Rosa Lind'],
  ['2026-06-09T17:20:00-04:00', null, 'locked', 'Teodor Ames-Villalobos'], ['2026-06-09T14:45:00-04:00', 'Ines Okafor', 'finding-entered', 'Quarry Bend kitchen: bulkhead-duct'],
  ['2026-03-03T14:12:00-05:00', 'Rosa Lind', 'packet-received', 'Quarry Bend kitchen 1'], ['2026-01-12T08:05:00-05:00', 'Magda Hale', 'person-added', 'Rosa Lind'],
  ['2026-01-12T08:01:00-05:00', 'Magda Hale', 'set-up', null],
].map(([at, who, what, about], i) => ({ n: 7 - i, at: at!, who: who ?? null, what: what!, about: about ?? null, address: i === 2 ? '192.168.4.17' : null }));
const holds = [{ holds: 'version', version: 2, handed: 3 }, { holds: 'not-said', version: null, handed: null }, { holds: 'nothing', version: null, handed: null }] as const;
host.tablets = [['Tablet 1', '2026-01-14T09:10:00-05:00', '2026-06-09T17:02:00-04:00', null], ['Tablet 2', '2026-01-14T09:25:00-05:00', null, null], ['Tablet 3', '2026-01-20T08:00:00-05:00', '2026-05-02T11:40:00-04:00', '2026-05-04T08:15:00-04:00']].map(
  ([name, pairedAt, lastSeen, revokedAt], i) => ({ id: `${i + 1}`.padStart(32, '0'), name: name!, key: 'kPrK_JWK2thumbprint0of0an0invented0tablet0x'.slice(0, 43), pairedAt: pairedAt!, pairedBy: i === 2 ? null : 'Magda Hale', lastSeen: lastSeen ?? null, revokedAt: revokedAt ?? null, ...holds[i]! }));
if (wish.has('arriving')) host.arriving = [{ packet: '3f2a9c', tablet: 'Tablet 2', bytes: 31_400_000, have: 12_700_000, since: '2026-06-10T10:02:00-04:00', last: '2026-06-10T10:19:00-04:00' }];
host.few = wish.has('few');
// ?published: the numbers are those of a version; ?differs: they are others by now.
if (wish.has('published')) host.published = { last: { number: 3, at: '2026-06-02T16:40:00-04:00', by: 'Magda Hale', houses: 12, catalog: '9d41c07be2aa' }, differs: wish.has('differs') };
if (wish.has('working')) host.learning = { ...host.learning, state: 'working', lines: [], heldOut: null };
if (wish.has('taught')) host.learning = { ...host.learning, state: 'none', lines: [], known: host.learning.houses.length };
host.stands = wish.has('stands');
host.unopened = wish.has('unopened');
if (wish.has('done')) for (const row of host.rows) row.finding ??= { outcome: 'not-there', costCents: 0, daysTenths: 0, borne: 'not-said', note: '', photo: null, by: 'Ines Okafor', at: '2026-06-09T15:00:00-04:00' };
if (wish.has('refused')) host.refusal = new HostError('damaged', 'The office’s database cannot be used: the disk is full.', 'Make room; nothing was written.');
document.documentElement.lang = words.language;
const target = document.getElementById('screen');
if (target) mount(App, { target, props: { host } });
