// The office this tablet hands its packets to: paired once by a code, confirmed by eye, and unpaired again.
import type { OfficeLink, Pairing } from '../bindings/views';
import type { Host } from '../host/host';
import { Acting } from '../acting.svelte';

export class Link extends Acting<OfficeLink> {
  /** A link as it was pasted. */
  pasted = $state('');
  /** What stands in the link, to be compared before anything is sent. */
  pairing = $state.raw<Pairing | null>(null);
  /** What this tablet is to be called there. */
  name = $state('');
  /** The office was asked for a newer catalog, and had none. */
  nothingNew = $state(false);
  /** It is asked once more whether to unpair. */
  leaving = $state(false);

  constructor(readonly host: Host) {
    super(() => host.ask('office', {}));
  }

  get office() {
    return this.value?.office ?? null;
  }

  /** Reads what was pasted. */
  readPasted(): Promise<boolean> {
    return this.act(async () => {
      this.pairing = await this.host.ask('read-link', { link: this.pasted.trim() });
    });
  }

  /** Reads the code in a photograph. */
  readPhoto(bytes: Blob): Promise<boolean> {
    return this.act(async () => {
      this.pairing = await this.host.pairPhoto(bytes);
    });
  }

  /** Leaves what was read. */
  not() {
    [this.pairing, this.refused] = [null, null];
  }

  pair(): Promise<boolean> {
    return this.act(async () => {
      const { pairing, name } = this;
      if (!pairing) return;
      this.value = await this.host.ask('pair', { link: pairing.link, name: name.trim() });
      [this.pairing, this.pasted] = [null, ''];
    });
  }

  /** Asks the office for the catalog it published last. */
  lookForCatalog(): Promise<boolean> {
    this.nothingNew = false;
    return this.act(async () => {
      const before = this.value?.catalog?.version.number;
      this.value = await this.host.ask('fetch-catalog', {});
      this.nothingNew = this.value.catalog?.version.number === before;
    });
  }

  unpair(): Promise<boolean> {
    return this.act(async () => {
      this.value = await this.host.ask('unpair', {});
      this.leaving = false;
    });
  }
}

/** A fingerprint in groups that two people can read to each other. */
export function fingerprintGroups(fingerprint: string): string[] {
  return fingerprint.replace(/[^0-9a-z]/gi, '').toUpperCase().match(/.{1,4}/g) ?? [];
}
