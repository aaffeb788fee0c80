// The real window program on a made display, driven through WebKitWebDriver: for the scripts that look at it or time it.
import { spawn } from 'node:child_process';
import { createServer } from 'node:net';

export const pause = (ms) => new Promise((done) => setTimeout(done, ms));

/** Looks again and again until there is something; every step waits `step` milliseconds. */
export async function until(what, look, step = 100) {
  for (const start = Date.now(); Date.now() - start < 20_000; await pause(step)) {
    const found = await look().catch(() => null);
    if (found) return found;
  }
  throw new Error(`waited in vain for ${what}`);
}

const freePort = () =>
  new Promise((done) => {
    const server = createServer().listen(0, '127.0.0.1', () => {
      const { port } = server.address();
      server.close(() => done(port));
    });
  });

/** A driver for windows over records; `open` starts the program, `close` ends it as it stands. */
export async function driver(program, records) {
  const port = await freePort();
  const running = spawn('WebKitWebDriver', [`--port=${port}`, '--host=127.0.0.1'], {
    stdio: ['ignore', 'ignore', 'inherit'],
    env: { ...process.env, TAURI_WEBVIEW_AUTOMATION: 'true', UNDERLATH_HOME: records, LANG: 'C.UTF-8', LANGUAGE: 'en_US' },
  });
  let session = '';
  const ask = async (method, path, body) => {
    const answer = await fetch(`http://127.0.0.1:${port}${path}`, {
      method,
      signal: AbortSignal.timeout(30_000),
      ...(body === undefined ? {} : { body: JSON.stringify(body), headers: { 'content-type': 'application/json' } }),
    });
    const { value } = await answer.json();
    if (!answer.ok) throw new Error(`${method} ${path}: ${value.error}: ${value.message}`);
    return value;
  };
  await until('WebKitWebDriver', () => ask('GET', '/status'));
  const run = (script, ...args) => ask('POST', `${session}/execute/sync`, { script, args });
  return {
    async open() {
      const capabilities = { alwaysMatch: { 'webkitgtk:browserOptions': { binary: program, args: [] } } };
      session = `/session/${(await ask('POST', '/session', { capabilities })).sessionId}`;
    },
    async close() {
      if (session) await ask('DELETE', session).catch(() => null);
      session = '';
    },
    run,
    wait: (script, ...args) => ask('POST', `${session}/execute/async`, { script, args }),
    text: (selector) => run('return [...document.querySelectorAll(arguments[0])].map((e) => e.textContent.trim())', selector),
    press: (selector) => run('document.querySelector(arguments[0]).click()', selector),
    /** Hands a file to an input, as the tablet's file list would. */
    async give(selector, file) {
      const found = await ask('POST', `${session}/element`, { using: 'css selector', value: selector });
      await ask('POST', `${session}/element/${Object.values(found)[0]}/value`, { text: file });
    },
    picture: async () => Buffer.from(await ask('GET', `${session}/screenshot`), 'base64'),
    end() {
      running.kill();
    },
  };
}
