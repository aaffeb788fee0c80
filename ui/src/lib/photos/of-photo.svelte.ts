// One photograph that is worked on: points are set on it, and what comes of them is asked of the program.
import type { PhotoMarkedView } from '../bindings/views';
import type { Host, HostError } from '../host/host';
import { Reading } from '../reading.svelte';
import { Points } from './points.svelte';

export abstract class OfPhoto extends Reading<PhotoMarkedView> {
  /** None can be set, and never all are, until the photograph is there. */
  points = $state.raw(new Points(0, 0, 1));
  busy = $state(false);
  refused = $state.raw<HostError | null>(null);

  constructor(
    readonly host: Host,
    readonly survey: string,
    readonly photo: string,
  ) {
    super(() => host.ask('photo', { survey, photo }));
  }

  /** How many points are wanted. */
  protected abstract get wanted(): number;

  /** Called once, when the photograph is there for the first time. */
  protected began(_it: PhotoMarkedView): void {}

  override async read(): Promise<void> {
    await super.read();
    const it = this.value;
    if (!it || this.points.width > 0) return;
    this.points = new Points(it.width, it.height, this.wanted);
    this.began(it);
  }
}
