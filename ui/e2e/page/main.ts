// The same screens over houses held in memory, to be looked at in a browser. Never part of the program.
import { mount } from 'svelte';
import '../../src/look/tokens.css';
import '../../src/look/look.css';
import App from '../../src/App.svelte';
import { HostError } from '../../src/lib/host/host';
import { MemoryHost } from '../../src/lib/host/memory';
import { words } from '../../src/lib/words/words';
import { pseudo } from '../../src/lib/words/pseudo';
import type { Recorded, RecordedFits } from '../../src/lib/host/recorded';
import { marked, markedFits, markedWalk } from './marked';
import fits from './fits.json';
import recorded from './recorded.json';
import { album } from './album';
import { houses } from './sample';

const said = (text: string) => (words.language === 'qps' ? pseudo(text) : text);
const wish = new URLSearchParams(location.search);
const walk = recorded as unknown as Recorded;
const host = new MemoryHost(
  wish.has('empty') ? [] : words.language === 'qps' ? houses.map(marked) : [...houses],
  words.language === 'qps' ? markedWalk(walk) : walk,
  words.language === 'qps' ? markedFits(fits as unknown as RecordedFits) : (fits as unknown as RecordedFits),
);
// ?slow: how the odds came about is still being worked out.
host.slow = wish.has('slow');
host.said = host.album.said = said;
album(host.album, said, wish.has('marked'));
// ?at=KEY: left at a card; ?answered: with every card before it answered; ?done: with all of them.
const left = wish.get('at');
const alder = houses[0]!.survey;
if (left !== null || wish.has('done')) host.fill(alder, wish.has('answered') || wish.has('done') ? left : null, left);
// ?sealed: two packets are there; ?since: more was recorded; a sealing stands still half way to be looked at.
if (wish.has('sealed')) for (const photos of [7, 9]) host.desk.seal(alder, photos);
if (wish.has('since')) host.desk.since.set(alder, 4);
host.desk.stands = 5;
// ?over: demolition was declared; ?late: another tablet walked on, and the house was sealed since.
if (wish.has('over') || wish.has('late')) {
  const late = { what: said('How high is the center of the drain stub-out above that?'), said: '20 1/4"', by: 'R. Ames', at: '2026-03-20T09:10:00-05:00' };
  host.declare(alder, said('North wall opened from the pantry side.'), wish.has('late') ? [late] : [], !wish.has('late'));
}
// Two sheets of a page, invented; the program sets them from the household's own.
const lines = (from: number, n: number) => Array.from({ length: n }, (_, i) => `<rect x="60" y="${from + i * 26}" width="${i % 3 === 2 ? 300 : 480}" height="9"/>`).join('');
host.desk.sheets = [lines(170, 21), lines(90, 12)].map((text, i) => `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 612 792"><rect width="612" height="792" fill="white"/>${i === 0 ? '<rect x="60" y="80" width="380" height="22"/>' : ''}<g fill="gray">${text}</g></svg>`);
// ?paired: with an office; ?sends: the last packet stands half way to it.
if (wish.has('paired') || wish.has('sends')) host.line.paired();
if (wish.has('sends')) host.line.stands = 0.4;
// ?taken: it took the office's catalog; ?unused: and does not use it; ?older: the last one was not taken.
if (wish.has('taken')) host.line.catalog = { version: { number: 3, at: '2026-03-01T08:00:00-05:00', by: said('Magda Hale'), houses: 12, catalog: '9d41c07be2aa' }, since: '2026-03-02T17:12:00-05:00', unused: wish.has('unused') ? said('this device has numbers of its own in /home/someone/underlath/overlay, which go before it; take them away, and it is used') : null };
if (wish.has('older')) host.line.notTaken = said('the office offers version 2 of its catalog as a new one, and this device has version 3 (the office may have come back from a backup: have it publish again until its number is higher)');
host.line.said = said;
if (wish.has('refused')) {
  host.refusal = new HostError(
    'damaged',
    said('The record of this device cannot be read: the file /home/someone/underlath/record.sqlite is not a database.'),
    said('Put back the last copy of the file; nothing was written to it.'),
  );
}
document.documentElement.lang = words.language;
const target = document.getElementById('screen');
if (target) mount(App, { target, props: { host } });
