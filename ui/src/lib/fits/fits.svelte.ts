// The trade calculations of a house: the list, and one with what it was worked out from. Typed figures are kept here
// until they are worked out; nothing of them is recorded.
import type { FieldView, FitRowView, FitsView, FitView } from '../bindings/views';
import { HostError, type Host } from '../host/host';
import { Reading } from '../reading.svelte';
import type { Words } from '../words/words';

export class Fits extends Reading<FitsView> {
  readonly rows: FitRowView[] = $derived(this.value?.trades.flatMap((trade) => trade.fits) ?? []);

  constructor(
    readonly host: Host,
    readonly survey: string,
  ) {
    super(() => host.ask('fits', { survey }));
  }

  heading(words: Words): string {
    if (!this.value) return words.say(this.trouble ? 'failed-heading' : 'reading');
    const all = this.rows.filter((one) => one.standing !== null);
    const open = all.filter((one) => one.standing === 'cannot-say' || one.standing === 'ask-locally').length;
    const beyond = all.filter((one) => one.standing === 'beyond' || one.standing === 'near').length;
    if (all.length === 0) return words.say('fits-none');
    const values = { n: beyond, open };
    if (open > 0) return words.say(beyond > 0 ? 'fits-beyond-open' : 'fits-within-open', values);
    return words.say(beyond > 0 ? 'fits-beyond' : 'fits-within', values);
  }
}

export class Fit extends Reading<FitView> {
  /** What is typed, by field; empty: nothing was touched. */
  typed = $state.raw<Record<string, string>>({});
  busy = $state(false);
  refused = $state.raw<HostError | null>(null);

  readonly answered = $derived(this.value?.inputs.filter((one) => one.answer !== null) ?? []);
  readonly missing = $derived(this.value?.inputs.filter((one) => one.answer === null) ?? []);
  readonly touched: boolean = $derived(Object.keys(this.typed).length > 0);

  constructor(
    readonly host: Host,
    readonly survey: string,
    readonly key: string,
  ) {
    super(() => host.ask('fit', { survey, key }));
  }

  text(field: FieldView): string {
    return this.typed[field.name] ?? field.given;
  }

  type(field: FieldView, text: string) {
    this.typed = { ...this.typed, [field.name]: text };
  }

  /** Works it out from the figures on the screen: those of the walk, and in their place those typed. Of rows each line is
   *  one. */
  async work(): Promise<void> {
    if (!this.value || this.busy) return;
    this.busy = true;
    this.refused = null;
    const lines = (field: FieldView) => (field.kind === 'rows' ? this.text(field).split('\n') : [this.text(field)]);
    const typed = this.value.fields.flatMap((field) => lines(field).filter((line) => line.trim() !== '').map((line): [string, string] => [field.name, line]));
    try {
      this.value = await this.host.ask('fit', { survey: this.survey, key: this.key, typed });
    } catch (thrown) {
      this.refused = HostError.from(thrown);
    } finally {
      this.busy = false;
    }
  }

  /** Back to what the walk says. */
  async asWalked(): Promise<void> {
    this.typed = {};
    this.refused = null;
    await this.read();
  }

  heading(words: Words): string {
    if (!this.value) return words.say(this.trouble ? 'failed-heading' : 'reading');
    return this.value.result?.sentence ?? this.value.about;
  }
}
