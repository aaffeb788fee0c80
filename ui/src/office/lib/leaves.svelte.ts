// What is only read: a house as its packet holds it, and forecast beside finding.
import type { ComparedView, OfficeHouseView, PhotoCardView } from '../../lib/bindings/views';
import { Reading } from '../../lib/reading.svelte';
import type { Words } from '../../lib/words/words';
import type { OfficeHost } from '../host/host';

export class House extends Reading<OfficeHouseView> {
  constructor(
    readonly host: OfficeHost,
    readonly survey: string,
    /** Another packet than the last one. */
    readonly packet: string | null = null,
  ) {
    super(() => host.ask('house', packet === null ? { survey } : { survey, packet }));
  }

  /** Its address, as this packet holds it. */
  get place() {
    return { at: 'house' as const, survey: this.survey, ...(this.packet === null ? {} : { of: this.packet }) };
  }

  /** The packet that is shown. */
  get shown() {
    return this.value?.packets.find((one) => one.packet === this.value?.packet) ?? null;
  }

  /** Its photographs, in the order they are shown. */
  get photos(): PhotoCardView[] {
    return this.value?.photos.places.flatMap((place) => place.photos) ?? [];
  }

  /** One of them by its digest: where it stands, those beside it, and where it belongs. */
  photo(digest: string) {
    const all = this.photos;
    const n = all.findIndex((one) => one.digest === digest);
    const it = all[n];
    if (!it) return null;
    const place = this.value?.photos.places.find((place) => place.photos.includes(it))?.place ?? null;
    return { it, n: n + 1, before: all[n - 1] ?? null, after: all[n + 1] ?? null, place };
  }

  get answered(): number {
    return this.value?.record.stations.flatMap((station) => station.rows).filter((row) => row.kind !== 'open').length ?? 0;
  }

  get disagree(): number {
    return this.value?.record.stations.flatMap((station) => station.rows).filter((row) => row.kind === 'disagreement').length ?? 0;
  }
}

/** How many differences are shown before all are asked for. */
export const FIRST = 8;

export class Compared extends Reading<ComparedView> {
  all = $state(false);
  /** The row whose clue is drawn; none: the first that has one. */
  drawn = $state<string | null>(null);

  constructor(
    readonly host: OfficeHost,
    readonly survey: string,
  ) {
    super(() => host.ask('comparison', { survey }));
  }

  /** Differences that make one; misses and false alarms always. */
  get #differ() {
    return (this.value?.rows ?? []).filter((row) => row.cameCents !== row.carriedCents || row.missed || row.falseAlarm);
  }

  /** Those that are shown, the largest first. */
  get rows() {
    return this.all ? this.#differ : this.#differ.slice(0, FIRST);
  }

  /** How many are not. */
  get further(): number {
    return this.#differ.length - this.rows.length;
  }

  /** Misses and false alarms, the dearest first. */
  get wrong() {
    return (this.value?.rows ?? []).filter((row) => row.missed || row.falseAlarm);
  }

  /** Those of them that one answer led astray, as many as are shown. */
  get others() {
    return this.wrong.filter((row) => row.misled !== null).slice(0, FIRST);
  }

  /** The one whose path is drawn. */
  get misled() {
    return this.others.find((row) => row.key === this.drawn) ?? this.others[0] ?? null;
  }

  heading(words: Words): string {
    const it = this.value;
    if (!it) return words.say(this.trouble ? 'failed-heading' : 'reading');
    if (it.opened === 0) return words.say('compared-heading-none', { label: it.label });
    const values = { label: it.label, money: words.money(it.cameCents) };
    return it.below === null ? words.say('compared-heading', values) : words.say('compared-heading-dots', { ...values, n: it.below });
  }
}
