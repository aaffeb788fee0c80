// The list of houses on this device.
import type { HouseCard } from '../bindings/views';
import type { Host } from '../host/host';
import { Reading } from '../reading.svelte';
import type { Words } from '../words/words';

/** Rows that are there with the first screen: more than it shows. */
export const FIRST = 24;
/** Rows that come at once after them, so that a touch never waits long. */
const MORE = 48;

export class Houses extends Reading<HouseCard[]> {
  #there = $state(FIRST);

  /** The houses behind the last one, as far as they are there. */
  get others(): HouseCard[] {
    return this.value?.slice(1, 1 + this.#there) ?? [];
  }

  /** True while more of them are to come. */
  get coming(): boolean {
    return (this.value?.length ?? 0) - 1 > this.#there;
  }

  next() {
    this.#there += MORE;
  }

  constructor(host: Host) {
    super(() => host.ask('houses', {}));
  }

  /** The result in a sentence. */
  heading(words: Words): string {
    if (!this.value) return words.say(this.trouble ? 'failed-heading' : 'reading');
    return words.say('houses-heading', { n: this.value.length });
  }
}
