// Looks at every screen in a real browser: both themes, three sizes, keyboard, twice the text, Spanish, the
// made-up language.
// Fails on any axe-core finding, on sideways scroll, on a target too small, on an error in the console, and on any
// request that leaves the page's own address. Screenshots go to e2e/out.
import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { build, preview } from 'vite';
import { launch } from './browser.mjs';

const here = (path) => fileURLToPath(new URL(path, import.meta.url));
const configFile = here('vite.config.mjs');
const out = here('out');
const axe = await readFile(here('../node_modules/axe-core/axe.min.js'), 'utf8');

const sizes = [[768, 1024], [1024, 768], [390, 844]];
const alder = '#/house/0195-alder-street';
/** A touch on a photograph, at a share of its width and height. */
async function at(page, x, y) {
  const { width, height } = await page.locator('.picture > svg').boundingBox();
  await page.click('.picture > svg', { position: { x: x * width, y: y * height } });
}
// Name, address, what to wait for, and what to do before it is looked at.
const screens = [
  ['houses', '/?sealed&since#/', 'a[href^="#/house/"]'],
  ['record', `/${alder}/record`, '.rival'],
  ['odds', `/${alder}/odds`, '.dot'],
  ['odds-why', `/${alder}/odds`, '.dot', async (page) => {
    for (const n of [0, 1, 3]) await page.click(`.condition button >> nth=${n}`);
  }],
  ['odds-soon', `/?slow${alder}/odds`, '.dot', (page) => page.click('.condition button')],
  ['fits', `/${alder}/fits`, '.trades a'],
  ...['sink-drain', 'gas-run', 'panel-load', 'outages'].map((word) => [`fit-${word}`, `/${alder}/fits/${word}`, 'h1.calculation']),
  ['fit-reckoned', `/${alder}/fits/sink-drain`, '.figures', async (page) => {
    for (const n of [0, 1]) await page.click(`.words summary >> nth=${n}`);
    await page.click('.figures > summary');
  }],
  ['fit-stud-hole', `/${alder}/fits/stud-hole`, '.figures[open]'],
  ...['stud-hole', 'openings'].map((word) => [`fit-${word}-typed`, `/${alder}/fits/${word}`, '.figures[open]', async (page) => {
    await page.click('.figures .onward');
    await page.waitForSelector('.by-hand');
  }]),
  ['fit-refused', `/${alder}/fits/sink-drain`, '.figures', async (page) => {
    await page.click('.figures > summary');
    await page.fill('.figures input >> nth=0', 'a foot or so');
    await page.click('.figures .onward');
    await page.waitForSelector('.figures [role=alert]');
  }],
  ['start', '/#/start', '.work', async (page) => {
    await page.fill('.field >> nth=0 >> input', 'Elm Court bath');
    await page.fill('.field >> nth=2 >> input', '1964');
    for (const n of [0, 3, 9]) await page.click(`.work >> nth=${n}`);
  }],
  ['choice', `/?at=sink-mount&answered${alder}`, '.answer'],
  ['several', `/?at=planned-work${alder}`, '.answer', async (page) => {
    for (const n of [0, 1, 10]) await page.click(`.answer >> nth=${n}`);
  }],
  ['measure', `/?at=stub-height&answered${alder}`, '.measuring', async (page) => {
    await page.click('button.key:text-is("1")');
    await page.click('button.key:text-is("9")');
    await page.click('.parts .key >> nth=1');
    await page.click('.parts .key >> nth=2');
    await page.waitForSelector('.tape svg');
  }],
  ['measure-lower', `/?at=floor-buildup${alder}`, '.measuring'],
  ['measure-feet', `/?at=gas-run-length${alder}`, '.measuring'],
  ['measure-words', `/?at=stub-height${alder}`, '.measuring', async (page) => {
    await page.click('.parts .words');
    await page.fill('.type input', `1' 7 3/8`);
    await page.waitForSelector('.tape svg');
  }],
  ['measure-far', `/?at=stub-height${alder}`, '.measuring', async (page) => {
    for (const digit of ['7', '7']) await page.click(`button.key:text-is("${digit}")`);
    await page.waitForSelector('.caution');
  }],
  ['number', `/?at=last-gut${alder}`, '.counting', (page) => page.click('button.key:text-is("1")')],
  ['reach', `/?at=stub-height${alder}`, '.measuring', async (page) => {
    await page.click('.unsure >> nth=1');
    await page.waitForSelector('.because');
  }],
  ['note', `/?at=sink-mount${alder}`, '.answer', async (page) => {
    await page.click('.tools .press >> nth=0');
    await page.fill('textarea', 'behind the filter');
  }],
  ['answered', `/?at=sink-mount${alder}`, '.answer', async (page) => {
    await page.click('.answer >> nth=1');
    await page.waitForSelector('.measuring');
    await page.click('.tools .press >> nth=1');
    await page.waitForSelector('.chosen');
  }],
  ['at-end', `/?done${alder}`, '.fill'],
  ['places', `/?at=stub-height&answered${alder}/places`, '.stops', (page) => page.click('.stop >> nth=5')],
  ['places-name', `/?at=stub-height&answered${alder}/places`, '.stops', async (page) => {
    await page.click('.stop[data-place=bulkhead]');
    await page.click('.place .press >> nth=1');
    await page.fill('.place input', 'Soffit over the range');
    await page.waitForSelector('.onward');
  }],
  ['places-out', `/?done${alder}/places`, '.stops', async (page) => {
    await page.click('.stop[data-place=bulkhead]');
    await page.click('.place .press >> nth=2');
  }],
  ['places-taken-out', `/?done${alder}/places`, '.stops', async (page) => {
    await page.click('.stop[data-place=bulkhead]');
    await page.click('.place .press >> nth=2');
    await page.click('.place .press >> nth=0');
    await page.waitForSelector('.out');
  }],
  ['next', `/${alder}/next`, '.looks li'],
  ['next-shown', `/${alder}/next`, '.looks li', async (page) => {
    await page.click('.go >> nth=0');
    await page.waitForSelector('.shown');
  }],
  ['leaving', `/?at=stub-height${alder}/leaving`, '.packet'],
  // Demolition: before, at the question, after; and the leaves of a house whose walk is over.
  ['demolition', `/${alder}/demolition`, '.means'],
  ['demolition-sure', `/?sealed${alder}/demolition`, '.means', async (page) => {
    await page.fill('textarea', 'north wall');
    await page.click('main > div .press >> nth=-1');
    await page.waitForSelector('#sure:focus');
  }],
  ['demolition-over', `/?over${alder}/demolition`, '.over', async (page) => {
    await page.click('main section >> nth=-1 >> .press');
    await page.waitForSelector('textarea');
  }],
  ['demolition-late', `/?late${alder}/demolition`, '.over'],
  ['over-card', `/?over&at=stub-height&answered${alder}`, '.over', (page) => page.click('.tools .press >> nth=0')],
  ['over-not-answered', `/?over&at=sink-mount${alder}`, '.over'],
  ['over-places', `/?over&at=stub-height&answered${alder}/places`, '.stops', (page) => page.click('.stop[data-place=bulkhead]')],
  ['over-next', `/?over${alder}/next`, '.over'],
  ['over-leaving', `/?over&at=stub-height${alder}/leaving`, '.packet'],
  ['over-photos', `/?over&marked${alder}/photos`, '.album img'],
  ['over-marks', `/?over&marked${alder}/marks/3f2a9c1d`, '.picture image'],
  ['over-seal', `/?over&sealed&since${alder}/seal`, '.sum'],
  ['over-record', `/?over${alder}/record`, '.rival'],
  ['over-houses', '/?over&sealed&since#/', 'a[href^="#/house/"]'],
  ['seal', `/${alder}/seal`, '.rows li'],
  ['sealing', `/${alder}/seal`, '.rows li', async (page) => {
    await page.click('.right .fill');
    await page.waitForSelector('.right [role=status]:has-text("5")');
  }],
  ['signing', `/${alder}/seal`, '.rows li', async (page) => {
    await page.click('.signs');
    await page.click('.right .fill');
    await page.waitForSelector('.field svg');
    // In sight, and not behind the foot: a hand signs where it sees.
    await page.evaluate(() => document.querySelector('.field svg').scrollIntoView({ block: 'center' }));
    const field = await page.locator('.field svg').boundingBox();
    await page.mouse.move(field.x + field.width * 0.1, field.y + field.height * 0.6);
    await page.mouse.down();
    for (const [x, y] of [[0.2, 0.2], [0.25, 0.7], [0.3, 0.4], [0.4, 0.7], [0.5, 0.5]]) await page.mouse.move(field.x + field.width * x, field.y + field.height * y);
    await page.mouse.up();
    await page.waitForSelector('.field .drawn');
  }],
  ['sealed', `/?sealed${alder}/seal`, '.sum', async (page) => {
    await page.click('.right .press >> nth=0');
    await page.waitForSelector('.copy:has-text("zip")');
  }],
  ['sealed-since', `/?sealed&since${alder}/seal`, '.sum'],
  ['settings', '/#/settings', '.block'],
  ['settings-pair', '/#/settings', '#pasted', async (page) => {
    await page.fill('#pasted', 'underlath-office:v1');
    await page.press('#pasted', 'Enter');
    await page.waitForSelector('#compare');
  }],
  ['settings-paired', '/?paired#/settings', '.block', (page) => page.click('section:has(dl) .press >> nth=1')],
  ['settings-catalog', '/?paired&taken#/settings', '.block', async (page) => {
    await page.click('section:has(dl) .press >> nth=0');
    await page.locator('section:has(dl) .press >> nth=0').scrollIntoViewIfNeeded();
  }],
  ['settings-catalog-unused', '/?paired&taken&unused&older#/settings', '.block', (page) => page.locator('section:has(dl) .press >> nth=0').scrollIntoViewIfNeeded()],
  ['sending', `/?sealed&sends${alder}/seal`, '.send .press', async (page) => {
    await page.click('.send .press');
    await page.waitForSelector('.send svg');
  }],
  ['settings-refused', '/#/settings', '.block', async (page) => {
    await page.click('.chip:has-text("492")');
    await page.evaluate(() => document.querySelector('#firm').removeAttribute('maxlength'));
    await page.fill('#firm', 'x'.repeat(90));
    await page.press('#firm', 'Tab');
    await page.waitForSelector('[role=alert]');
  }],
  ['help', '/#/help', 'section'],
  ['photos', `/?marked${alder}/photos`, '.album img'],
  ['photos-of-card', `/?at=sink-mount${alder}/photos/sink-mount`, '.album li', async (page) => {
    await page.setInputFiles('input[multiple]', ['dark.jpg', 'letter.txt'].map((name) => ({ name, mimeType: 'image/svg+xml', buffer: Buffer.from('<svg xmlns="http://www.w3.org/2000/svg" width="400" height="300"><path d="M0 0h400v300H0z" fill="#222"/></svg>') })));
    await page.waitForSelector('.taken .caution');
  }],
  ['marks', `/?marked${alder}/marks/3f2a9c1d`, '.picture image', async (page) => {
    await page.click('.tool >> nth=2');
    await at(page, 0.16, 0.2);
    await at(page, 0.62, 0.24);
    await page.fill('input.let', '19 3/8');
    await page.waitForSelector('.onward');
  }],
  ['marks-words', `/${alder}/marks/3f2a9c1d`, '.picture image', async (page) => {
    await page.click('.tool >> nth=3');
    await at(page, 0.4, 0.8);
    await page.fill('input[type=text]', 'wet to the touch');
    await page.waitForSelector('.onward');
  }],
  ['sheet', `/${alder}/sheet/3f2a9c1d`, '.picture image', async (page) => {
    for (const [x, y] of [[0.131, 0.317], [0.297, 0.329]]) await at(page, x, y);
  }],
  ['sheet-measured', `/${alder}/sheet/3f2a9c1d`, '.picture image', async (page) => {
    for (const [x, y] of [[0.131, 0.317], [0.297, 0.329], [0.294, 0.621], [0.125, 0.612], [0.387, 0.5], [0.387, 0.816]]) await at(page, x, y);
    await page.waitForSelector('.came');
  }],
  ['sheet-kept', `/${alder}/sheet/3f2a9c1d`, '.picture image', async (page) => {
    for (const [x, y] of [[0.131, 0.317], [0.297, 0.329], [0.294, 0.621], [0.125, 0.612], [0.387, 0.5], [0.387, 0.816]]) await at(page, x, y);
    await page.click('.onward');
    await page.waitForSelector('.kept');
  }],
  ['long-record', '/#/house/0195-heron-court/record', '.barfill'],
  ['odds-trouble', '/#/house/0195-tanner-row/odds', '.caution'],
  ['empty', '/?empty#/', 'h1'],
  ['refused', '/?refused#/', '[role=alert]'],
  ['no-such-house', '/#/house/nowhere', '[role=alert]'],
];
// The office's screens, at a desk and on a phone at the site. The house in them is the one the program gave.
const officeSizes = [[1440, 900], [390, 844]];
const bend = '/office.html?as=reviewer';
const { house } = JSON.parse(await readFile(here('page/office.json'), 'utf8'));
const quarry = house.survey;
const marked = house.photos.places.flatMap((place) => place.photos).find((one) => one.marks.some((mark) => mark.kind === 'dimension')).digest;
const at_bend = (leaf) => `#/house/${quarry}${leaf}`;
const row = (key) => `.said[data-key="${key}"]`;
const zip = (name) => ({ name, mimeType: 'application/zip', buffer: Buffer.from('a packet') });
const officeScreens = [
  ['office-sign-in', '/office.html#/', 'form'],
  ['office-wrong', '/office.html#/', 'form', async (page) => {
    await page.fill('#name', 'Magda Hale');
    await page.fill('#password', 'not the right one');
    await page.click('form .fill');
    await page.waitForSelector('[role=alert]');
  }],
  ['office-set-up', '/office.html?set-up#set-up/3f2a9c', 'form'],
  ['office-people', '/office.html?as=owner#/people', '.lines li', (page) => page.click('.people li:nth-child(3) .acts .press:last-child')],
  ['office-first-password', '/office.html?as=reviewer&first#/', 'form'],
  ['office-second-wanted', '/office.html?as=estimator&demanded#/', 'form'],
  ['office-second', '/office.html?as=reviewer#/me', '#second-factor form', async (page) => {
    await page.fill('#second-password', 'three words apart');
    await page.click('#second-factor .press');
    await page.waitForSelector('#second-factor svg');
  }],
  ['office-second-has', '/office.html?as=reviewer&second#/me', '#second-factor form'],
  ['office-code', '/office.html#/', 'form', async (page) => {
    await page.fill('#name', 'Magda Hale');
    await page.fill('#password', 'three words apart');
    await page.click('.press.fill');
    await page.waitForSelector('#code');
  }],
  ['office-code-wrong', '/office.html#/', 'form', async (page) => {
    await page.fill('#name', 'Magda Hale');
    await page.fill('#password', 'three words apart');
    await page.click('.press.fill');
    await page.fill('#code', '000 000');
    await page.click('.press.fill');
    await page.waitForSelector('[role=alert]');
  }],
  ['office-people-demanded', '/office.html?as=owner&demanded#/people', '.lines li'],
  ['office-tablets', '/office.html?as=owner#/tablets', 'main li', async (page) => {
    await page.click('.halves .fill');
    await page.waitForSelector('main svg[role=img]');
    await page.click('main li:nth-child(2) .press');
  }],
  ['office-inbox-arriving', `${bend}&arriving#/`, '.day li', (page) => page.waitForSelector('#coming-in')],
  ['office-me', `${bend}#/me`, 'form'],
  ['office-inbox', `${bend}#/`, '.day li'],
  ['office-inbox-torn', `${bend}&torn#/`, '.day li', async (page) => {
    await page.setInputFiles('.hand input', [zip('quarry-bend-kitchen-2.zip'), { ...zip('letter.txt'), mimeType: 'text/plain' }]);
    await page.waitForSelector('.handed [role=alert]');
  }],
  ['office-inbox-going', `${bend}&stands#/`, '.day li', async (page) => {
    await page.setInputFiles('.hand input', ['quarry-bend-kitchen-2.zip', 'mill-lane-kitchen-1.zip'].map(zip));
    await page.waitForSelector('.going');
  }],
  ['office-inbox-refused', `${bend}&set-aside#/`, '.refused'],
  ['office-inbox-empty', `${bend}&empty#/`, '.hand'],
  ['office-refused', `${bend}&refused#/`, '[role=alert]'],
  ['office-house', `${bend}${at_bend('')}`, '.album img'],
  ['office-house-open', `${bend.replace(/as=\w+/, 'as=owner')}${at_bend('')}`, '.seen button', async (page) => page.evaluate(() => document.querySelector('.seen').scrollIntoView({ block: 'center' }))],
  ['office-house-closed', `${bend.replace(/as=\w+/, 'as=owner')}&closed${at_bend('')}`, '.seen .chip', async (page) => page.evaluate(() => document.querySelector('.seen').scrollIntoView({ block: 'center' }))],
  ['office-house-closed-to-others', `${bend.replace(/as=\w+/, 'as=reviewer')}&closed${at_bend('')}`, '.album img'],
  ['office-photo', `${bend}${at_bend(`/photo/${marked}`)}`, '.over svg'],
  ['office-photo-none', `${bend}${at_bend('/photo/none')}`, '.ways'],
  ['office-house-earlier', `${bend}&two${at_bend('')}`, '.album img', async (page) => {
    await page.click('.packet a');
    await page.waitForSelector('.signature');
    await page.evaluate(() => document.querySelector('.signature').scrollIntoView({ block: 'center' }));
  }],
  ['office-findings', `${bend}${at_bend('/findings')}`, '.row', async (page) => {
    await page.focus(row('bulkhead-duct'));
    await page.keyboard.press('Enter');
    await page.waitForSelector('.evidence img');
    await page.evaluate(() => document.querySelector('.row.here').scrollIntoView({ block: 'start' }));
  }],
  ['office-findings-shut', `${bend}${at_bend('/findings')}`, '.row', (page) => page.focus('.row.here .said')],
  ['office-findings-enter', `${bend}${at_bend('/findings')}`, '.row', async (page) => {
    await page.keyboard.press('Tab');
    await page.focus('.row.here .said');
    await page.keyboard.press('l');
    for (let n = 0; n < 4; n += 1) await page.keyboard.press('ArrowDown');
    await page.keyboard.press('h');
    await page.keyboard.press('f');
    await page.waitForSelector('#cost');
    await page.fill('#cost', '1,480');
    await page.fill('#days', 'a week');
    await page.click('.chips .chip >> nth=-1');
    await page.click('.last .fill');
    await page.waitForSelector('[role=alert]');
  }],
  ['office-findings-else', `${bend}${at_bend('/findings')}`, '.row', async (page) => {
    await page.focus('.row.here .said');
    await page.keyboard.press('l');
    await page.click('.other');
    await page.waitForSelector('#other:focus');
    await page.evaluate(() => document.querySelector('#stage-others').scrollIntoView({ block: 'start' }));
  }],
  ['office-findings-else-none', `${bend}${at_bend('/findings')}`, '.row', async (page) => {
    await page.click('.other');
    await page.fill('#other', 'zzz');
    await page.waitForFunction(() => document.querySelectorAll('.choose li').length === 0);
  }],
  ['office-findings-else-written', `${bend}${at_bend('/findings')}`, '.row', async (page) => {
    for (const cost of ['640', null]) {
      await page.click('.other');
      await page.waitForSelector('#other:focus');
      await page.keyboard.press('ArrowDown');
      await page.keyboard.press('Enter');
      await page.waitForSelector('#cost:focus');
      if (cost === null) continue;
      await page.fill('#cost', cost);
      await page.click('.last .fill');
      await page.waitForSelector('.other');
    }
    await page.evaluate(() => document.querySelector('#stage-others').scrollIntoView({ block: 'start' }));
  }],
  ['office-findings-along', `${bend}${at_bend('/findings')}`, '.row', async (page) => {
    await page.focus('.row.here .said');
    for (let n = 0; n < 3; n += 1) await page.keyboard.press('ArrowDown');
    for (let n = 0; n < 3; n += 1) await page.keyboard.press('Shift+ArrowDown');
    await page.waitForSelector('.along');
  }],
  ['office-findings-read', `/office.html?as=estimator${at_bend('/findings/bulkhead-duct')}`, '.evidence img'],
  ['office-findings-done', `${bend}&done${at_bend('/findings')}`, '.row', (page) => page.click('.how .chip')],
  ['office-compared', `${bend}${at_bend('/compared')}`, '.difference'],
  ['office-compared-all', `${bend}${at_bend('/compared')}`, '.difference', (page) => page.click('.all')],
  ['office-compared-none', `${bend}&unopened${at_bend('/compared')}`, 'main p'],
  ['office-record', `${bend}#/record`, '.groups li', (page) => page.click('.bins .opens >> nth=0')],
  ['office-record-few', `/office.html?as=estimator&few#/record`, '.groups li'],
  ['office-learning', `${bend}#/learning`, '.line', async (page) => {
    await page.focus('.line >> nth=0');
    await page.keyboard.press(await page.textContent('.keys .keycap >> nth=2'));
    await page.keyboard.press('ArrowDown');
    await page.click('.aside .evidence');
    await page.click('.take .press');
  }],
  ['office-learning-refuse', `${bend}#/learning`, '.line', async (page) => {
    await page.focus('.line >> nth=0');
    await page.keyboard.press(await page.textContent('.keys .keycap >> nth=3'));
    await page.keyboard.type('22 of them had been suspected');
    await page.keyboard.press('Enter');
    await page.waitForSelector('.lines li');
    await page.keyboard.press(await page.textContent('.keys .keycap >> nth=3'));
    await page.waitForSelector('#why');
  }],
  ['office-learning-working', `${bend}&working#/learning`, 'main p'],
  ['office-learning-taught', `${bend}&taught#/learning`, 'main p'],
  ['office-published', `${bend}&taught&published#/learning`, '.published p'],
  ['office-publish', `${bend}&taught&published&differs#/learning`, '.published p', (page) => page.click('.published > .press')],
  ['office-no-such-house', `${bend}#/house/nowhere/compared`, '[role=alert]'],
];

