// A length measured on a photograph beside a sheet of known size: four corners, two ends, and what that comes to.
import type { MeasuredOnPhotoView, PhotoMarkedView } from '../bindings/views';
import { HostError, type OnSheet, type Sheet } from '../host/host';
import type { Words } from '../words/words';
import type { Drawable } from './drawn';
import { OfPhoto } from './of-photo.svelte';

export const SHEETS = ['letter', 'a4', 'own'] as const;
export const CORNERS = 4;
const ALL = 6;

export class OnPaper extends OfPhoto {
  kind = $state<(typeof SHEETS)[number]>('letter');
  lying = $state(false);
  width = $state('');
  height = $state('');
  /** What the points come to, as they stand. */
  measured = $state.raw<MeasuredOnPhotoView | null>(null);
  /** What the length is the answer to; chosen anew when another is touched. */
  key = $state<string | null>(null);
  #asked = 0;

  protected override readonly wanted = ALL;

  /** The question it was taken for, where that is a length. */
  protected override began(it: PhotoMarkedView): void {
    const first = it.lengths[0];
    if (first && it.shows.includes(first.question)) this.key = first.key;
  }

  get sheet(): Sheet {
    return this.kind === 'own' ? { kind: 'own', width: this.width, height: this.height } : { kind: this.kind };
  }

  /** The sheet and the line as far as they are marked. */
  get drawing(): Drawable[] {
    const { set } = this.points;
    const [corners, ends] = [set.slice(0, CORNERS), set.slice(CORNERS)];
    const out: Drawable[] = [];
    if (corners.length > 1) out.push({ kind: 'paper', points: corners, text: '' });
    const text = this.measured ? `${this.measured.inches} ± ${this.measured.tolerance}` : '';
    if (ends.length > 0) out.push({ kind: 'dimension', points: ends, text });
    return out;
  }

  /** True when there is all that is needed to measure. */
  get ready(): boolean {
    const sized = this.kind !== 'own' || (this.width.trim() !== '' && this.height.trim() !== '');
    return this.points.all && sized;
  }

  again() {
    this.points.clear();
    this.measured = null;
    this.refused = null;
  }

  /** Measures; with `keep` it is recorded as the answer to the question chosen. */
  async measure(keep = false): Promise<boolean> {
    const mine = ++this.#asked;
    if (!keep) this.measured = null;
    this.refused = null;
    if (!this.ready || (keep && this.key === null)) return false;
    this.busy = keep;
    const set = this.points.set.map(([x, y]) => [x, y] as [number, number]);
    const asked: OnSheet = { sheet: this.sheet, lying: this.lying, corners: set.slice(0, CORNERS), ends: set.slice(CORNERS) };
    if (keep && this.key !== null) asked.key = this.key;
    try {
      const measured = await this.host.ask('measure-on-photo', { survey: this.survey, photo: this.photo, ...asked });
      if (mine === this.#asked) this.measured = measured;
      return true;
    } catch (thrown) {
      if (mine === this.#asked) this.refused = HostError.from(thrown);
      return false;
    } finally {
      this.busy = false;
    }
  }

  /** What to do now, or what it came to. */
  heading(words: Words): string {
    if (!this.value) return words.say(this.trouble ? 'failed-heading' : 'reading');
    if (this.measured) return words.say('sheet-came-to', { length: this.measured.inches, tolerance: this.measured.tolerance });
    const { length } = this.points.set;
    if (length < CORNERS) return words.say('sheet-corner', { n: length + 1 });
    return length < ALL ? words.say('sheet-end', { n: length - CORNERS + 1 }) : words.say('sheet-set');
  }
}
