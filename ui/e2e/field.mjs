// The screens in a real browser as `underlath field` serves them: the printed address is opened once and replaced, a house
// is opened, nothing is asked of the outside, no script reads the cookie, and no other page gets an answer.
// Usage: field.mjs UNDERLATH
import { execFileSync } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { createServer } from 'node:http';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { launch, serve } from './browser.mjs';

const program = process.argv[2] && resolve(process.argv[2]);
if (!program) throw new Error('usage: field.mjs UNDERLATH');
const dir = await mkdtemp(join(tmpdir(), 'field-'));
const home = ['--home', join(dir, 'device'), '--by', 'R. Ames', '--language', 'en'];
const HOUSE = 'Mill Lane kitchen';
const underlath = (...args) => execFileSync(program, [...home, ...args], { encoding: 'utf8', cwd: dir });
underlath('new', HOUSE);
underlath('record', HOUSE, 'planned-work', 'remove-bulkhead', 'deep-sink');

const faults = [];
const same = (where, got, wanted) => {
  if (JSON.stringify(got) !== JSON.stringify(wanted)) faults.push(`${where}: ${JSON.stringify(got)}, not ${JSON.stringify(wanted)}`);
};

const { served, address } = await serve(program, home, dir);
const origin = new URL(address).origin;
// Another page of this machine, which knows the port.
const other = createServer((_, answer) => answer.setHeader('content-type', 'text/html').end('<!doctype html><title>other</title>'));
await new Promise((open) => other.listen(0, '127.0.0.1', open));
const elsewhere = `http://127.0.0.1:${other.address().port}/`;

const browser = await launch();
try {
  const context = await browser.newContext({ locale: 'en-US' });
  const page = await context.newPage();
  page.on('console', (said) => said.type() === 'error' && faults.push(`console: ${said.text()}`));
  page.on('pageerror', (error) => faults.push(`page: ${error}`));
  page.on('request', (asked) => {
    const url = new URL(asked.url());
    if (url.origin !== origin && url.protocol !== 'data:') faults.push(`asked outside: ${url}`);
  });
  await page.goto(address);
  await page.getByText(HOUSE).first().waitFor({ timeout: 20_000 });
  same('the address is replaced', new URL(page.url()).pathname, '/');
  same('no script reads the cookie', await page.evaluate(() => document.cookie), '');
  const [cookie] = await context.cookies();
  same('the cookie', [cookie.httpOnly, cookie.sameSite], [true, 'Strict']);
  // The house is opened on its card, which is a question and no refusal, and stays there when the page is read again.
  const question = () => page.locator('main h1').first().innerText();
  const list = await question();
  await page.click('a.press.fill');
  await page.waitForFunction(([before]) => {
    const now = document.querySelector('main h1')?.textContent ?? '';
    return location.hash.startsWith('#/house/') && now !== '' && now !== before;
  }, [list], { timeout: 20_000 });
  const card = await question();
  await page.reload();
  await page.waitForFunction(([same]) => document.querySelector('main h1')?.innerText === same, [card], { timeout: 20_000 });

  // The same browser, cookie and all, on a page of somebody else: no answer can be read, and nothing is recorded.
  const foreign = await context.newPage();
  await foreign.goto(elsewhere);
  const read = await foreign.evaluate(async (at) => {
    const told = async (ask) => ask().then((answer) => answer.type, () => 'refused');
    const json = { method: 'POST', headers: { 'content-type': 'application/json' }, body: '{}', credentials: 'include' };
    const plain = { method: 'POST', body: '{}', credentials: 'include', mode: 'no-cors' };
    return [await told(() => fetch(`${at}/ask/houses`, json)), await told(() => fetch(`${at}/ask/houses`, plain))];
  }, origin);
  same('another page reads nothing', read, ['refused', 'refused']);

  // A browser that did not open the printed address, and the address opened again.
  const stranger = await (await browser.newContext()).newPage();
  same('a stranger', (await stranger.goto(`${origin}/`)).status(), 401);
  same('the address again', (await stranger.goto(address)).status(), 403);
} finally {
  await browser.close();
  served.kill();
  other.close();
  await rm(dir, { recursive: true, force: true });
}
if (faults.length > 0) {
  console.error(faults.join('\n'));
  process.exit(1);
}
