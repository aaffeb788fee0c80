// The program behind a page of this machine, `underlath field`. Nothing else asks over HTTP. The cookie of the printed
// address goes along by itself and is read by no script.
import { words } from '../words/words';
import { HostError, type Host } from './host';

export const http: Host = {
  async ask(name, args) {
    const answer = await sent(`/ask/${name}`, JSON.stringify(args));
    const said: unknown = await answer.json().catch(() => null);
    if (!answer.ok) throw HostError.from(said ?? new HostError('internal', `HTTP ${answer.status}`));
    return said as never;
  },
};

async function sent(path: string, body: string): Promise<Response> {
  const headers = { 'content-type': 'application/json', 'x-underlath-language': words.language };
  try {
    return await fetch(path, { method: 'POST', headers, body, credentials: 'same-origin', redirect: 'error' });
  } catch {
    throw new HostError('internal', words.say('field-gone'), words.say('field-gone-how'));
  }
}