const WITH_OTHER_WORDS = screens.filter(([name]) => !['empty', 'refused', 'no-such-house', 'long-record'].includes(name));

// On the command line, to look at a part only: names of states; `parts`, what is done by hand; `words`, the states in
// other words.
const asked = process.argv.slice(2);
const only = asked.filter((one) => one !== 'parts' && one !== 'words');
const all = asked.length === 0;
const kept = (list) => (only.length > 0 ? list.filter(([name]) => only.includes(name)) : list);

const faults = [];
const fault = (where, what) => faults.push(`${where}: ${what}`);

await mkdir(out, { recursive: true });
await build({ configFile, logLevel: 'error' });
const server = await preview({ configFile, logLevel: 'error', preview: { port: 0, host: '127.0.0.1' } });
const address = server.resolvedUrls.local[0].replace(/\/$/, '');
const browser = await launch();

/** Pages that were looked at and wait for the next state of their kind: one is opened in a sixth of the time of the first. */
const waiting = new Map();

/** A page of one size and language, in the light; whatever it says on the console or asks of the outside is a fault. */
async function open(where, { size: [width, height], locale = 'en-US' }) {
  const kind = `${width} ${height} ${locale}`;
  const kept = waiting.get(kind)?.pop();
  if (kept) {
    kept.where = where;
    return kept.page;
  }
  const context = await browser.newContext({ viewport: { width, height }, colorScheme: 'light', reducedMotion: 'reduce', locale, hasTouch: true });
  const page = await context.newPage();
  const one = { page, where, kind, size: { width, height }, wire: await context.newCDPSession(page) };
  opened.set(page, one);
  page.on('pageerror', (error) => fault(one.where, `error: ${error.message}`));
  page.on('console', (line) => ['error', 'warning'].includes(line.type()) && fault(one.where, `console: ${line.text()}`));
  page.on('request', (asked) => {
    const url = asked.url();
    if (!url.startsWith(address) && !/^(data|blob|about):/.test(url)) fault(one.where, `asks outside: ${url}`);
  });
  return page;
}
const opened = new Map();

