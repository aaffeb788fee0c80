// What is amiss before the house is left.
import type { LeavingView } from '../bindings/views';
import type { Host } from '../host/host';
import { Reading } from '../reading.svelte';
import { until } from '../until';
import type { Words } from '../words/words';

/** One thing that is left open. */
export interface Open {
  kind: string;
  key: string;
  question: string;
  place: string;
  what: string;
}

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

  /** What was gathered, name and figure. */
  counts(words: Words): [string, number][] {
    const counts = this.value?.counts;
    if (!counts) return [];
    return [
      [words.say('count-answers'), counts.answers],
      [words.say('count-measurements'), counts.measurements],
      [words.say('count-photos'), counts.photos],
      [words.say('count-notes'), counts.notes],
      [words.say('cant-tell'), counts.cantTell],
      [words.say('could-not-reach'), counts.notReached],
    ];
  }

  /** Everything that is open, each with what is open about it. */
  list(words: Words): Open[] {
    const it = this.value;
    if (!it) return [];
    const each = (kind: string, list: { key: string; question: string; place?: string }[]): Open[] =>
      list.map(({ key, question, place = '' }) => ({ kind, key, question, place, what: words.say(kind) }));
    return [
      ...each('open-two-answers', it.disagreements),
      ...each('open-clash', it.clashes.map((clash) => clash.one)),
      ...each('open-implausible', it.implausible),
      ...each('open-ruled-out', it.ruledOut),
      ...each('open-no-photo', it.photos),
      ...each('open-not-asked', it.ask),
    ];
  }

  heading(words: Words): string {
    if (!this.value) return words.say(this.trouble ? 'failed-heading' : 'weighing');
    return words.say('leaving-heading', { n: this.open });
  }
}
