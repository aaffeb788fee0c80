// Who sees a house, for its owners.
import { Acting } from '../../lib/acting.svelte';
import type { OfficeHost, Seen as View } from '../host/host';

export class Seen extends Acting<View> {
  constructor(
    readonly host: OfficeHost,
    readonly survey: string,
  ) {
    super(() => host.ask('who-sees', { survey }));
  }

  /** Closes it to all but owners, until others are chosen. */
  close(): Promise<boolean> {
    return this.#by(() => this.host.ask('close-house', { survey: this.survey }));
  }

  /** Somebody sees it from now on, or no more. */
  turn(id: string, sees: boolean): Promise<boolean> {
    return this.#by(() => this.host.ask('let-see', { survey: this.survey, id, sees }));
  }

  open(): Promise<boolean> {
    return this.#by(() => this.host.ask('open-house', { survey: this.survey }));
  }

  #by(ask: () => Promise<View>): Promise<boolean> {
    return this.act(async () => {
      this.value = await ask();
    });
  }
}
