// How quick the screens are, in the tests' browser over `underlath field` and in the window: told, never asserted. Times are
// taken inside the page, from the touch or the start of loading to the frame in which it can be seen.
// Usage: speed.mjs UNDERLATH SAMPLES LOADED WALL [APP]
//   SAMPLES  records of the sample houses; LOADED  records with hundreds of houses; WALL  one house with 200 photographs
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { launch, serve } from './browser.mjs';
import { driver, until } from './webdriver.mjs';

const [program, samples, loaded, wall, app] = process.argv.slice(2).map((path) => resolve(path));
if (!wall) throw new Error('usage: speed.mjs UNDERLATH SAMPLES LOADED WALL [APP]');
const LARGEST = 'Alder Street kitchen';
const [LOADS, TOUCHES, SCROLLS] = [9, 100, 60];

const spread = (all) => {
  const sorted = [...all].sort((a, b) => a - b);
  const at = (share) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;
  return { n: sorted.length, p50: at(0.5), p95: at(0.95), most: at(1) };
};
const told = ({ n, p50, p95, most }) => `p50 ${p50.toFixed(0)} ms, p95 ${p95.toFixed(0)} ms, most ${most.toFixed(0)} ms (${n} times)`;
const line = (what, value) => console.log(`  ${what.padEnd(62)} ${value}`);

/** What both programs run in the page. Resolves with milliseconds from the touch to the next card, and to new money. */
const touched = (selector) => {
  const shown = document.querySelector('.card h1').textContent;
  const began = performance.now();
  document.querySelector(selector).click();
  return new Promise((done) => {
    let next = null;
    const look = () => {
      if (next === null && document.querySelector('.card h1')?.textContent !== shown) next = performance.now() - began;
      const money = document.querySelector('.foot [aria-busy]')?.getAttribute('aria-busy') === 'false';
      if (next !== null && money) requestAnimationFrame(() => done([next, performance.now() - began]));
      else if (performance.now() - began > 10_000) done(null);
      else requestAnimationFrame(look);
    };
    requestAnimationFrame(look);
  });
};
/** What the program lists, asked from inside the page. */
const houses = async () => {
  const headers = { 'content-type': 'application/json', 'x-underlath-language': 'en' };
  return (await fetch('/ask/houses', { method: 'POST', headers, body: '{}' })).json();
};
const ANSWER = '.answer:not(.several)';
const PASS = '.tools .back:last-of-type';

/** Goes through a house and answers what takes one touch, until there are enough times. */
async function touches(page) {
  const [cards, money] = [[], []];
  for (let tried = 0; cards.length < TOUCHES && tried < 6 * TOUCHES; tried += 1) {
    if (!(await page.has('.card h1'))) await page.first();
    const one = await page.touch((await page.has(ANSWER)) ? ANSWER : PASS);
    if (one === null) continue;
    if (one.answered) {
      cards.push(one.times[0]);
      money.push(one.times[1]);
    }
  }
  return [spread(cards), spread(money)];
}

