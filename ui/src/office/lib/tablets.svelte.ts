// The tablets that hand packets over by themselves: inviting one, and revoking one that was lost or is no longer in use.
import type { Arriving, Invitation, Tablet } from '../../lib/bindings/views';
import { Acting } from '../../lib/acting.svelte';
import { Reading } from '../../lib/reading.svelte';
import type { OfficeHost } from '../host/host';

export class Tablets extends Acting<Tablet[]> {
  invitation = $state.raw<Invitation | null>(null);
  /** The one about to be revoked. */
  leaving = $state<string | null>(null);

  constructor(readonly host: OfficeHost) {
    super(() => host.ask('tablets', {}));
  }

  /** Those that may still hand over. */
  get inUse(): number {
    return (this.value ?? []).filter((one) => one.revokedAt === null).length;
  }

  invite(): Promise<boolean> {
    return this.act(async () => {
      this.invitation = await this.host.ask('invite-tablet', {});
    });
  }

  /** With `key` what it sealed is no longer vouched for either. */
  revoke(id: string, key: boolean): Promise<boolean> {
    return this.act(async () => {
      this.value = await this.host.ask('revoke-tablet', { id, key });
      this.leaving = null;
    });
  }
}

/** What is on its way and not whole yet. */
export class Coming extends Reading<Arriving[]> {
  constructor(readonly host: OfficeHost) {
    super(() => host.ask('arriving', {}));
  }
}
