// Lighthouse over the screens as `underlath field` serves them, on a device with the sample houses. Accessibility and best
// practices must be whole; speed on its slowed-down phone is told, not asserted: it depends on the machine.
// Usage: audit.mjs UNDERLATH HOME
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { launchOn, serve } from './browser.mjs';

const [program, home] = process.argv.slice(2).map((path) => resolve(path));
if (!home) throw new Error('usage: audit.mjs UNDERLATH HOME');
// Apart from the packages the screens are built with: tests/lighthouse says why.
const there = createRequire(fileURLToPath(new URL('../../tests/lighthouse/package.json', import.meta.url)));
const { default: lighthouse } = await import(pathToFileURL(there.resolve('lighthouse')).href);

const WHOLE = ['accessibility', 'best-practices'];
// A phone as wide as the auditor's own, and longer than any page: a key that lies half under the title block at the foot,
// from where it scrolls free, is taken for one that is too small.
const PHONE = { mobile: true, width: 412, height: 12_000, deviceScaleFactor: 1.75, disabled: false };
const profile = await mkdtemp(join(tmpdir(), 'audit-'));
const { served, address } = await serve(program, ['--home', home, '--by', 'R. Ames', '--language', 'en'], profile);
const origin = new URL(address).origin;
const context = await launchOn(profile, ['--remote-debugging-port=0']);
const faults = [];
try {
  // The printed address is good for one browser, once: it is opened here, and its cookie is kept while auditing.
  const page = await context.newPage();
  await page.goto(address);
  const house = await page.locator('a[href^="#/house/"]').first().getAttribute('href', { timeout: 20_000 });
  const [port] = (await readFile(join(profile, 'DevToolsActivePort'), 'utf8')).split('\n');
  for (const [name, at] of [['houses', '#/'], ['card', house], ['odds', `${house.split('/').slice(0, 3).join('/')}/odds`]]) {
    const { lhr } = await lighthouse(`${origin}/${at}`, {
      port: Number(port), logLevel: 'error', disableStorageReset: true, onlyCategories: ['performance', ...WHOLE],
      screenEmulation: PHONE,
    });
    if (lhr.runtimeError) throw new Error(`${name}: ${lhr.runtimeError.message}`);
    const score = Object.fromEntries(Object.values(lhr.categories).map((it) => [it.id, Math.round(it.score * 100)]));
    console.log(`${name}: ${Object.entries(score).map(([id, value]) => `${id} ${value}`).join(', ')}`);
    for (const id of WHOLE.filter((id) => score[id] !== 100)) {
      const bad = lhr.categories[id].auditRefs.map((ref) => lhr.audits[ref.id]).filter((audit) => audit.score !== null && audit.score < 1);
      faults.push(`${name}: ${id} ${score[id]}: ${bad.map((audit) => audit.title).join('; ')}`);
    }
    if (process.env.AUDIT_DETAIL) {
      for (const ref of lhr.categories.performance.auditRefs) {
        const audit = lhr.audits[ref.id];
        if (audit.score !== null && audit.score < 0.9) console.log(`  ${audit.id} ${audit.score} ${audit.displayValue ?? ''}`);
      }
    }
  }
} finally {
  await context.close();
  served.kill();
  await rm(profile, { recursive: true, force: true });
}
if (faults.length) {
  console.error(faults.join('\n'));
  process.exit(1);
}
