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
    return this.#to([]);
  }

  /** Somebody sees it from now on, or no more. */
  turn(id: string): Promise<boolean> {
    const people = this.value?.people ?? [];
    return this.#to(people.filter((one) => one.sees !== (one.id === id)).map((one) => one.id));
  }

  open(): Promise<boolean> {
    return this.act(async () => {
      this.value = await this.host.ask('open-house', { survey: this.survey });
    });
  }

  #to(readers: string[]): Promise<boolean> {
    return this.act(async () => {
      this.value = await this.host.ask('close-house', { survey: this.survey, readers });
    });
  }
}
