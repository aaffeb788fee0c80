// The program behind a page of this machine, `underlath field`. Nothing else asks over HTTP. The cookie of the printed
// address goes along by itself and is read by no script.
import { words } from '../words/words';
import { HostError, type Host } from './host';

export const http: Host = {
  async ask(name, args) {
    return (await said(await sent(`/ask/${name}`, { 'content-type': 'application/json' }, JSON.stringify(args)))) as never;
  },
  async takePhoto({ survey, key, name, bytes }) {
    const beside = new URLSearchParams(key === undefined ? { survey, name } : { survey, name, key });
    return (await said(await sent(`/photo?${beside}`, { 'content-type': 'application/octet-stream' }, bytes))) as never;
  },
  async pairPhoto(bytes) {
    return (await said(await sent('/pair-photo', { 'content-type': 'application/octet-stream' }, bytes))) as never;
  },
  picture: (digest) => jpeg('picture', digest),
  thumbnail: (digest) => jpeg('thumbnail', digest),
};

async function jpeg(size: 'picture' | 'thumbnail', digest: string): Promise<Blob> {
  const answer = await sent(`/${size}/${encodeURIComponent(digest)}`, {}, null);
  if (!answer.ok) await said(answer);
  return answer.blob();
}

async function said(answer: Response): Promise<unknown> {
  const told: unknown = await answer.json().catch(() => null);
  if (!answer.ok) throw HostError.from(told ?? new HostError('internal', `HTTP ${answer.status}`));
  return told;
}

async function sent(path: string, more: Record<string, string>, body: BodyInit | null): Promise<Response> {
  const headers = { ...more, 'x-underlath-language': words.language };
  const method = body === null ? 'GET' : 'POST';
  try {
    return await fetch(path, { method, headers, body, credentials: 'same-origin', redirect: 'error' });
  } catch {
    throw new HostError('internal', words.say('field-gone'), words.say('field-gone-how'));
  }
}