/** Puts a page by as it was when new: in the light, of its size, nothing kept, nothing under the pointer. */
async function putBy(page) {
  const one = opened.get(page);
  await page.evaluate(() => localStorage.clear());
  await page.goto('about:blank');
  await page.mouse.move(0, 0);
  await page.setViewportSize(one.size);
  await page.emulateMedia({ colorScheme: 'light' });
  waiting.set(one.kind, [...(waiting.get(one.kind) ?? []), one]);
}

async function show(page, path, waitFor, act) {
  page.setDefaultTimeout(60_000);
  await page.goto(address + path);
  try {
    await page.waitForSelector(waitFor);
    if (act) await act(page);
  } catch (error) {
    fault(path, error.message.split('\n').slice(0, 2).join(' '));
  }
  await page.evaluate(() => document.fonts.ready);
  await painted(page);
}

const painted = (page) => page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));

/** The whole page on one picture, with the title block at its foot and not in its middle. */
async function picture(page, where) {
  const { width, height } = page.viewportSize();
  // On its side a card is laid out for the height there is; that is lost when the window grows.
  if (width > height) await shoot(page, `${where}-first`);
  const whole = await page.evaluate(() => document.documentElement.scrollHeight);
  await page.setViewportSize({ width, height: Math.max(height, whole) });
  await shoot(page, where);
}

