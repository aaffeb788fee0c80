// What is amiss before the house is left.
import type { LeavingView } from '../bindings/views';
import type { Host } from '../host/host';
import { Reading } from '../reading.svelte';
import { until } from '../until';
import type { Words } from '../words/words';

export class Leaving extends Reading<LeavingView> {
  constructor(host: Host, survey: string) {
    super(() => until(() => host.ask('leaving', { survey })));
  }

  /** Things that are still open. */
  get open(): number {
    const it = this.value;
    if (!it) return 0;
    return it.disagreements.length + it.clashes.length + it.implausible.length + it.ruledOut.length + it.photos.length;
  }

  heading(words: Words): string {
    if (!this.value) return words.say(this.trouble ? 'failed-heading' : 'weighing');
    return words.say('leaving-heading', { n: this.open });
  }
}
