// A thing read through the host on which something is done, one act at a time.
import { HostError } from './host/host';
import { Reading } from './reading.svelte';

export class Acting<T> extends Reading<T> {
  busy = $state(false);
  /** Why the last act was refused; stands until the next one begins. */
  refused = $state.raw<HostError | null>(null);

  /** Does it unless something is being done. True where it was done. */
  protected async act(act: () => Promise<unknown>): Promise<boolean> {
    if (this.busy) return false;
    this.busy = true;
    this.refused = null;
    try {
      await act();
      return true;
    } catch (thrown) {
      this.refused = HostError.from(thrown);
      return false;
    } finally {
      this.busy = false;
    }
  }
}
