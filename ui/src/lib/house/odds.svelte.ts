// The odds of one house as its answers stand: first the odds, then also how each came about, which takes longer.
import type { AssessmentView, OddsNowView } from '../bindings/views';
import type { Host } from '../host/host';
import { Reading } from '../reading.svelte';
import { until } from '../until';
import type { Words } from '../words/words';

export class OddsNow extends Reading<OddsNowView> {
  readonly assessment: AssessmentView | null = $derived(this.value?.assessment ?? null);

  constructor(host: Host, survey: string) {
    super(
      () => until(() => host.ask('odds-now', { survey })),
      ({ trouble, whole }) => (trouble !== null || whole ? null : until(() => host.ask('odds-why', { survey }))),
    );
  }

  heading(words: Words): string {
    if (this.assessment) return words.say('carry', { money: words.money(this.assessment.money.p80Cents) });
    if (this.value) return words.say('odds-none');
    return words.say(this.trouble ? 'failed-heading' : 'assessing');
  }
}
