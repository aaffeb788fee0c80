// A photograph with its marks: one is drawn, kept, rubbed out, put back. The program keeps each before it is shown.
import type { MarkView, PhotoMarkedView } from '../bindings/views';
import { HostError, type NewMark } from '../host/host';
import type { Words } from '../words/words';
import type { Drawable } from './drawn';
import { OfPhoto } from './of-photo.svelte';
import { HOW } from './said';

export const TOOLS = ['ring', 'arrow', 'dimension', 'words'] as const;
export type Tool = (typeof TOOLS)[number];
/** Written as the program reads them. */
export const TOLERANCES = ['1/16', '1/8', '1/4'] as const;

const needs = (tool: Tool): number => (tool === 'words' ? 1 : 2);

export class Marked extends OfPhoto {
  tool = $state<Tool>('ring');
  text = $state('');
  length = $state('');
  tolerance = $state<string>('1/8');
  /** Those rubbed out on this visit that can be put back, the last one last. */
  rubbed = $state.raw<NewMark[]>([]);
  /** What was kept on this visit, as it was drawn: putting it back takes the same words. */
  #made = new Map<string, NewMark>();

  protected override get wanted(): number {
    return needs(this.tool);
  }

  choose(tool: Tool) {
    this.tool = tool;
    this.refused = null;
    this.points.clear(this.wanted);
  }

  /** The mark that is being drawn. */
  get drawing(): Drawable {
    return { kind: this.tool, points: this.points.set, text: this.tool === 'words' ? this.text : this.length };
  }

  /** True when it can be kept. */
  get ready(): boolean {
    if (!this.points.all || this.busy) return false;
    if (this.tool === 'words') return this.text.trim() !== '';
    return this.tool !== 'dimension' || this.length.trim() !== '';
  }

  async keep(): Promise<void> {
    if (!this.ready) return;
    const { tool, text, length, tolerance } = this;
    const points = this.points.set.map(([x, y]) => [x, y] as [number, number]);
    const mark: NewMark = tool === 'words' ? { kind: tool, points, text } : tool === 'dimension' ? { kind: tool, points, length, tolerance } : { kind: tool, points };
    if (!(await this.#make(mark))) return;
    this.points.clear();
    this.text = '';
    this.length = '';
    this.rubbed = [];
  }

  /** The mark that is rubbed out next. */
  get last(): MarkView | null {
    return this.value?.marks.at(-1) ?? null;
  }

  async rubOut(): Promise<void> {
    const last = this.last;
    if (!last) return;
    const { survey, photo } = this;
    const done = await this.#act(() => this.host.ask('take-mark-back', { survey, photo, mark: last.id }));
    const made = this.#made.get(last.id) ?? again(last);
    if (done && made) this.rubbed = [...this.rubbed, made];
  }

  async putBack(): Promise<void> {
    const mark = this.rubbed.at(-1);
    if (mark && (await this.#make(mark))) this.rubbed = this.rubbed.slice(0, -1);
  }

  async #make(mark: NewMark): Promise<boolean> {
    const { survey, photo } = this;
    const done = await this.#act(() => this.host.ask('mark', { survey, photo, mark }));
    const kept = done ? this.last : null;
    if (kept) this.#made.set(kept.id, mark);
    return done;
  }

  async #act(act: () => Promise<PhotoMarkedView>): Promise<boolean> {
    if (this.busy) return false;
    this.busy = true;
    this.refused = null;
    try {
      this.value = await act();
      return true;
    } catch (thrown) {
      this.refused = HostError.from(thrown);
      return false;
    } finally {
      this.busy = false;
    }
  }

  heading(words: Words): string {
    if (!this.value) return words.say(this.trouble ? 'failed-heading' : 'reading');
    return words.say(HOW[this.tool]);
  }
}

/** A mark made on another visit, to be made again as it stood; lengths are not read back out of their words. */
function again({ kind, points, text }: MarkView): NewMark | null {
  if (kind === 'arrow' || kind === 'ring') return { kind, points };
  return kind === 'words' ? { kind, points, text } : null;
}
