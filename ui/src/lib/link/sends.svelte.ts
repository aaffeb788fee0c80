// Packets on their way to the office. Sending goes on in the background; here it is begun, taken up again, and watched.
import type { Sending } from '../bindings/views';
import { HostError, type Host } from '../host/host';
import { Reading } from '../reading.svelte';

export class Sends extends Reading<Sending[]> {
  busy = $state(false);
  refused = $state.raw<HostError | null>(null);

  constructor(
    readonly host: Host,
    readonly survey: string,
  ) {
    super(() => host.ask('sending', {}));
  }

  /** How far a packet is; none: it was never sent. */
  of(packet: string): Sending | null {
    return this.value?.find((one) => one.packet === packet) ?? null;
  }

  /** True while something of this house is on its way and worth looking at again. */
  get going(): boolean {
    return (this.value ?? []).some((one) => one.survey === this.survey && (one.state === 'going' || one.state === 'waiting'));
  }

  async send(packet: string): Promise<void> {
    if (this.busy) return;
    this.busy = true;
    this.refused = null;
    try {
      this.value = await this.host.ask('send', { survey: this.survey, packet });
    } catch (thrown) {
      this.refused = HostError.from(thrown);
    } finally {
      this.busy = false;
    }
  }
}
