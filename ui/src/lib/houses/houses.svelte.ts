// The list of houses on this device.
import type { HouseCard } from '../bindings/views';
import type { Host } from '../host/host';
import { Reading } from '../reading.svelte';
import type { Words } from '../words/words';

export class Houses extends Reading<HouseCard[]> {
  constructor(host: Host) {
    super(() => host.ask('houses', {}));
  }

  /** The result in a sentence. */
  heading(words: Words): string {
    if (!this.value) return words.say(this.trouble ? 'failed-heading' : 'reading');
    return words.say('houses-heading', { n: this.value.length });
  }
}
