// A house at the office as the program gave it, for tests and for looking at the screens: see ui/e2e/page/office.json,
// which a test of the stories makes.
import type { ComparedView, FindingsView, InboxView, LearningView, OfficeHouseView, TrackView } from '../../lib/bindings/views';

export interface RecordedOffice {
  inbox: InboxView;
  house: OfficeHouseView;
  /** With some findings entered. */
  findings: FindingsView;
  /** With all of them. */
  compared: ComparedView;
  /** Before the first. */
  unopened: ComparedView;
  /** The track record of many invented houses, and of these three alone. */
  track: TrackView;
  small: TrackView;
  /** What the many teach. */
  learning: LearningView;
  /** Where the pictures of the invented house lie, by digest. */
  shots: Record<string, string>;
}
