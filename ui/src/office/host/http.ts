// The office's program behind its page, over HTTPS of the same origin. The cookie goes along by itself and is read by no
// script.
import { HostError } from '../../lib/host/host';
import { words } from '../words';
import type { OfficeHost, Progress } from './host';

export const http: OfficeHost = {
  async ask(name, args) {
    const headers = { 'content-type': 'application/json', ...language() };
    let answer: Response;
    try {
      answer = await fetch(`/ask/${name}`, { method: 'POST', headers, body: JSON.stringify(args), credentials: 'same-origin', redirect: 'error' });
    } catch {
      throw gone();
    }
    return told(answer.status, await answer.text()) as never;
  },
  sendPacket: (file, progress) => send('/packet', file, progress) as never,
  sendFindingPhoto: (file, progress) => send('/finding-photo', file, progress) as never,
  picture: (packet, photo) => `/picture/${encodeURIComponent(packet)}/${encodeURIComponent(photo)}`,
  thumbnail: (packet, photo) => `/thumbnail/${encodeURIComponent(packet)}/${encodeURIComponent(photo)}`,
  findingPicture: (photo) => `/finding-photo/${encodeURIComponent(photo)}`,
  page: (packet, name) => `/page/${encodeURIComponent(packet)}/${encodeURIComponent(name.replace(/^pages\//, ''))}`,
};

const language = () => ({ 'x-underlath-language': words.language });
const gone = () => new HostError('internal', words.say('office-gone'), words.say('office-gone-how'));

/** An answer, or the refusal in it. */
export function told(status: number, text: string): unknown {
  let said: unknown;
  try {
    said = JSON.parse(text);
  } catch {
    said = null;
  }
  if (status >= 200 && status < 300) return said;
  const error = HostError.from(said ?? new HostError('internal', `HTTP ${status}`));
  // Whatever its words: nobody is signed in here any more.
  throw status === 401 ? new HostError('signed-out', error.message, error.hint) : error;
}

/** Sends a file. Only the older way of asking says how far it is. */
function send(path: string, file: File, progress: Progress): Promise<unknown> {
  return new Promise((done, refused) => {
    const asked = new XMLHttpRequest();
    asked.open('POST', path);
    asked.setRequestHeader('content-type', 'application/octet-stream');
    for (const [name, value] of Object.entries(language())) asked.setRequestHeader(name, value);
    asked.upload.onprogress = ({ loaded }) => progress(loaded, file.size);
    asked.onerror = asked.onabort = asked.ontimeout = () => refused(gone());
    asked.onload = () => {
      try {
        done(told(asked.status, asked.responseText));
      } catch (error) {
        refused(error);
      }
    };
    asked.send(file);
  });
}
