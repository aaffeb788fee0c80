// Asks again when an answer was broken off, because something else was asked meanwhile.
import { HostError } from './host/host';
import { words } from './words/words';

const TRIES = 20;

export async function until<T>(ask: () => Promise<T | null>, pause = 50): Promise<T> {
  for (let left = TRIES; left > 0; left -= 1) {
    const answer = await ask();
    if (answer !== null) return answer;
    await new Promise((done) => setTimeout(done, pause));
  }
  throw new HostError('internal', words.say('broken-off'));
}
