// The packets of a house: sealing one, watching it, stopping it, and copying it to where it is carried from.
import type { HouseholdPageView, PacketsView, PacketView, SealingView } from '../bindings/views';
import type { Host } from '../host/host';
import { Acting } from '../acting.svelte';
import type { Words } from '../words/words';

export class Packets extends Acting<PacketsView> {
  /** How far a sealing is; none: nothing is being sealed. */
  going = $state.raw<SealingView | null>(null);
  /** Where the last copy lies. */
  copy = $state('');
  /** The language of the household's pages; that of the screens until another is chosen. */
  household = $state<'en' | 'es'>('en');
  /** Whether the household signs its page before the packet is written. */
  signs = $state(false);
  /** The page that waits to be signed. */
  page = $state.raw<HouseholdPageView | null>(null);
  #stopped = false;

  constructor(
    readonly host: Host,
    readonly survey: string,
    household: 'en' | 'es' = 'en',
  ) {
    super(() => host.ask('packets', { survey }));
    this.household = household;
  }

  get last(): PacketView | null {
    return this.value?.packets[0] ?? null;
  }

  /** Seals the house, one file after the other, until it is whole or was stopped; where the household signs, its page
      comes first. */
  async seal(): Promise<void> {
    if (this.busy) return;
    await this.act(async () => {
      const { survey, host } = this;
      this.#stopped = false;
      this.copy = '';
      this.going = { photosWritten: 0, photos: 0, signs: false, packet: null };
      this.going = await host.ask('seal', { survey, household: this.household, signs: this.signs });
      if (this.going.signs && !this.#stopped) this.page = await host.ask('household-page', { survey });
      else await this.#on();
    });
    if (!this.page) await this.#ended();
  }

  /** Puts the signature under the page and seals; a refused one leaves the page where it is. */
  async sign(name: string, strokes: [number, number][][]): Promise<void> {
    if (this.busy) return;
    await this.act(async () => {
      this.going = await this.host.ask('household-signs', { survey: this.survey, name, strokes });
      this.page = null;
      await this.#on();
    });
    if (!this.page) await this.#ended();
  }

  /** Seals without a signature. */
  async unsigned(): Promise<void> {
    if (this.busy) return;
    this.page = null;
    await this.act(() => this.#on());
    await this.#ended();
  }

  /** Takes away what was written so far. Nothing recorded is lost. */
  async stop(): Promise<void> {
    this.#stopped = true;
    if (this.page) await this.unsigned();
  }

  async #on(): Promise<void> {
    const { survey, host } = this;
    while (!this.#stopped && this.going?.packet === null) this.going = await host.ask('seal-on', { survey });
    if (this.#stopped && this.going?.packet === null) await host.ask('stop-sealing', { survey });
  }

  async #ended(): Promise<void> {
    this.going = null;
    await this.read();
  }

  /** Copies a packet, or its pages, to where people look for files. */
  handOver(number: number, pages: boolean): Promise<boolean> {
    return this.act(async () => {
      this.copy = '';
      const { path } = await this.host.ask('hand-over', { survey: this.survey, number, pages });
      this.copy = path;
    });
  }

  heading(words: Words): string {
    if (this.going) return words.say('seal-heading-going');
    if (!this.value) return words.say(this.trouble ? 'failed-heading' : 'reading');
    const { last, value } = this;
    if (!last) return words.say('seal-heading-none');
    return words.say(value.since === 0 ? 'seal-heading-whole' : 'seal-heading-since', { number: last.number, n: value.since });
  }
}

/** The sum in groups that can be read out and compared. */
export function grouped(digest: string): string[] {
  return digest.replace(/^[^:]*:/, '').match(/.{1,8}/g) ?? [];
}
