// A walk as the program gave it, for tests and for looking at the screens: see ui/e2e/page/recorded.json, which a test
// of crates/commands makes.
import type { CardView, FitsView, FitView, LeavingView, LookNextView, StartFormView } from '../bindings/views';

export interface Recorded {
  start: StartFormView;
  /** Every card of a house, in walking order, unanswered. */
  cards: CardView[];
  looks: LookNextView;
  leaving: LeavingView;
}

/** Trade calculations as the program gave them: the list, some from a house, some from figures typed. */
export interface RecordedFits {
  list: FitsView;
  fits: FitView[];
  typed: FitView[];
}