/** What the window shows, packed for speed: there are two thousand pictures, and packing them small took longer than drawing. */
async function shoot(page, name) {
  const { data } = await opened.get(page).wire.send('Page.captureScreenshot', { format: 'png', optimizeForSpeed: true });
  await writeFile(`${out}/${name}.png`, data, 'base64');
}

async function noSidewaysScroll(page, where) {
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  if (wide > 0) fault(where, `scrolls sideways by ${wide} px`);
  // Cells of the title block have a height of their own: what does not fit is cut off, not scrolled to.
  const cut = await page.evaluate(() => {
    const text = document.createRange();
    const higher = (cell) => {
      text.selectNodeContents(cell);
      // Letters reach a little beyond their line.
      return text.getBoundingClientRect().height > cell.getBoundingClientRect().height + 6;
    };
    return [...document.querySelectorAll('.foot > *, .foot .v')].filter(higher).map((cell) => cell.textContent.trim());
  });
  for (const text of cut) fault(where, `cut off in the title block: ${text}`);
}

/** What axe finds on a page as it is loaded. Turned dark it is the same page in other colors: then the rules that look at
    colors are asked again. */
const IN_LIGHT = { resultTypes: ['violations'], runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] };
const IN_DARK = { resultTypes: ['violations'], runOnly: { type: 'rule', values: ['color-contrast', 'link-in-text-block'] } };
async function axeFindings(page, where, rules) {
  // evaluate runs the source outside the page's own policy
  if (!(await page.evaluate(() => 'axe' in globalThis))) await page.evaluate(axe);
  const found = await page.evaluate((asked) => globalThis.axe.run(document, asked), rules);
  for (const one of found.violations) {
    fault(where, `axe ${one.id}: ${one.help} at ${one.nodes.map((n) => n.target.join(' ')).join(', ')}`);
  }
}

