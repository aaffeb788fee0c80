// What the opened houses teach about the catalog's numbers: a person decides each line. Lines are chosen one by one and
// taken over together, because the houses then stand in the numbers and teach no second time.
import type { LearnedLineView, LearningView } from '../../lib/bindings/views';
import { Acting } from '../../lib/acting.svelte';
import type { OfficeHost } from '../host/host';
import { words } from '../words';

/** So many lines are shown until all are asked for: the surest come first. */
export const FIRST = 20;

export class Learning extends Acting<LearningView> {
  /** The line in hand; none: the first. */
  here = $state<string | null>(null);
  /** Lines to be taken over. */
  chosen = $state.raw<ReadonlySet<string>>(new Set());
  /** Why the line in hand is being refused, once that is being written. */
  why = $state<string | null>(null);
  /** True while it is asked once more whether the chosen ones are to be taken over. */
  sure = $state(false);
  all = $state(false);
  /** Its houses are laid open. */
  evidence = $state(false);
  /** What happened, for those who hear the screen. */
  said = $state('');

  constructor(readonly host: OfficeHost) {
    super(() => host.ask('learning', {}));
  }

  get lines(): LearnedLineView[] {
    const lines = this.value?.lines ?? [];
    return this.all ? lines : lines.slice(0, FIRST);
  }

  get further(): number {
    return (this.value?.lines.length ?? 0) - this.lines.length;
  }

  get line(): LearnedLineView | null {
    return this.lines.find((line) => line.id === this.here) ?? this.lines[0] ?? null;
  }

  /** True while there is more to come by itself. */
  get going(): boolean {
    return this.value !== null && this.trouble === null && (this.value.state === 'working' || this.value.scoring);
  }

  go(id: string) {
    if (id !== this.line?.id) [this.why, this.refused, this.evidence] = [null, null, false];
    this.here = id;
  }

  step(by: number) {
    const at = this.lines.findIndex((line) => line.id === this.line?.id);
    const to = this.lines[Math.max(0, Math.min(this.lines.length - 1, at + by))];
    if (to) this.go(to.id);
  }

  /** Takes the line in hand along, or leaves it again. */
  choose() {
    const line = this.line;
    if (!line) return;
    const chosen = new Set(this.chosen);
    const taken = !chosen.delete(line.id);
    if (taken) chosen.add(line.id);
    this.chosen = chosen;
    this.why = null;
    this.said = words.say(taken ? 'line-chosen' : 'line-left', { name: line.condition, n: chosen.size });
  }

  async refuse(): Promise<void> {
    const line = this.line;
    if (!line || this.why === null) return;
    const why = this.why;
    await this.act(async () => {
      this.value = await this.host.ask('refuse-learning', { line: line.id, why });
      this.chosen = new Set([...this.chosen].filter((id) => id !== line.id));
      this.why = null;
      this.said = words.say('line-refused', { name: line.condition });
    });
  }

  async accept(): Promise<void> {
    if (this.chosen.size === 0) return;
    await this.act(async () => {
      const done = await this.host.ask('accept-learning', { lines: [...this.chosen] });
      this.said = words.say('learning-accepted', { n: done.lines.length, catalog: done.catalog });
      this.chosen = new Set();
      await this.read();
    });
    this.sure = false;
  }

  get heading(): string {
    const it = this.value;
    if (!it) return words.say(this.trouble ? 'failed-heading' : 'reading');
    if (it.state === 'working') return words.say('learning-working');
    if (it.lines.length === 0) return words.say('learning-none');
    return words.say('learning-heading', { n: it.lines.length });
  }
}
