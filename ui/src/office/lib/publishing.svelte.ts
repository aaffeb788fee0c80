// The firm's catalog as it goes to its tablets: what was published last, and whether the numbers are others by now.
import type { PublishedView } from '../../lib/bindings/views';
import { Acting } from '../../lib/acting.svelte';
import type { OfficeHost } from '../host/host';

export class Publishing extends Acting<PublishedView> {
  /** It is asked once more whether to publish. */
  sure = $state(false);

  constructor(readonly host: OfficeHost) {
    super(() => host.ask('published', {}));
  }

  publish(): Promise<boolean> {
    return this.act(async () => {
      this.value = await this.host.ask('publish-catalog', {});
      this.sure = false;
    });
  }
}