/** Everything to press is at least 48 px both ways; words are at least 16 px, and 14 in drawings. */
async function sizesHold(page, where) {
  const small = await page.evaluate(() => {
    const wrong = [];
    for (const it of document.querySelectorAll('a, button, summary')) {
      const { width, height } = it.getBoundingClientRect();
      if (width < 48 || height < 48) wrong.push(`target ${Math.round(width)}x${Math.round(height)}: ${it.textContent.trim().slice(0, 40)}`);
    }
    const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let text = walk.nextNode(); text; text = walk.nextNode()) {
      const holder = text.parentElement;
      if (!text.textContent.trim() || holder.closest('.fr, .vh, script, style')) continue;
      const least = holder.closest('svg') ? 14 : 16;
      // the figures of a fraction are smaller than the line they stand in; the line counts
      const is = parseFloat(getComputedStyle(holder.closest('svg text') ?? holder).fontSize);
      if (is < least) wrong.push(`text ${is} px: ${text.textContent.trim().slice(0, 40)}`);
    }
    // letters in a drawing that run over one another or out of the window
    const letters = [...document.querySelectorAll('svg text')].map((t) => [t.textContent.trim(), t.getBoundingClientRect()]);
    letters.forEach(([a, r], i) => {
      if (r.left < 0 || r.right > innerWidth) wrong.push(`lettering cut off: ${a}`);
      for (const [b, s] of letters.slice(i + 1)) {
        if (r.left < s.right - 1 && s.left < r.right - 1 && r.top < s.bottom - 4 && s.top < r.bottom - 4) wrong.push(`lettering overlaps: ${a} / ${b}`);
      }
    });
    return wrong;
  });
  for (const one of small) fault(where, one);
}

