// What to look at next, and recording what a look showed.
import type { LookNextView, LookView } from '../bindings/views';
import { HostError, type CheckResult, type Host } from '../host/host';
import { Reading } from '../reading.svelte';
import { until } from '../until';
import type { Words } from '../words/words';

export class LookNext extends Reading<LookNextView> {
  /** The look that was made, while what it showed is being said. */
  made = $state.raw<LookView | null>(null);
  /** What it showed so far, by condition. */
  shown = $state.raw<Record<string, CheckResult>>({});
  busy = $state(false);
  refused = $state.raw<HostError | null>(null);
  /** What was recorded last, in words. */
  said = $state.raw('');

  constructor(
    readonly host: Host,
    readonly survey: string,
  ) {
    super(() => until(() => host.ask('look-next', { survey })));
  }

  go(look: LookView) {
    this.made = look;
    this.shown = {};
    this.said = '';
  }

  back() {
    this.made = null;
  }

  /** Says what the look showed of one condition; when it has been said of all, it is recorded. */
  async show(condition: string, result: CheckResult): Promise<void> {
    const look = this.made;
    if (!look || this.busy) return;
    this.shown = { ...this.shown, [condition]: result };
    if (look.changes.some((change) => !(change.key in this.shown))) return;
    this.busy = true;
    this.refused = null;
    try {
      const shown = look.changes.map((change) => ({ condition: change.key, result: this.shown[change.key]! }));
      const done = await this.host.ask('show-check', { survey: this.survey, check: look.check, shown });
      this.said = done.said;
      this.made = null;
      await this.read();
    } catch (thrown) {
      this.refused = HostError.from(thrown);
    } finally {
      this.busy = false;
    }
  }

  heading(words: Words): string {
    if (!this.value) return words.say(this.trouble ? 'failed-heading' : 'weighing');
    if (this.value.trouble) return words.say('next-trouble');
    return words.say('next-heading', { n: this.value.looks.length });
  }
}
