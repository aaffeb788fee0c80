// A thing read through the host: being read, here, or refused. What is already here stays on the screen while it is
// read again, unless it is gone, and only the answer to the last question counts.
import { HostError } from './host/host';

export class Reading<T> {
  value = $state.raw<T | null>(null);
  trouble = $state.raw<HostError | null>(null);
  #asked = 0;

  constructor(
    readonly ask: () => Promise<T>,
    /** What tells more than an answer that is here and shown already; none where that was all. */
    readonly more: (value: T) => Promise<T> | null = () => null,
  ) {}

  async read(): Promise<void> {
    const mine = ++this.#asked;
    try {
      for (let asked: Promise<T> | null = this.ask(); asked !== null; ) {
        const value = await asked;
        if (mine !== this.#asked) return;
        this.value = value;
        this.trouble = null;
        asked = this.more(value);
      }
    } catch (thrown) {
      if (mine !== this.#asked) return;
      this.trouble = HostError.from(thrown);
      // What is not there any more, perhaps because it is not ours to see, does not stay on the screen.
      if (this.trouble.kind === 'missing') this.value = null;
    }
  }
}