async function inBrowser() {
  const dir = await mkdtemp(join(tmpdir(), 'speed-'));
  const browser = await launch();
  const over = async (records, act) => {
    const { served, address } = await serve(program, ['--home', records, '--by', 'R. Ames', '--language', 'en'], dir);
    const context = await browser.newContext({ viewport: { width: 768, height: 1024 }, hasTouch: true, locale: 'en-US' });
    try {
      const page = await context.newPage();
      await page.goto(address);
      await page.waitForSelector('.foot');
      return await act(page, new URL(address).origin, context);
    } finally {
      await context.close();
      served.kill();
    }
  };
  /** From the start of loading to the frame that shows what can be touched. */
  const opened = async (records, hash, shows) => over(records, async (_, origin, context) => {
    const times = [];
    for (let n = 0; n < LOADS; n += 1) {
      const page = await context.newPage();
      await page.addInitScript((selector) => {
        const look = () => (document.querySelector(selector) ? requestAnimationFrame(() => (globalThis.there = performance.now())) : requestAnimationFrame(look));
        requestAnimationFrame(look);
      }, shows);
      await page.goto(`${origin}/${hash}`);
      await page.waitForFunction(() => globalThis.there);
      times.push(await page.evaluate(() => globalThis.there));
      await page.close();
    }
    return spread(times);
  });
  try {
    const list = ['#/', 'a[href^="#/house/"]'];
    const [few, many] = [await opened(samples, ...list), await opened(loaded, ...list)];
    const counted = await over(loaded, async (page) => {
      const cards = await page.evaluate(houses);
      return [cards.length, cards.reduce((sum, card) => sum + card.photos, 0)];
    });
    line('first screen, sample houses', told(few));
    line(`first screen, ${counted[0]} houses and ${counted[1]} photographs`, `${told(many)}   ratio ${(many.p50 / few.p50).toFixed(1)}`);
    const [card, money] = await over(samples, async (page) => {
      await page.goto(`${new URL(page.url()).origin}/#/`);
      await page.click(`a:has-text("${LARGEST}"), .left:has-text("${LARGEST}") a`);
      await page.waitForSelector('.foot');
      return touches({
        has: async (selector) => (await page.locator(selector).count()) > 0,
        first: () => toFirst((selector) => page.waitForSelector(selector), (selector) => page.click(selector)),
        async touch(selector) {
          const times = await page.evaluate(touched, selector);
          return times && { times, answered: selector === ANSWER };
        },
      });
    });
    line(`a touch until the next card, ${LARGEST}`, told(card));
    line('  until money as the answers now stand', told(money));
    await over(wall, async (page, origin) => {
      const [survey] = await page.evaluate(houses);
      await page.goto(`${origin}/#/house/${survey.survey}/photos`);
      await page.waitForSelector('.album img, main img');
      await page.evaluate(() => {
        globalThis.shifted = 0;
        new PerformanceObserver((seen) => seen.getEntries().forEach((one) => (globalThis.shifted += one.value))).observe({ type: 'layout-shift', buffered: false });
        globalThis.frames = [];
        let last = performance.now();
        const frame = (now) => {
          globalThis.frames.push(now - last);
          last = now;
          requestAnimationFrame(frame);
        };
        requestAnimationFrame(frame);
      });
      await page.mouse.move(380, 500);
      for (let n = 0; n < SCROLLS; n += 1) {
        await page.mouse.wheel(0, 600);
        await page.waitForTimeout(50);
      }
      const { frames, shifted, end, height } = await page.evaluate(() => ({ frames: globalThis.frames, shifted: globalThis.shifted, end: scrollY + innerHeight, height: document.documentElement.scrollHeight }));
      line(`scrolling ${survey.photos} photographs, ${Math.round((100 * end) / height)}% of the page, between frames`, told(spread(frames)));
      line('  layout shifted by (share of the window, 0 is none)', shifted.toFixed(4));
    });
  } finally {
    await browser.close();
    await rm(dir, { recursive: true, force: true });
  }
}

/** From wherever a house is, its first card. */
async function toFirst(shown, press) {
  await press('.foot a[href$="/places"]');
  await shown('.stop');
  await press('.stop');
  await shown('.cards .to');
  await press('.cards .to');
  await shown('.card h1');
}

async function inWindow() {
  const times = async (records, act) => {
    const window = await driver(app, records);
    try {
      return await act(window);
    } finally {
      await window.close();
      window.end();
    }
  };
  const list = 'return Boolean(document.querySelector(arguments[0]))';
  const opened = (records) => times(records, async (window) => {
    const all = [];
    for (let n = 0; n < LOADS; n += 1) {
      const began = performance.now();
      await window.open();
      await until('the first screen', () => window.run(list, '.left .name, .card h1'), 5);
      all.push(performance.now() - began);
      await window.close();
    }
    return spread(all);
  });
  const [few, many] = [await opened(samples), await opened(loaded)];
  line('window: start of the program until its first screen, samples', told(few));
  line('window: the same with the loaded records', `${told(many)}   ratio ${(many.p50 / few.p50).toFixed(1)}`);
  const [card, money] = await times(samples, async (window) => {
    await window.open();
    const shown = (selector) => until(selector, () => window.run(list, selector), 20);
    await shown('.left .name, .card h1');
    await window.run('location.hash = "#/"');
    await shown('a[href^="#/house/"]');
    await window.run(`[...document.querySelectorAll('.left, .houses li')].find((one) => one.textContent.includes(arguments[0])).querySelector('a').click()`, LARGEST);
    await shown('.foot a[href$="/places"]');
    return touches({
      has: (selector) => window.run(list, selector),
      first: () => toFirst(shown, window.press),
      async touch(selector) {
        const found = await window.wait(`const [selector, done] = arguments; (${touched})(selector).then(done)`, selector);
        return found && { times: found, answered: selector === ANSWER };
      },
    });
  });
  line(`window: a touch until the next card, ${LARGEST}`, told(card));
  line('window:   until money as the answers now stand', told(money));
}

const dist = fileURLToPath(new URL('../dist', import.meta.url));
/** What a page loads before its first screen: itself, and what it names. */
async function loads(page) {
  const html = await readFile(join(dist, page), 'utf8');
  const named = [...html.matchAll(/(?:src|href)="\.?\/?([^"]+\.(?:js|css))"/g)].map((found) => found[1]);
  const all = await Promise.all([page, ...named].map((name) => readFile(join(dist, name))));
  return all.reduce((sum, file) => sum + gzipSync(file, { level: 9 }).length, 0);
}
for (const [page, whose] of [['index.html', 'the tablet'], ['office.html', 'the office']]) line(`page, script and style of ${whose}, gzip`, `${((await loads(page)) / 1000).toFixed(0)} kB`);
await inBrowser();
if (app) await inWindow();
