// An hour in a house, as a person has it: the screens as `underlath field` serves them, by touch, on a tablet. A house is
// started, 45 questions are answered and the lengths among them measured, 12 photographs are taken, a look is shown, what is amiss is
// read, the house is sealed and the packet handed over. Every touch inside the page is counted; what an answer takes
// until the next card is there is timed. At the end the program itself receives the packet.
// Usage: hour.mjs UNDERLATH SAMPLES [REPORT.json]
import { execFileSync } from 'node:child_process';
import { mkdir, mkdtemp, readdir, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { launch, serve } from './browser.mjs';

const [program, samples, report] = process.argv.slice(2).map((path) => resolve(path));
if (!program || !samples) throw new Error('usage: hour.mjs UNDERLATH SAMPLES [REPORT.json]');
// How many lengths are among 45 answers hangs on what the walk still asks; there must be some.
const WANTED = { answers: 45, lengths: 3, photos: 12 };
// 130 for 45 answers, 12 lengths and 12 photographs; a length that this walk does not ask for is four touches fewer.
const mostTouches = (lengths) => 130 - 4 * Math.max(0, 12 - lengths);

const photos = [];
for (const house of ['alder-street', 'heron-court']) {
  const folder = join(samples, house, 'photos');
  for (const name of (await readdir(folder)).sort()) photos.push(join(folder, name));
}

const dir = await mkdtemp(join(tmpdir(), 'hour-'));
const downloads = join(dir, 'downloads');
await mkdir(downloads);
const home = ['--home', join(dir, 'device'), '--by', 'R. Ames', '--language', 'en'];
const out = fileURLToPath(new URL('out', import.meta.url));
await mkdir(out, { recursive: true });

const { served, address } = await serve(program, home, dir, { ...process.env, XDG_DOWNLOAD_DIR: downloads });

const faults = [];
const browser = await launch();
const counted = { touches: 0, answers: 0, lengths: 0, photos: 0 };
const taps = [];
const reckoned = [];
let page;
try {
  const context = await browser.newContext({ viewport: { width: 768, height: 1024 }, hasTouch: true, locale: 'en-US' });
  page = await context.newPage();
  page.setDefaultTimeout(30_000);
  page.on('console', (said) => said.type() === 'error' && faults.push(`console: ${said.text()}`));
  page.on('pageerror', (error) => faults.push(`page: ${error}`));
  const tap = async (selector) => {
    counted.touches += 1;
    await page.tap(selector);
  };
  const is = async (selector) => (await page.locator(selector).count()) > 0;
  const asked = () => page.textContent('.card h1');

  /** The last touch of an answer: timed inside the page, from the touch to the frame after the next card is there. */
  const answer = async (selector) => {
    const before = await page.evaluate(() => {
      const shown = document.querySelector('.card h1')?.textContent;
      globalThis.tapped = new Promise((done) => {
        const began = { at: 0 };
        addEventListener('click', () => (began.at = performance.now()), { capture: true, once: true });
        const look = () => {
          const now = document.querySelector('.card h1');
          if (now?.textContent === shown) return;
          seen.disconnect();
          requestAnimationFrame(() => done(performance.now() - began.at));
          // The money to carry is worked out once the answer is on the disk, and the foot says when it is there.
          globalThis.reckoned = new Promise((there) => {
            const poll = () => {
              const foot = document.querySelector('.foot [aria-busy]');
              if (foot?.getAttribute('aria-busy') === 'false') there(performance.now() - began.at);
              else requestAnimationFrame(poll);
            };
            poll();
          });
        };
        const seen = new MutationObserver(look);
        seen.observe(document.body, { childList: true, subtree: true, characterData: true });
      });
      return shown;
    });
    await tap(selector);
    await page.waitForFunction((text) => document.querySelector('.card [role=alert]') || document.querySelector('.card h1')?.textContent !== text, before);
    if (await is('.card [role=alert]')) throw new Error(`“${before}” was refused: ${await page.textContent('.card [role=alert]')}`);
    taps.push(await page.evaluate(() => globalThis.tapped));
    reckoned.push(await page.evaluate(() => globalThis.reckoned));
  };

  /** A reading that is plausible on this card, as its keys; asked of the program, as a person would see on the tape. */
  const reading = () => page.evaluate(async () => {
    const ask = async (name, args) => {
      const headers = { 'content-type': 'application/json', 'x-underlath-language': 'en' };
      return (await fetch(`/ask/${name}`, { method: 'POST', headers, body: JSON.stringify(args) })).json();
    };
    const survey = decodeURIComponent(location.hash.split('/')[2]);
    const { card } = await ask('walk', { survey });
    for (const digits of ['11', '36', '2', '1', '6', '0', '19', '30', '48', '90', '96', '150']) {
      const text = card.unit === 'ft' ? `${digits}'` : `${digits}"`;
      const said = await ask('read-length', { key: card.key, text });
      if (said.read && said.outside === null) return digits;
    }
    return null;
  });

  await page.goto(address);
  await page.waitForSelector('.foot .now');
  await tap('.foot .now');
  await page.waitForSelector('.work');
  await page.fill('.field >> nth=0 >> input', 'Elm Court kitchen');
  await page.fill('.field >> nth=2 >> input', '1964');
  // The first works of the list: a soffit, a deeper sink, a wall and so on, so that there is something to measure.
  for (const n of [0, 1, 2, 3, 4, 5]) await tap(`.work >> nth=${n}`);
  await tap('.foot .now');
  await page.waitForSelector('.card h1');

  const seen = new Set();
  while (counted.answers < WANTED.answers) {
    if (!(await is('.card h1'))) throw new Error(`the walk ended after ${counted.answers} answers and ${counted.lengths} lengths`);
    const question = await asked();
    const photo = counted.photos < WANTED.photos && (counted.answers + counted.lengths) % 4 === 3 && !seen.has(question);
    seen.add(question);
    if (photo) {
      // The touch opens the camera; its own buttons are not ours.
      counted.touches += 1;
      await page.setInputFiles('.camera input', photos[counted.photos]);
      counted.photos += 1;
      await page.waitForSelector('.taken .said');
    }
    if (await is('.measuring')) {
      const digits = await reading();
      if (digits === null) throw new Error(`no plausible reading for “${question}”`);
      for (const digit of digits) await tap(`.measuring .key:text-is("${digit}")`);
      await page.waitForSelector('.parts .onward');
      await answer('.parts .onward');
      counted.lengths += 1;
    } else if (await is('.counting')) {
      await answer('.unsure >> nth=0');
      counted.answers += 1;
    } else {
      const several = await is('.answer.several');
      if (several) {
        // One that stands alone is a whole answer; of others each is ticked, and the key goes on.
        await tap('.answer >> nth=0');
        await page.waitForTimeout(250);
        if ((await asked()) === question) await answer('.hand > .onward');
      } else await answer(`.answer >> nth=${counted.answers % 2}`);
      counted.answers += 1;
    }
  }
  while (counted.photos < WANTED.photos) {
    counted.touches += 1;
    await page.setInputFiles('.camera input', photos[counted.photos]);
    counted.photos += 1;
    await page.waitForFunction((n) => document.querySelectorAll('.taken .said').length >= 1 && n, counted.photos);
    await page.waitForSelector('.keys .press:not([disabled])');
  }

  // What to look at next, and what one of them showed.
  await tap('.foot .now');
  await page.waitForSelector('.looks li');
  await tap('.foot a[href$="/places"]');
  await page.waitForSelector('.links a[href$="/leaving"]');
  await tap('.links a[href$="/leaving"]');
  await page.waitForSelector('.packet a[href$="/seal"]');
  await tap('.packet a[href$="/seal"]');
  await page.waitForSelector('.right .fill');
  await tap('.right .fill');
  await page.waitForSelector('.sum');
  await page.waitForSelector('.right .keys .press');
  await tap('.right .keys .press >> nth=0');
  await page.waitForSelector('.copy:has-text(".zip")');
  await page.screenshot({ path: `${out}/hour-sealed.png`, fullPage: true });
  const said = await page.textContent('.copy');
  const packet = join(downloads, 'elm-court-kitchen-1.zip');
  if (!said.includes(packet)) faults.push(`the copy: ${said}, not at ${packet}`);
  const received = execFileSync(program, ['--office', join(dir, 'office'), '--language', 'en', 'receive', packet], { encoding: 'utf8', cwd: dir });
  if (!/Elm Court kitchen/.test(received)) faults.push(`received: ${received}`);
  const most = mostTouches(counted.lengths);
  if (counted.touches > most) faults.push(`${counted.touches} touches, more than ${most}`);
  for (const [what, wanted] of Object.entries(WANTED)) if (counted[what] < wanted) faults.push(`${counted[what]} ${what}, fewer than ${wanted}`);
} catch (error) {
  faults.push(error.message);
  if (page) await page.screenshot({ path: `${out}/hour-fault.png`, fullPage: true }).catch(() => null);
} finally {
  await browser.close();
  served.kill();
  await rm(dir, { recursive: true, force: true });
}
const spread = (all) => {
  const sorted = [...all].sort((a, b) => a - b);
  const at = (share) => Math.round(sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? 0);
  return { timed: sorted.length, p50: at(0.5), p95: at(0.95), most: at(1) };
};
const told = { ...counted, millisecondsToNextCard: spread(taps), millisecondsToNewMoney: spread(reckoned) };
console.log(`an hour in a house: ${JSON.stringify(told)}`);
if (report) await writeFile(report, `${JSON.stringify(told)}\n`);
if (faults.length > 0) {
  console.error(faults.join('\n'));
  process.exit(1);
}
