// The one door from the screens to the program behind them.
import type { HouseCard, HouseView } from '../bindings/views';

export interface Host {
  /** Every house on this device, the one touched last first. */
  houses(): Promise<HouseCard[]>;
  /** One house: its folded picture and its latest frozen assessment. */
  house(survey: string): Promise<HouseView>;
}

/** What went wrong, for which reason, and how to mend it. */
export class HostError extends Error {
  constructor(
    readonly kind: string,
    message: string,
    readonly hint: string | null = null,
  ) {
    super(message);
  }

  /** Whatever was thrown, as one of ours: the program sends {kind, message, hint}. */
  static from(thrown: unknown): HostError {
    if (thrown instanceof HostError) return thrown;
    if (typeof thrown === 'object' && thrown !== null && 'message' in thrown) {
      const { kind, message, hint } = thrown as { kind?: unknown; message: unknown; hint?: unknown };
      return new HostError(String(kind ?? 'internal'), String(message), typeof hint === 'string' ? hint : null);
    }
    return new HostError('internal', String(thrown));
  }
}