let looked = 0;
/** Looks at each of some states, a few at a time; what stops one is a fault of it. */
async function each(list, look) {
  const left = [...list];
  const hand = async () => {
    for (let one = left.shift(); one !== undefined; one = left.shift()) {
      await part(one.where, () => look(one));
    }
  };
  await Promise.all([hand(), hand(), hand()]);
}

/** A picture in each light, of one page turned from light to dark; with axe too where it is asked for. */
async function inBothLights(page, where, withAxe) {
  const size = page.viewportSize();
  for (const theme of ['light', 'dark']) {
    await page.setViewportSize(size);
    await page.emulateMedia({ colorScheme: theme });
    await painted(page);
    await picture(page, `${where}-${theme}`);
    if (withAxe) await axeFindings(page, `${where}-${theme}`, theme === 'light' ? IN_LIGHT : IN_DARK);
    looked += 1;
  }
}

/** A state at each of some sizes in turn, as when a tablet is turned, and in both lights. What axe finds does not hang on
    the size: once, on the whole page, so that nothing lies below the title block. */
async function atEachSize({ where: name, screen: [, path, waitFor, act] }, all, doubled) {
  const page = await open(name, { size: all[0] });
  const at = async (size, how) => {
    const where = `${name}-${how}`;
    opened.get(page).where = where;
    await page.setViewportSize({ width: size[0], height: size[1] });
    await page.emulateMedia({ colorScheme: 'light' });
    await painted(page);
    await noSidewaysScroll(page, where);
    return where;
  };
  await show(page, path, waitFor, act);
  for (const size of all) {
    const where = await at(size, size[0]);
    await sizesHold(page, where);
    await inBothLights(page, where, size === all[0]);
  }
  // Twice the text size, where it is narrowest: the layout gives way, nothing runs out at the side.
  if (doubled) {
    await page.evaluate(() => (document.documentElement.style.fontSize = '200%'));
    await picture(page, await at(all.at(-1), `${all.at(-1)[0]}-double`));
    looked += 1;
  }
  await putBy(page);
}

const inEnglish = all || (only.length > 0 && !asked.includes('words'));
const states = (list) => (inEnglish ? kept(list) : []).map((screen) => ({ where: screen[0], screen }));
await each(states(screens), (one) => atEachSize(one, sizes, WITH_OTHER_WORDS.includes(one.screen)));
await each(states(officeScreens), (one) => atEachSize(one, officeSizes, false));

const named = (list, how) => (all || asked.includes('words') ? kept(list) : []).map((screen) => ({ where: `${screen[0]}-${how}`, screen }));

// Spanish, at the narrowest size, where longer words show first.
await each(named([...WITH_OTHER_WORDS, ...officeScreens.filter(([name]) => name !== 'office-findings-enter')], '390-es'), async ({ where, screen: [, path, waitFor, act] }) => {
  const page = await open(where, { size: [390, 844], locale: 'es-MX' });
  await show(page, path, waitFor, act);
  if ((await page.getAttribute('html', 'lang')) !== 'es') fault(where, 'is not in Spanish');
  await noSidewaysScroll(page, where);
  await sizesHold(page, where);
  await inBothLights(page, where, true);
  await putBy(page);
});

// The made-up language: whatever is still in plain letters was never given to the translators. What people wrote, names
// of percentiles and code books, times, digests, paths, what the houses in memory say themselves and trade calculations may be.
const PLAIN = /I have read this page\. Signing it agrees to no price\.|Sheet \d\.|Soffit over the sink|Soffit over the refrigerator|West wall|Alder Street kitchen|Tanner Row bath|Heron Court kitchen and the laundry behind it|Rosa Lind|R\. Ames|Elm Court bath|Ines Okafor|P[589]0|0195-[a-z-]+|Mar \d+, 2026|\bmm\b|outside what is plausible here, 2" to 30"|[AP]M|\b10 in\b|\(4fd1c0a7b2e9\)|No house "nowhere" on this device\.|\bnowhere\b|Look at the list of houses\.|wet to the touch|under-sink\.jpg|bulkhead\.jpg|panel\.heic|door\.jpg|dark\.jpg|letter\.txt( is no photograph\.)?|Choose a JPEG\.|alder-street-\d\.(zip|pdf)|\/tablet\/[\w/.-]*|\b[0-9a-f]{8}\b|English|Español|plumbing|fuel gas|IPC\/IRC|UPC 2012|IFGC 2018|International [^,]*, \d+|Underlath 0\.1\.0|That is too long\.|Use at most 80 characters\.|kPrK_[\w-]+|certified by Hale & Daughter \(no\. 3\), from [\d:, A-Za-z-]+ until [\d:, A-Za-z-]+|Hale & Daughter|9d41c07be2aa|office\.hale\.example:8443|\b[0-9A-F]{4}\b|Tablet 2/g;
// What the office's program says of its houses comes in its own words, and they are seen to where it is tested.
const lettered = (svg) => svg.split(/<[^>]*>/).concat([...svg.matchAll(/aria-label="([^"]*)"/g)].map(([, label]) => label));
const leaves = (value) => (typeof value === 'string' ? (value.startsWith('<svg') ? lettered(value) : [value, ...value.split(/\d+\/\d+/).map((part) => part.trim().replaceAll('"', '″'))]) : value && typeof value === 'object' ? Object.values(value).flatMap(leaves) : []);
const SAID = [...new Set(leaves(JSON.parse(await readFile(here('page/office.json'), 'utf8'))))].filter((said) => /[A-Za-z]{2}/.test(said)).sort((a, b) => b.length - a.length);
// So do its refusals; and names, moments, digests, what files are called.
const AT_OFFICE = /Rosa Lind|Ines Okafor|nobody vouches for the key that sealed it|Invented Remodeling|Magda Hale|Teodor Ames-Villalobos|Odalys Brandt|W\. Stroud|Tablet \d|[A-Z][a-z]{2} \d+, 2026(, \d+:\d+ [AP]M)?|\b[0-9a-f]{12}\b|[\w-]+\.(zip|pdf|csv|xlsx|txt)|underlath-office:\S+|Whole\. The key that sealed it is certified by [^.]*\.|the packet cannot be read: .*|Not to be opened any more\. [^.]*\.|There is nobody here by that name and password\.|The password is right; give the code that your phone shows as well\.|This code is not the one of this moment, or was used before\.|Wait for the next one\.|GEZD GNBV[A-Z0-9 ]*|The office’s database cannot be used: the disk is full\.|Make room; nothing was written\.|This packet was not received:|is no zip file\.|Hand over the file that the tablet sealed\.|The office has no house “nowhere”\.|I have read this page\. Signing it agrees to no price\./g;
const unsaid = (text) => SAID.reduce((left, said) => left.replaceAll(said, ''), text);
// Not where letters are typed, which are others in every language.
const TYPED = ['office-findings-enter', 'office-learning', 'office-learning-refuse'];
await each(named([...screens, ...officeScreens].filter(([name]) => !TYPED.includes(name)), 'made-up'), async ({ where, screen: [name, path, waitFor, act] }) => {
  const page = await open(where, { size: name.startsWith('office-') ? officeSizes[0] : sizes[0] });
  const [before, hash] = path.split('#');
  await show(page, `${before}${before.includes('?') ? '&' : '?'}language=qps#${hash}`, waitFor, act);
  const texts = await page.evaluate(() => {
    const found = [document.title];
    const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_ELEMENT | NodeFilter.SHOW_TEXT);
    for (let node = walk.nextNode(); node; node = walk.nextNode()) {
      const element = node.nodeType === Node.TEXT_NODE ? node.parentElement : node;
      if (element.closest('.calculation, script, style')) continue;
      if (node.nodeType === Node.TEXT_NODE) found.push(node.textContent);
      else for (const name of ['aria-label', 'title', 'alt', 'placeholder']) if (element.hasAttribute(name)) found.push(element.getAttribute(name));
    }
    return found;
  });
  const left = (text) => (name.startsWith('office-') ? unsaid(text.replace(AT_OFFICE, '')) : text).replace(PLAIN, '');
  for (const text of texts) if (/[A-Za-z]{2}/.test(left(text))) fault(where, `left in English: ${text.trim().slice(0, 80)}`);
  await putBy(page);
  looked += 1;
});

