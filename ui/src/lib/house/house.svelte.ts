// One house: what the record holds and what was frozen last. Counts what is shown; decides nothing.
import type { FrozenView, HouseView, RowView } from '../bindings/views';
import { HostError, type Host } from '../host/host';
import { Reading } from '../reading.svelte';
import type { Words } from '../words/words';

export class House extends Reading<HouseView> {
  readonly rows: RowView[] = $derived(this.value?.stations.flatMap((station) => station.rows) ?? []);
  readonly wanted: number = $derived(this.rows.length);
  readonly answered: number = $derived(this.rows.filter((row) => row.kind !== 'open').length);
  readonly disagreeing: number = $derived(this.rows.filter((row) => row.kind === 'disagreement').length);
  readonly frozen: FrozenView | null = $derived(this.value?.frozen ?? null);

  /** True while the odds are being frozen. */
  assessing = $state(false);

  constructor(
    readonly host: Host,
    readonly survey: string,
  ) {
    super(() => host.ask('house', { survey }));
  }

  /** Freezes the odds as the answers stand, so that what the program thought can be read again later. */
  async assess(): Promise<void> {
    if (this.assessing) return;
    this.assessing = true;
    try {
      this.value = await this.host.ask('assess', { survey: this.survey });
      this.trouble = null;
    } catch (thrown) {
      this.trouble = HostError.from(thrown);
    } finally {
      this.assessing = false;
    }
  }

  walkHeading(words: Words): string {
    if (!this.value) return words.say(this.trouble ? 'failed-heading' : 'reading');
    const open = this.wanted - this.answered;
    const values = { open, wanted: this.wanted, n: this.disagreeing };
    if (this.disagreeing > 0) return words.say(open > 0 ? 'walk-open-disagree' : 'walk-done-disagree', values);
    return words.say(open > 0 ? 'walk-open' : 'walk-done', values);
  }
}
