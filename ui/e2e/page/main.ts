// The same screens over houses held in memory, to be looked at in a browser. Never part of the program.
import { mount } from 'svelte';
import '../../src/look/tokens.css';
import '../../src/look/look.css';
import App from '../../src/App.svelte';
import { HostError } from '../../src/lib/host/host';
import { MemoryHost } from '../../src/lib/host/memory';
import { words } from '../../src/lib/words/words';
import { houses } from './sample';

const wish = new URLSearchParams(location.search);
const host = new MemoryHost(wish.has('empty') ? [] : houses);
if (wish.has('refused')) {
  host.refusal = new HostError(
    'damaged',
    'The record of this device cannot be read: the file /home/someone/underlath/record.sqlite is not a database.',
    'Put back the last copy of the file; nothing was written to it.',
  );
}
document.documentElement.lang = words.language;
const target = document.getElementById('screen');
if (target) mount(App, { target, props: { host } });