if (!all && !asked.includes('parts')) await done();

/** Presses Tab until something of a selector has the focus. */
async function tabTo(page, where, selector) {
  for (let i = 0; i < 80; i += 1) {
    if (await page.evaluate((s) => document.activeElement?.matches(s), selector)) return;
    await page.keyboard.press('Tab');
  }
  fault(where, `Tab does not reach ${selector}`);
}

// By keyboard alone: from the list into a house, to its odds, and back to the list.
await part('keyboard', async (where) => {
  const page = await open(where, { size: [1024, 768] });
  await show(page, '/?at=sink-mount#/', 'a[href^="#/house/"]');
  const heading = () => page.evaluate(() => document.activeElement?.tagName);
  await tabTo(page, where, '.left a[href="#/house/0195-alder-street"]');
  await page.keyboard.press('Enter');
  await page.waitForSelector('.answer');
  if ((await heading()) !== 'H1') fault(where, 'the heading of the card has not got the focus');
  if (!(await page.title()).startsWith('Alder Street kitchen')) fault(where, `the title is "${await page.title()}"`);
  await tabTo(page, where, '.answer');
  await page.keyboard.press('Enter');
  await page.waitForFunction(() => document.activeElement?.tagName === 'H1');
  await tabTo(page, where, 'a[href$="/odds"]');
  await page.keyboard.press('Enter');
  await page.waitForSelector('.condition');
  await tabTo(page, where, 'main a[href$="/fits"]');
  await page.keyboard.press('Enter');
  await page.waitForSelector('.trades a');
  await tabTo(page, where, '.trades a.done');
  await page.keyboard.press('Enter');
  await page.waitForSelector('h1.calculation');
  await tabTo(page, where, 'summary');
  await page.keyboard.press('Enter');
  await page.waitForSelector('details[open] dl');
  await tabTo(page, where, 'a[href$="/places"]');
  await page.keyboard.press('Enter');
  await page.waitForSelector('.stops');
  await tabTo(page, where, 'a[href="#/"]');
  await page.keyboard.press('Enter');
  await page.waitForSelector('.left');
  await page.context().close();
  looked += 1;
});

// The office by keyboard alone: signed in, from the inbox to a house, a finding entered, compared, a learned line refused.
await part('office-keyboard', async (where) => {
  const page = await open(where, { size: officeSizes[0] });
  await show(page, '/office.html#/', 'form');
  const press = async (selector, wanted) => {
    await tabTo(page, where, selector);
    await page.keyboard.press('Enter');
    await page.waitForSelector(wanted);
  };
  await tabTo(page, where, '#name');
  await page.keyboard.type('Ines Okafor');
  await tabTo(page, where, '#password');
  await page.keyboard.type('three words apart');
  await page.keyboard.press('Enter');
  await page.waitForSelector('.day li');
  await press(`.day a[href="${at_bend('')}"]`, '.album img');
  await press(`a[href="${at_bend('/findings')}"]`, '.row');
  await tabTo(page, where, '.row.here .said');
  await page.keyboard.press('l'); // the next one that nobody entered
  const key = await page.getAttribute('.row.here .said', 'data-key');
  const said = () => page.textContent(row(key));
  const before = await said();
  await page.keyboard.press('f');
  await page.waitForSelector('#cost');
  await page.fill('#cost', '');
  await tabTo(page, where, '#cost');
  await page.keyboard.type('1480');
  await tabTo(page, where, '.last .fill');
  await page.keyboard.press('Enter');
  // Entered, its row tells it, or is gone where only those are shown that are to be entered.
  await page.waitForFunction(([selector, before]) => document.querySelector(selector)?.textContent !== before, [row(key), before]);
  if ((await page.locator(row(key)).count()) > 0 && !(await said()).includes('1,480')) fault(where, `a finding by keys is told as ${await said()}`);
  await press(`a[href="${at_bend('/compared')}"]`, '.difference');
  await press('a[href="#/"]', '.day li');
  await press('a[href="#/learning"]', '.line');
  await tabTo(page, where, '.line');
  await page.keyboard.press(await page.textContent('.keys .keycap >> nth=3'));
  await page.waitForSelector('#why');
  await page.keyboard.type('two houses only');
  await page.keyboard.press('Enter');
  await page.waitForSelector('.lines li:has-text("two houses only")');
  await page.context().close();
  looked += 1;
});

