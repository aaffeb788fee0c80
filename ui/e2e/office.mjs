// The office in a real browser as `underlath office` serves it, over TLS: set up by the printed link, a packet handed in
// twice, a finding entered by keyboard, held against what was said, seen in the track record, and a line it teaches taken
// over; a tablet paired by a photograph of the code on the screen, which seals a house and sends it over a line that is cut
// on the way, to an office that was ended meanwhile; the line published, and taken by the tablet; a second factor set up;
// signed out, in again by its code, and nobody else let in.
// Usage: office.mjs UNDERLATH MADE, where MADE is what `underlath demo` made.
import { execFileSync, spawn } from 'node:child_process';
import { createHmac } from 'node:crypto';
import { mkdtemp, readFile, readdir, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { connect, createServer } from 'node:net';
import { createInterface } from 'node:readline';
import { launch, serve } from './browser.mjs';

const [program, made] = process.argv.slice(2).map((path) => resolve(path));
if (!program || !made) throw new Error('usage: office.mjs UNDERLATH MADE');
const packets = (await readdir(made)).filter((name) => name.endsWith('.zip')).sort().map((name) => join(made, name));
const dir = await mkdtemp(join(tmpdir(), 'office-'));
const faults = [];
const same = (where, got, wanted) => {
  if (JSON.stringify(got) !== JSON.stringify(wanted)) faults.push(`${where}: ${JSON.stringify(got)}, not ${JSON.stringify(wanted)}`);
};

/** The code of six digits that a phone with this secret shows at a moment: RFC 6238 and RFC 4226, the base32 of RFC 4648. */
function codeOf(secret, at) {
  const bits = [...secret].map((letter) => 'ABCDEFGHIJKLMNOPQRSTUVWXYZ234567'.indexOf(letter).toString(2).padStart(5, '0')).join('');
  const key = Buffer.from(bits.match(/.{8}/g).map((byte) => parseInt(byte, 2)));
  const step = Buffer.alloc(8);
  step.writeBigUInt64BE(BigInt(Math.floor(at / 30_000)));
  const mac = createHmac('sha1', key).update(step).digest();
  const from = mac.at(-1) & 15;
  return String((mac.readUInt32BE(from) & 0x7fffffff) % 1_000_000).padStart(6, '0');
}

/** The office: the running program, and what it printed. */
async function open() {
  const served = spawn(program, ['--home', join(dir, 'home'), '--office', join(dir, 'office'), '--language', 'en', '--json', 'office', '--address', '127.0.0.1:0'], { cwd: dir, stdio: ['ignore', 'pipe', 'inherit'] });
  let printed = '';
  const told = await new Promise((found, none) => {
    served.once('exit', (code) => none(new Error(`underlath office ended with ${code}`)));
    createInterface({ input: served.stdout }).on('line', (line) => {
      printed += `${line}\n`;
      try {
        found(JSON.parse(printed));
      } catch {
        // not all of it is there yet
      }
    });
  });
  return { served, told, port: told.listening.split(':').at(-1) };
}

/** A line from one port to another that is cut once so many bytes went over it on one connection, until it is mended. */
async function cutLine(from, to, after) {
  const line = { whole: true, cut: false, mend: () => (line.whole = true), close: () => server.close() };
  const server = createServer((here) => {
    if (!line.whole) return here.destroy();
    const there = connect(to, '127.0.0.1');
    let sent = 0;
    const end = () => (here.destroy(), there.destroy());
    for (const one of [here, there]) one.on('error', end).on('close', end);
    here.on('data', (bytes) => {
      sent += bytes.length;
      if (!line.cut && sent > after) {
        [line.cut, line.whole] = [true, false];
        end();
      } else there.write(bytes);
    });
    there.pipe(here);
  });
  await new Promise((listens) => server.listen(Number(from), '127.0.0.1', listens));
  return line;
}

let { served, told, port } = await open();
const link = told.set_up.replace(/^https:\/\/[^/]+/, `https://127.0.0.1:${port}`);
let origin = new URL(link).origin;
const NAME = 'Ines Okafor';
const PASSWORD = 'pewter lantern gravel Tuesday';

// A tablet with a house that is not sealed yet.
const HOUSE = 'Mill Lane kitchen';
const onTablet = ['--home', join(dir, 'tablet'), '--by', 'R. Ames', '--language', 'en'];
execFileSync(program, [...onTablet, 'new', HOUSE], { cwd: dir });
execFileSync(program, [...onTablet, 'record', HOUSE, 'planned-work', 'remove-bulkhead', 'deep-sink'], { cwd: dir });
const tablet = await serve(program, onTablet, dir);

let line = null;
const browser = await launch();
try {
  const context = await browser.newContext({ locale: 'en-US', ignoreHTTPSErrors: true, viewport: { width: 1440, height: 900 } });
  const page = await context.newPage();
  page.setDefaultTimeout(30_000);
  // A refusal is an answer, which the browser writes on its console too.
  page.on('console', (said) => said.type() === 'error' && !/status of (400|401|403|404|409)/.test(said.text()) && faults.push(`console: ${said.text()}`));
  page.on('pageerror', (error) => faults.push(`page: ${error}`));
  page.on('request', (asked) => {
    const url = new URL(asked.url());
    if (url.origin !== origin && !['data:', 'blob:'].includes(url.protocol)) faults.push(`asked outside: ${url}`);
  });

  const ask = (name, args = {}) => page.evaluate(async ([name, args]) => {
    const answer = await fetch(`/ask/${name}`, { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(args) });
    return [answer.status, await answer.json()];
  }, [name, args]);
  await page.goto(link);
  await page.fill('#firm', 'Hale & Daughter');
  await page.fill('#name', NAME);
  await page.fill('#password', PASSWORD);
  await page.fill('#again', PASSWORD);
  await page.click('.press.fill');
  const packet = page.locator('input[type=file]');
  await packet.waitFor({ state: 'attached' });
  same('no script reads the cookie', await page.evaluate(() => document.cookie), '');
  const [cookie] = await context.cookies();
  same('the cookie', [cookie.name, cookie.httpOnly, cookie.secure, cookie.sameSite], ['__Host-underlath-office', true, true, 'Strict']);

  // Handed in, and handed in again: one line of the inbox.
  await packet.setInputFiles(packets[0]);
  await page.waitForSelector('.handed b');
  await packet.setInputFiles(packets[0]);
  await page.waitForFunction(() => document.querySelectorAll('.handed b').length === 1 || document.querySelectorAll('.handed p').length > 1);
  const houses = () => page.$$eval('main a[href^="#/house/"]', (all) => [...new Set(all.map((a) => a.hash.split('/')[2]))]);
  same('houses', (await houses()).length, 1);
  const [survey] = await houses();

  // As recorded, with pictures of our own and pages that are saved and never shown.
  await page.goto(`${origin}/office.html#/house/${survey}`);
  // They are fetched when they come into sight.
  await page.locator('main img').first().scrollIntoViewIfNeeded();
  await page.waitForFunction(() => [...document.images].some((image) => image.complete && image.naturalWidth > 0));
  const saved = await page.evaluate(async () => {
    const link = document.querySelector('a[href^="/page/"]');
    const answer = await fetch(link.href);
    return [answer.status, answer.headers.get('content-type'), answer.headers.get('content-disposition')?.startsWith('attachment'), answer.headers.get('x-content-type-options'), (await answer.arrayBuffer()).byteLength > 1000];
  });
  same('a page', saved, [200, 'application/octet-stream', true, 'nosniff', true]);

  // A finding by keyboard: the row has the focus, a letter says what was there.
  await page.goto(`${origin}/office.html#/house/${survey}/findings`);
  const row = page.locator('button.said[aria-current=true]');
  await row.waitFor();
  const key = await row.getAttribute('data-key');
  await row.focus();
  await page.keyboard.press('n');
  await page.waitForFunction((wanted) => /not there/i.test(document.querySelector(`button.said[data-key="${wanted}"]`)?.closest('.row')?.querySelector('.there')?.textContent ?? ''), key);
  await page.reload();
  await page.waitForFunction((wanted) => /not there/i.test(document.querySelector(`button.said[data-key="${wanted}"]`)?.closest('.row')?.querySelector('.there')?.textContent ?? ''), key);
  await page.goto(`${origin}/office.html#/house/${survey}/compared`);
  await page.waitForSelector('main svg');

  // The record: one place opened, a small number; it leads back to its house.
  await page.goto(`${origin}/office.html#/record`);
  const number = page.locator('.bins .opens').first();
  await number.waitFor();
  await number.click();
  same('its house', await page.getAttribute('.bins .houses a', 'href'), `#/house/${encodeURIComponent(survey)}/compared`);

  // What it teaches: worked out beside everything else, a line taken along by its letter and taken over.
  await page.goto(`${origin}/office.html#/learning`);
  const learned = page.locator('button.line').first();
  await learned.waitFor({ timeout: 180_000 });
  await learned.focus();
  await page.keyboard.press('a');
  await page.click('.take .press');
  await page.click('.take .fill');
  await page.waitForSelector('.lines li', { timeout: 60_000 });
  const overlay = await readFile(join(dir, 'home', 'overlay', 'learned.toml'), 'utf8');
  if (!overlay.includes('[change.condition.')) faults.push(`what was taken over: ${overlay.slice(0, 200)}`);
  await page.waitForFunction(() => document.querySelectorAll('button.line').length === 0, null, { timeout: 60_000 });

  // The code on the office's screen, photographed by a tablet; a person compares, says yes, seals a house and sends it.
  // The first invitation makes the office's key, by which it vouches for tablets.
  await page.goto(`${origin}/office.html#/tablets`);
  await page.click('section .press.fill');
  const code = page.locator('main svg[role=img]');
  await code.waitFor();
  const photo = await code.screenshot({ type: 'jpeg', quality: 90 });
  const walked = await (await browser.newContext({ locale: 'en-US', viewport: { width: 768, height: 1024 } })).newPage();
  walked.setDefaultTimeout(30_000);
  walked.on('pageerror', (error) => faults.push(`tablet: ${error}`));
  await walked.goto(tablet.address);
  await walked.waitForFunction(() => location.pathname === '/');
  const device = new URL(walked.url()).origin;
  await walked.goto(`${device}/#/settings`);
  await walked.locator('input[capture=environment]').waitFor({ state: 'attached' });
  await walked.setInputFiles('input[capture=environment]', { name: 'code.jpg', mimeType: 'image/jpeg', buffer: photo });
  await walked.waitForSelector('#compare');
  const said = (on, selector) => on.$eval(selector, (one) => one.textContent.replace(/[^0-9a-f]/gi, '').toLowerCase());
  same('the sum to compare', await said(walked, 'dd.sum'), told.fingerprint.replace(/[^0-9a-f]/gi, '').toLowerCase());
  await walked.fill('#pair-name', 'Tablet 3');
  await walked.click('.sheet-of .press.fill');
  await walked.waitForFunction(() => !document.querySelector('#compare') && document.querySelector('dd.sum'));
  const before = (await ask('inbox'))[1].packets.length;

  // The office is ended and starts again; between it and the tablet lies a line now that breaks in the middle of a packet.
  await page.goto('about:blank');
  served.kill('SIGKILL');
  await new Promise((ended) => served.once('exit', ended));
  const former = port;
  ({ served, told, port } = await open());
  same('a set-up link', told.set_up, null);
  origin = `https://127.0.0.1:${port}`;
  line = await cutLine(former, Number(port), 700_000);
  await page.goto(`${origin}/office.html#/`);
  await walked.goto(`${device}/#/`);
  await walked.getByText(HOUSE).first().waitFor();
  const [other] = await walked.$$eval('a[href^="#/house/"]', (all) => all.map((a) => a.hash.split('/')[2]));
  await walked.goto(`${device}/#/house/${other}/seal`);
  await walked.click('.right .fill');
  await walked.click('.send .press.fill', { timeout: 60_000 });
  await walked.getByText(/^Waits for the line/).waitFor();
  same('the line was cut', line.cut, true);
  await page.getByText('Tablet 3').waitFor();
  const [half] = (await ask('arriving'))[1];
  if (!(half.have > 0 && half.have < half.bytes)) faults.push(`half of it: ${JSON.stringify(half)}`);
  const sentSoFar = await walked.textContent('.send .let');
  const hereSoFar = await page.textContent('section:has(#coming-in) .let');
  same('both tell as much', sentSoFar.split(' of ')[0], hereSoFar.split(' of ')[0]);
  line.mend();
  await walked.click('.send .press');
  await walked.waitForFunction(() => /signed a receipt/.test(document.querySelector('.send [role=status]')?.textContent ?? '') && !document.querySelector('.send svg'), null, { timeout: 60_000 });
  same('what came', (await ask('inbox'))[1].packets.length, before + 1);
  await page.waitForFunction(() => !document.querySelector('#coming-in'));

  // The line that was taken over goes to the tablets: published, and taken.
  await page.goto(`${origin}/office.html#/learning`);
  await page.click('.published > .press');
  await page.click('.published .fill');
  await page.getByText(/^Version 1, published/).waitFor();
  const { last } = (await ask('published'))[1];
  await walked.goto(`${device}/#/settings`);
  await walked.getByText('Look for a new catalog').click();
  await walked.getByText('Version 1', { exact: true }).waitFor();
  await walked.reload();
  await walked.getByText(`(${last.catalog})`).waitFor();
  const condition = overlay.match(/\[change\.condition\.([a-z0-9-]+)/)[1];
  const shows = (home) => execFileSync(program, ['--home', join(dir, home), '--language', 'en', 'catalog', 'show', 'condition', condition], { cwd: dir, encoding: 'utf8' }).replace(/\S*(learned\.toml|office-catalog\.json)\S*/g, '');
  same('the number is the office’s', shows('tablet'), shows('home'));
  if (shows('tablet') === shows('nobody')) faults.push(`nothing changed of ${condition}`);

  // Signed out: nothing is told any more. A wrong name and a wrong password are answered alike.
  const audit = (await ask('audit'))[1].map((line) => line.what);
  for (const deed of ['packet-received', 'finding-entered', 'learning-accepted', 'tablet-paired', 'catalog-published']) if (!audit.includes(deed)) faults.push(`the audit log lacks ${deed}: ${audit}`);
  // A second factor: the secret read off the screen, the codes made by an implementation of its own (RFC 6238).
  await page.goto(`${origin}/office.html#/me`);
  await page.fill('#second-password', PASSWORD);
  await page.click('#second-factor .press');
  const secret = (await page.textContent('#second-factor .secret')).replace(/\s/g, '');
  await page.fill('#second-new-code', codeOf(secret, Date.now()));
  await page.click('#second-factor .press.fill');
  await page.waitForSelector('#second-own-code');

  await ask('sign-out');
  same('signed out', (await ask('inbox'))[0], 401);
  const wrong = await ask('sign-in', { name: NAME, password: 'not the password at all' });
  same('a wrong name is answered like a wrong password', await ask('sign-in', { name: 'Nobody', password: 'not the password at all' }), wrong);
  await page.goto(`${origin}/office.html`);
  await page.fill('#name', NAME);
  await page.fill('#password', PASSWORD);
  await page.click('.press.fill');
  // The password alone is not enough any more; the code it was set up by is used, the next one is good already.
  await page.fill('#code', codeOf(secret, Date.now() + 30_000));
  await page.click('.press.fill');
  await packet.waitFor({ state: 'attached' });

  const stranger = await (await browser.newContext({ ignoreHTTPSErrors: true })).newPage();
  await stranger.goto(link.replace(/^https:\/\/[^/]+/, origin));
  same('the link again', await stranger.evaluate(async (token) => (await fetch('/ask/set-up', { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify({ token, firm: 'Others', name: 'Eve', password: 'another long password here' }) })).status >= 400, link.split('/').at(-1)), true);
} finally {
  await browser.close();
  line?.close();
  for (const one of [tablet.served, served]) {
    one.kill('SIGTERM');
    await new Promise((ended) => (one.exitCode === null ? one.once('exit', ended) : ended()));
  }
  await rm(dir, { recursive: true, force: true });
}
if (faults.length > 0) {
  console.error(faults.join('\n'));
  process.exit(1);
}
