// The one door from the screens to the program behind them: commands by name, the same table as in crates/commands.
import type {
  DoneView, HouseCard, HouseView, LeavingView, LeftView, LengthView, LookNextView, StartFormView, WalkView,
} from '../bindings/views';

type Nothing = Record<string, never>;
type OfHouse = { survey: string };

/** An answer to a card: what was said, or why it could not be reached. */
export interface Answer {
  /** Option ids, a length or a number as written, or "cant-tell". */
  answer?: string[];
  couldNotReach?: string;
  tolerance?: string;
  /** A value outside what is plausible is meant. */
  sure?: boolean;
}

/** A house to start. */
export interface NewHouse {
  label: string;
  year: string;
  /** The year is right within so many years; 0 when it is known, null when nobody knows. */
  within: number | null;
  contractCents: number | null;
  planned: string[];
  by: string;
}

export type CheckResult = 'shows-it' | 'shows-not' | 'unclear';

/** Each command: what it is asked with, and what it gives. `null`: broken off, because something else was asked. */
export interface Commands {
  houses: [Nothing, HouseCard[]];
  house: [OfHouse, HouseView];
  'start-form': [Nothing, StartFormView];
  'start-house': [NewHouse, WalkView];
  walk: [OfHouse & { key?: string }, WalkView];
  answer: [OfHouse & { key: string } & Answer, DoneView];
  remark: [OfHouse & { key: string; text: string }, WalkView];
  undo: [OfHouse, DoneView];
  'add-place': [OfHouse & { station: string; label: string }, WalkView];
  'read-length': [{ key: string; text: string }, LengthView];
  'look-next': [OfHouse, LookNextView | null];
  'show-check': [OfHouse & { check: string; shown: { condition: string; result: CheckResult }[] }, DoneView];
  leaving: [OfHouse, LeavingView | null];
  assess: [OfHouse, HouseView];
  left: [Nothing, LeftView];
  'leave-house': [Nothing, null];
}

export interface Host {
  ask<Name extends keyof Commands>(name: Name, args: Commands[Name][0]): Promise<Commands[Name][1]>;
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
