// Asks again when an answer was broken off, because something else was asked meanwhile.
const TRIES = 20;

export async function until<T>(ask: () => Promise<T | null>, pause = 50): Promise<T> {
  for (let left = TRIES; left > 0; left -= 1) {
    const answer = await ask();
    if (answer !== null) return answer;
    await new Promise((done) => setTimeout(done, pause));
  }
  throw new Error('broken off');
}
