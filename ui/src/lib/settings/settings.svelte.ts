// How this device is set. Each touch is kept at once.
import type { SettingsView } from '../bindings/views';
import { HostError, type Host, type Setting } from '../host/host';
import { Reading } from '../reading.svelte';

export class Settings extends Reading<SettingsView> {
  refused = $state.raw<HostError | null>(null);

  constructor(readonly host: Host) {
    super(() => host.ask('settings', {}));
  }

  /** Sets one thing; nothing goes back to what it was without. True when it was taken. */
  async set(setting: Setting, value: string): Promise<boolean> {
    try {
      this.value = await this.host.ask('set', { setting, value });
      this.refused = null;
      return true;
    } catch (thrown) {
      this.refused = HostError.from(thrown);
      return false;
    }
  }
}
