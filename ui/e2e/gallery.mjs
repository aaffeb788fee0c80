// The pictures of docs/gallery.md and of the README, from those that `npm run look` made. Run look first; what is shown is
// what was looked at and found without fault. The house in them is invented.
import { copyFile, mkdir, stat } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';

const here = (path) => fileURLToPath(new URL(path, import.meta.url));
/** State, size and light as look names them; the name in docs/gallery. */
const PICTURES = [
  ['houses-768-light', 'houses'],
  ['start-768-light', 'start'],
  ['choice-768-light', 'card'],
  ['measure-768-light', 'measure'],
  ['measure-1024-dark-first', 'measure-on-its-side'],
  ['places-768-light', 'places'],
  ['next-768-light', 'look-next'],
  ['odds-768-light', 'odds'],
  ['fit-sink-drain-768-light', 'sink'],
  ['marks-768-light', 'marks'],
  ['sheet-measured-768-light', 'beside-paper'],
  ['leaving-768-light', 'leaving'],
  ['sealed-768-light', 'sealed'],
  ['settings-768-light', 'settings'],
  ['measure-390-es-light', 'phone-spanish'],
  ['odds-390-dark', 'phone-dark'],
  ['demolition-sure-768-light', 'demolition'],
  ['record-768-light', 'record'],
  ['office-inbox-1440-light-first', 'office-inbox'],
  ['office-photo-1440-light-first', 'office-photo'],
  ['office-findings-1440-light-first', 'office-findings'],
  ['office-compared-1440-light-first', 'office-compared'],
  ['office-record-1440-light-first', 'office-record'],
  ['office-learning-1440-light-first', 'office-learning'],
];

const to = here('../../docs/gallery/');
await mkdir(to, { recursive: true });
const missing = [];
for (const [from, name] of PICTURES) {
  const path = here(`out/${from}.png`);
  if (await stat(path).catch(() => null)) await copyFile(path, `${to}${name}.png`);
  else missing.push(from);
}
if (missing.length > 0) {
  console.error(`gallery: not there: ${missing.join(', ')}. Run "npm --prefix ui run look" first.`);
  process.exit(1);
}
