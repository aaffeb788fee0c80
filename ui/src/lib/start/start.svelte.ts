// A house to be started: what is keyed in until it is started. Nothing is recorded before.
import type { StartFormView } from '../bindings/views';
import { HostError, type Host } from '../host/host';
import { Reading } from '../reading.svelte';

/** How sure the year is: known, within so many years, or no idea. */
export const SURE = [0, 5, 10, null] as const;
export type Within = (typeof SURE)[number];

export const YEARS = { first: 1880, last: 2030 } as const;

export class Start extends Reading<StartFormView> {
  label = $state('');
  year = $state('');
  within = $state<Within>(5);
  contract = $state('');
  by = $state('');
  planned = $state<string[]>([]);
  busy = $state(false);
  refused = $state.raw<HostError | null>(null);

  constructor(readonly host: Host) {
    super(() => host.ask('start-form', {}));
  }

  /** A work of the list is planned, or not any more; its number is its place in the order they were touched. */
  toggle(id: string) {
    this.planned = this.planned.includes(id) ? this.planned.filter((one) => one !== id) : [...this.planned, id];
  }

  number(id: string): number {
    return this.planned.indexOf(id) + 1;
  }

  /** The year as a number within the tape, where it is one. */
  get onTape(): number | null {
    const year = Number(this.year);
    return /^\d{4}$/.test(this.year) && year >= YEARS.first && year <= YEARS.last ? year : null;
  }

  /** Starts the house; the survey it became, or null when it was refused. */
  async start(): Promise<string | null> {
    if (this.busy) return null;
    this.busy = true;
    this.refused = null;
    const dollars = this.contract.replace(/[^\d.]/g, '');
    try {
      const walk = await this.host.ask('start-house', {
        label: this.label,
        year: this.within === null ? '' : this.year,
        within: this.within,
        contractCents: dollars === '' ? null : Math.round(Number(dollars) * 100),
        planned: this.planned,
        by: this.by.trim() === '' ? (this.value?.by ?? '') : this.by,
      });
      return walk.survey;
    } catch (thrown) {
      this.refused = HostError.from(thrown);
      return null;
    } finally {
      this.busy = false;
    }
  }
}