// Marks without a finger: both points are set, moved and kept by keys. Then one by a single drag.
await part('marks-by-keyboard', async (where) => {
  const page = await open(where, { size: [1024, 768] });
  await show(page, `/${alder}/marks/3f2a9c1d`, '.picture image');
  const kept = async (n) => {
    await page.waitForFunction((n) => document.querySelectorAll('.rows li').length === n, n);
  };
  const points = () => page.evaluate(() => [...document.querySelectorAll('.grip')].map((grip) => grip.getAttribute('transform')));
  for (let n = 0; n < 2; n += 1) {
    await tabTo(page, where, '.chip.unsure');
    await page.keyboard.press('Enter');
    await page.locator('h1').focus();
  }
  const before = await points();
  await tabTo(page, where, '.moving .chip[aria-pressed=true]');
  await page.keyboard.press('Shift+ArrowRight');
  const after = await points();
  if (before.length !== 2 || before[0] !== after[0] || before[1] === after[1]) fault(where, `an arrow key moves ${before} to ${after}`);
  await tabTo(page, where, '.onward');
  await page.keyboard.press('Enter');
  await kept(1);
  const box = await page.locator('.picture > svg').boundingBox();
  await page.mouse.move(box.x + box.width * 0.4, box.y + box.height * 0.4);
  await page.mouse.down();
  await page.mouse.move(box.x + box.width * 0.5, box.y + box.height * 0.5, { steps: 5 });
  await page.mouse.up();
  await page.click('.onward');
  await kept(2);
  await page.context().close();
  looked += 1;
});

// A walk by touch, from an empty form: started, 45 answers and all lengths among them, every touch counted. With one
// touch for each of a dozen photographs it must stay within 130 for 45 answers, 12 lengths and 12 photographs.
await part('taps', async (where) => {
  const page = await open(where, { size: [768, 1024] });
  let taps = 0;
  const tap = async (selector) => {
    taps += 1;
    await page.tap(selector);
  };
  const key = (digit) => tap(`button.key:text-is("${digit}")`);
  const half = (n) => tap(`.parts .key >> nth=${n}`);
  await show(page, '/#/', '.foot .now');
  await tap('.foot .now');
  await page.waitForSelector('.work');
  await page.fill('.field >> nth=0 >> input', 'Elm Court kitchen');
  await page.fill('.field >> nth=2 >> input', '1964');
  for (const n of [0, 1, 9]) await tap(`.work >> nth=${n}`);
  await tap('.foot .now');
  await page.waitForSelector('.card h1');
  const READINGS = { 'How deep is the planned bowl?': [['1', '0'], []], 'How thick is the planned counter?': [['1'], [1]], 'How thick is the cabinet floor?': [[], [0, 1]], 'How high is the center of the drain stub-out above that?': [['1', '9'], [1, 2]] };
  let [answers, lengths] = [0, 0];
  while (answers < 45 && (await page.locator('.card h1').count()) > 0) {
    const asked = await page.textContent('h1');
    if (await page.locator('.measuring').count()) {
      const [digits, halves] = READINGS[asked] ?? [['3', '6'], []];
      for (const digit of digits) await key(digit);
      for (const n of halves) await half(n);
      await page.waitForSelector('.parts .onward');
      await tap('.parts .onward');
      lengths += 1;
    } else if (await page.locator('.counting').count()) {
      if (answers % 2) await tap('.unsure >> nth=0');
      else {
        for (const digit of ['1', '2']) await key(digit);
        await tap('.parts .onward');
      }
      answers += 1;
    } else {
      const several = (await page.locator('.answer.several').count()) > 0;
      await tap(`.answer >> nth=${answers % 2}`);
      // One that stands alone is a whole answer; of others each is ticked, and the key goes on.
      if (several && (await page.textContent('h1')) === asked && (await page.locator('.hand > .onward').count())) await tap('.hand > .onward');
      answers += 1;
    }
    await page.waitForFunction((before) => document.querySelector('h1')?.textContent !== before, asked);
  }
  console.log(`a walk of ${answers} answers and ${lengths} lengths, started by touch: ${taps} touches`);
  const most = 130 - 12 - 4 * (12 - lengths);
  if (taps > most) fault(where, `${taps} touches, more than ${most}`);
  await page.context().close();
  looked += 1;
});

// A record that could not be read is read again on asking.
await part('again', async (where) => {
  const page = await open(where, { size: [390, 844] });
  await show(page, '/?refused#/', '[role=alert]');
  const said = await page.textContent('[role=alert]');
  if (!said.includes('Put back the last copy')) fault(where, `does not say how to mend it: ${said}`);
  await page.click('button.press');
  await page.waitForSelector('[role=alert]');
  await page.context().close();
  looked += 1;
});

await done();

/** A part of the look; what stops it is a fault of it. */
async function part(where, run) {
  try {
    await run(where);
  } catch (error) {
    fault(where, error.message.split('\n').slice(0, 3).join(' '));
  }
}

async function done() {
  await browser.close();
  await server.close();
  for (const one of faults) console.error(one);
  console.log(`${looked} states looked at, ${faults.length} faults`);
  process.exit(faults.length > 0 ? 1 : 0);
}
