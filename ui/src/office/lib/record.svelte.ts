// The track record: how often what was said came true, over all houses that were opened. Every number leads to its houses.
import type { RecordHouseView, RecordView, TrackView } from '../../lib/bindings/views';
import { Reading } from '../../lib/reading.svelte';
import type { OfficeHost, Split } from '../host/host';
import { words } from '../words';

/** By what a record can be split, in the order they are offered. */
export const SPLITS = ['condition', 'era', 'scope', 'surveyor', 'month'] as const satisfies readonly Split[];

/** Above so many outcomes circles, one each, are no longer counted by eye. */
export const CIRCLES = 40;
/** So many parts are shown until all are asked for. */
export const FIRST = 12;

export class Track extends Reading<TrackView> {
  /** Which number has its houses laid open. */
  open = $state<string | null>(null);
  /** Also what was forecast by numbers that had learned from the house. */
  seen = $state(false);
  all = $state(false);

  constructor(
    readonly host: OfficeHost,
    readonly by: Split,
  ) {
    super(() => host.ask('track', { by, include_seen: this.seen }));
  }

  toggle(number: string) {
    this.open = this.open === number ? null : number;
  }

  withSeen(): Promise<void> {
    this.seen = !this.seen;
    return this.read();
  }

  houses(places: readonly number[]): RecordHouseView[] {
    return places.map((place) => this.value?.houses[place]).filter((house) => house !== undefined);
  }

  /** Parts in which something was opened, as many as are shown. */
  get groups() {
    const told = (this.value?.groups ?? []).filter((group) => group.record.opened > 0);
    return this.all ? told : told.slice(0, FIRST);
  }

  get further(): number {
    return (this.value?.groups ?? []).filter((group) => group.record.opened > 0).length - this.groups.length;
  }

  /** Houses whose money is known, the dearest forecast first. */
  get sums() {
    const houses = (this.value?.houses ?? []).flatMap((house) => (house.money ? [{ ...house, money: house.money }] : []));
    return houses.sort((a, b) => b.money.cents[2] - a.money.cents[2]);
  }

  get heading(): string {
    const it = this.value;
    if (!it) return words.say(this.trouble ? 'failed-heading' : 'reading');
    if (it.all.opened === 0) return words.say('track-heading-none');
    return words.say('track-heading', { n: it.all.opened, found: it.all.found, expected: words.number(Math.round(it.all.expected)) });
  }
}

/** True where every bar of luck holds what was said. */
export const allHold = (record: RecordView) => record.bins.every((bin) => !bin.off);
