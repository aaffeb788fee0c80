// What the scripts that look at screens share: the browser, and the program serving its screens.
import { spawn } from 'node:child_process';
import { createInterface } from 'node:readline';
import { chromium } from 'playwright-core';

/** The tests' browser, which asks nothing of the outside by itself. */
const quiet = {
  executablePath: process.env.UNDERLATH_BROWSER ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking',
    '--disable-component-update', '--disable-sync'],
};
export const launch = () => chromium.launch(quiet);

/** The same browser over a profile of its own, so that another program can look at its pages. */
export const launchOn = (profile, args) => chromium.launchPersistentContext(profile, { ...quiet, args: [...quiet.args, ...args] });

/** `underlath field` over records, in a folder: the running program and the address it printed. */
export async function serve(program, home, dir, env = process.env) {
  const served = spawn(program, [...home, '--json', 'field'], { cwd: dir, env, stdio: ['ignore', 'pipe', 'inherit'] });
  const address = await new Promise((found, none) => {
    served.once('exit', (code) => none(new Error(`underlath field ended with ${code}`)));
    createInterface({ input: served.stdout }).on('line', (line) => {
      const [at] = line.match(/http:\/\/127\.0\.0\.1:\d+\/enter\/[0-9a-f]+/) ?? [];
      if (at) found(at);
    });
  });
  return { served, address };
}
