// Opens the real window program on a made display and looks at it through WebKitWebDriver: the houses of a folder of
// records are listed, one is started and walked, ended and opened again on its card, its odds are worked out,
// nothing is refused by axe-core, nothing scrolls sideways.
// Usage: xvfb-run -a -s "-screen 0 1280x1200x24" node e2e/window.mjs PROGRAM RECORDS
import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { createServer as createHttpServer } from 'node:http';
import { resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { driver, until } from './webdriver.mjs';

const [program, records] = process.argv.slice(2).map((path) => resolve(path));
if (!program || !records) throw new Error('usage: node e2e/window.mjs PROGRAM RECORDS');
const here = (path) => fileURLToPath(new URL(path, import.meta.url));
const out = here('out');
const axe = await readFile(here('../node_modules/axe-core/axe.min.js'), 'utf8');
await mkdir(out, { recursive: true });

const faults = [];
const window = await driver(program, records);
const { run, wait, text, press } = window;
try {
  await window.open();

  const look = async (name) => {
    // two frames, or the picture may be of the screen before
    await wait('const done = arguments[0]; requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(done, 0)))');
    await writeFile(`${out}/window-${name}.png`, await window.picture());
    const wide = await run('return document.documentElement.scrollWidth - document.documentElement.clientWidth');
    if (wide > 0) faults.push(`${name}: scrolls sideways by ${wide} px`);
    await run(axe);
    const found = await wait('const done = arguments[0]; axe.run(document).then((r) => done(r.violations.map((v) => v.id + ": " + v.help)))');
    for (const one of found) faults.push(`${name}: axe ${one}`);
  };

  // The window opens where it was left the last time.
  await until('the first screen', async () => (await text('.left .name, .card h1')).length > 0);
  await run('location.hash = "#/"');
  const names = await until('the list of houses', async () => {
    const found = await text('.left .name, .houses .name');
    return found.length > 0 && found;
  });
  console.log(`houses: ${names.join(', ')}`);
  await look('houses');

  // A house is started by hand: its label, one planned work, and the walk begins.
  const key = async (selector, keys) => run(
    `const [selector, text] = arguments, field = document.querySelector(selector);
     field.value = text; field.dispatchEvent(new Event('input', { bubbles: true }));`, selector, keys);
  await press('.foot a.now');
  await until('the form of a new house', async () => (await text('.work')).length > 0);
  await key('.field input', `Window Street ${Date.now()}`);
  await press('li:nth-child(2) > .work');
  await until('the key that starts the walk', async () => (await text('button.now')).length > 0);
  await press('button.now');
  const first = await until('the first card', async () => {
    const [asked] = await text('.card h1');
    return (await text('.answer')).length > 0 && asked;
  });
  await look('card');

  // One card is answered by one touch; it is on the disk before the next one is there.
  const before = Date.now();
  await press('.answer');
  const second = await until('the next card', async () => {
    const [asked] = await text('.card h1');
    return asked !== first && asked;
  });
  console.log(`“${first}” answered in ${Date.now() - before} ms, waiting in steps of 100 ms; next “${second}”`);
  await press('.tools button:nth-child(2)');
  await until('the answer on its card', async () => (await text('.answer.chosen')).length === 1);
  const weighed = await until('the best look in the title block', async () => {
    const [said] = await text('.foot .now .v');
    return /\$/.test(said ?? '') && said;
  });
  console.log(`look next: ${weighed}`);

  // The program is ended as it stands and started again: the same house, the same card.
  await window.close();
  await window.open();
  await until('the card where it was left', async () => (await text('.card h1'))[0] === first);
  if ((await text('.answer.chosen')).length !== 1) faults.push('the answer is not there after the program was ended');
  await look('card-again');

  // A length is keyed on its card; a photograph comes from a file, as the camera hands one over.
  await press('.foot a[href$="/places"]');
  await until('the places', async () => (await text('.stop')).length > 0);
  for (let n = 0; (await text('.measuring')).length === 0; n += 1) {
    if (n === (await text('.stop')).length) throw new Error('no card with a keypad');
    await run('document.querySelectorAll(".stop")[arguments[0]].click()', n);
    await until('the cards of a place', async () => (await text('.cards button')).length > 0);
    const found = await run('const card = [...document.querySelectorAll(".cards .to")].find((one) => /How (deep|thick|high)/.test(one.textContent)); card?.click(); return Boolean(card)');
    if (found) await until('the keypad', async () => (await text('.measuring')).length > 0);
  }
  const [length] = await text('.card h1');
  const photo = fileURLToPath(new URL('../../sample-surveys/alder-street/photos/under-sink.jpg', import.meta.url));
  await window.give('.camera input', photo);
  await until('the photograph on its card', async () => (await text('.taken .said')).length > 0);
  await look('photo');
  for (const digit of ['1', '0']) await run('[...document.querySelectorAll("button.key")].find((one) => one.textContent.trim() === arguments[0]).click()', digit);
  await until('the reading on the tape', async () => (await text('.parts .onward')).length > 0);
  await look('measure');
  await press('.parts .onward');
  await until('the card after the length', async () => (await text('.card h1'))[0] !== length);

  await press('.foot a[href$="/next"]');
  await until('the looks', async () => (await text('.looks li')).length > 0);
  await look('next');
  await press('.foot a[href$="/places"]');
  await until('the places', async () => (await text('.stop')).length > 0);
  await look('places');
  await press('.links a[href$="/leaving"]');
  await until('what is amiss', async () => (await text('.packet')).length > 0);
  await look('leaving');
  // The odds as the answers stand; they are frozen when asked for.
  await press('.foot a[href$="/odds"]');
  const odds = await until('the odds of the house', async () => {
    const found = await text('.condition h3');
    return found.length > 0 && found;
  });
  console.log(`${odds.length} conditions; ${(await text('h1'))[0]}`);
  const notFrozen = (await text('.digests'))[0];
  await press('.keys button');
  await until('that the odds are frozen', async () => (await text('.digests'))[0] !== notFrozen);
  await look('odds');
  await press('.condition button');
  await until('why the dot lies there', async () => (await text('.condition .below')).length > 0);
  await look('odds-why');
  await press('.keys a[href$="/fits"]');
  const fits = await until('the calculations', async () => {
    const found = await text('.trades a');
    return found.length > 20 && found;
  });
  console.log(`${fits.length} calculations; ${(await text('h1'))[0]}`);
  await look('fits');

  // The house is sealed; the packet lies among the records.
  await run('location.hash = location.hash.replace(/^(#\\/house\\/[^/]+).*$/, "$1/seal")');
  await until('the key that seals', async () => (await text('.right .fill')).length > 0);
  await press('.right .fill');
  const sum = await until('the sum of the packet', async () => (await text('.sum'))[0]);
  console.log(`sealed: ${sum.slice(0, 17)}…`);
  await look('sealed');

  // Words and light as they are set on this device.
  await run('location.hash = "#/settings"');
  await until('the settings', async () => (await text('.row')).length > 0);
  await press('.chip[lang=es]');
  await until('the screens in Spanish', async () => (await run('return document.documentElement.lang')) === 'es' && (await text('.row')).length > 0);
  await look('settings-es');
  await run('[...document.querySelectorAll(".chip")].find((one) => one.textContent.trim() === "English").click()');
  await until('the screens in English', async () => (await run('return document.documentElement.lang')) === 'en' && (await text('.row')).length > 0);

  // The policy of the window holds: an address outside, which would answer anyone, is never even asked.
  let asked = 0;
  const outside = createHttpServer((_, answer) => {
    asked += 1;
    answer.writeHead(200, { 'access-control-allow-origin': '*' }).end('here');
  });
  const door = await new Promise((done) => outside.listen(0, '127.0.0.1', () => done(outside.address().port)));
  const address = `http://127.0.0.1:${door}/`;
  const tried = await wait(
    `const [address, done] = arguments;
     const picture = new Promise((end) => { const i = new Image(); i.onload = i.onerror = end; i.src = address + "i.png"; });
     const question = fetch(address).then(() => "answered", () => "refused");
     Promise.all([question, picture]).then(([said]) => done(said))`,
    address,
  );
  if (tried !== 'refused' || asked > 0) faults.push(`the page asked an address outside ${asked} times: ${tried}`);
  outside.close();
} catch (error) {
  faults.push(error.message);
  await window.picture().then((it) => writeFile(`${out}/window-fault.png`, it)).catch(() => null);
} finally {
  await window.close();
  window.end();
}
for (const one of faults) console.error(one);
process.exit(faults.length > 0 ? 1 : 0);
