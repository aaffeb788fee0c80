// A house at the office as the program gave it, for tests and for looking at the screens: see ui/e2e/page/office.json,
// which a test of the stories makes.
import type { ComparedView, FindingsView, InboxView, OfficeHouseView } from '../../lib/bindings/views';

export interface RecordedOffice {
  inbox: InboxView;
  house: OfficeHouseView;
  /** With some findings entered. */
  findings: FindingsView;
  /** With all of them. */
  compared: ComparedView;
  /** Before the first. */
  unopened: ComparedView;
  /** Where the pictures of the invented house lie, by digest. */
  shots: Record<string, string>;
}
