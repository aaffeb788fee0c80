// The odds of one house as its answers stand: first the odds, then also how each came about, which takes longer.
import type { AssessmentView, OddsNowView } from '../bindings/views';
import { HostError, type Host } from '../host/host';
import { until } from '../until';
import type { Words } from '../words/words';

export class OddsNow {
  value = $state.raw<OddsNowView | null>(null);
  trouble = $state.raw<HostError | null>(null);
  readonly assessment: AssessmentView | null = $derived(this.value?.assessment ?? null);
  #asked = 0;

  constructor(
    readonly host: Host,
    readonly survey: string,
  ) {}

  async read(): Promise<void> {
    const mine = ++this.#asked;
    try {
      for (const depth of ['odds-now', 'odds-why'] as const) {
        const value = await until(() => this.host.ask(depth, { survey: this.survey }));
        if (mine !== this.#asked) return;
        this.value = value;
        this.trouble = null;
        if (value.trouble !== null || value.whole) return;
      }
    } catch (thrown) {
      if (mine === this.#asked) this.trouble = HostError.from(thrown);
    }
  }

  heading(words: Words): string {
    if (this.assessment) return words.say('carry', { money: words.money(this.assessment.money.p80Cents) });
    if (this.value) return words.say('odds-none');
    return words.say(this.trouble ? 'failed-heading' : 'assessing');
  }
}
