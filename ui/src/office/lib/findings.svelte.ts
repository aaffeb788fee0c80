// What was found, entered by hand or by keys alone. One condition is the one in hand; others can be taken along with it,
// so that a whole wall of "not there" is one letter. Every entry is a new line of the record; the one before stays.
import type { BorneView, FindingRowView, FindingsView, OtherChoiceView, OtherRowView, OutcomeView, StageView } from '../../lib/bindings/views';
import { HostError } from '../../lib/host/host';
import { Reading } from '../../lib/reading.svelte';
import type { NewFinding, OfficeHost, PaidBy } from '../host/host';
import { words } from '../words';
import { centsOf, dollarsTyped, daysTyped, tenthsOf } from './figures';
import { matching } from './matching';
import { OUTCOME } from './said';

/** Who can have borne a cost, in the order of their keys. */
export const BORNE = ['in-price', 'allowance', 'change-order', 'absorbed'] as const satisfies readonly BorneView[];
export type Borne = (typeof BORNE)[number];

/** Fields that a letter leads to. */
export type Field = 'cost' | 'days' | 'note';

/** A condition nobody forecast: entered, or chosen and being written. */
export type OtherRow = Omit<OtherRowView, 'finding'> & { finding: OtherRowView['finding'] | null };
export type AnyRow = FindingRowView | OtherRow;

/** True for a row of the forecast. */
export const forecast = (row: AnyRow): row is FindingRowView => 'probability' in row;

/** A finding that is being written. */
export interface Draft {
  cost: string;
  days: string;
  borne: Borne | null;
  note: string;
  /** Digest of a photograph that was sent. */
  photo: string | null;
}

export class Findings extends Reading<FindingsView> {
  /** The condition in hand, by its key. */
  here = $state<string | null>(null);
  /** Where taking along began; none: the one in hand alone. */
  from = $state<string | null>(null);
  /** True while the evidence of the one in hand is laid open. */
  open = $state(false);
  /** What is being written about the one in hand, once something is. */
  draft = $state<Draft | null>(null);
  /** Only those without a finding. */
  left = $state(false);
  /** What somebody looks for among what else there can be; none while nobody does. */
  looking = $state<string | null>(null);
  /** What was chosen there and has no finding yet. */
  chosen = $state.raw<OtherChoiceView | null>(null);
  busy = $state(false);
  refused = $state.raw<HostError | null>(null);
  /** What happened, for those who hear the screen. */
  said = $state('');
  /** Sending a photograph: the share sent. */
  sending = $state<number | null>(null);

  constructor(
    readonly host: OfficeHost,
    readonly survey: string,
    at: string | null = null,
  ) {
    super(() => host.ask('findings', { survey }));
    this.here = at;
    this.open = at !== null;
  }

  override async read(): Promise<void> {
    await super.read();
    if (this.row === null) this.here = this.shown[0]?.key ?? null;
  }

  get all(): FindingRowView[] {
    return this.value?.stages.flatMap((stage) => stage.rows) ?? [];
  }

  /** Stages with the rows that are shown: the one in hand always is. */
  get stages(): StageView[] {
    const shown = (row: FindingRowView) => !this.left || row.finding === null || row.key === this.here;
    return (this.value?.stages ?? []).map((stage) => ({ ...stage, rows: stage.rows.filter(shown) })).filter((stage) => stage.rows.length > 0);
  }

  /** What was found though nobody forecast it, and at the end the one that is being written. */
  get others(): OtherRow[] {
    const kept: OtherRow[] = this.value?.others ?? [];
    return this.chosen ? [...kept, { ...this.chosen, finding: null, earlier: 0 }] : kept;
  }

  /** What else can be found, by the words somebody looks with. */
  get choices(): OtherChoiceView[] {
    return matching(this.value?.choices ?? [], this.looking ?? '', (one) => `${one.name} ${one.place ?? ''}`);
  }

  get shown(): AnyRow[] {
    return [...this.stages.flatMap((stage) => stage.rows), ...this.others];
  }

  /** Every row, those of the forecast first. */
  get rows(): AnyRow[] {
    return [...this.all, ...this.others];
  }

  get row(): AnyRow | null {
    return this.rows.find((row) => row.key === this.here) ?? null;
  }

  get entered(): number {
    return this.all.filter((row) => row.finding !== null).length;
  }

  /** The number of a row, as the page counts. */
  number(key: string): number {
    return this.rows.findIndex((row) => row.key === key) + 1;
  }

  /** Keys that a letter is for: the one in hand, and those taken along. */
  get hand(): string[] {
    const shown = this.shown;
    const here = shown.findIndex((row) => row.key === this.here);
    if (here < 0) return [];
    const from = this.from === null ? here : shown.findIndex((row) => row.key === this.from);
    if (from < 0) return [shown[here]!.key];
    // What nobody forecast is entered one by one.
    const along = shown.slice(Math.min(from, here), Math.max(from, here) + 1).filter(forecast);
    return from === here || along.length === 0 ? [shown[here]!.key] : along.map((row) => row.key);
  }

  /** Takes a row in hand; with `along` those between are taken along. */
  go(key: string, along = false) {
    if (along) this.from ??= this.here;
    else this.from = null;
    if (key !== this.here) {
      this.draft = null;
      this.refused = null;
      this.chosen = null;
      if (along) this.open = false;
    }
    this.here = key;
    const taken = this.hand.length;
    if (taken > 1) this.said = words.say('findings-taken', { n: taken });
  }

  /** The row so many further, where there is one. */
  step(by: number, along = false) {
    const shown = this.shown;
    const at = shown.findIndex((row) => row.key === this.here);
    const to = shown[Math.max(0, Math.min(shown.length - 1, at + by))];
    if (to) this.go(to.key, along);
  }

  /** Lays the evidence of a row open, or shuts it. */
  toggle(key: string) {
    if (key !== this.here) {
      this.go(key);
      this.open = true;
    } else this.open = !this.open;
    if (this.open) this.write();
  }

  /** Takes something else in hand, to be written. */
  choose(one: OtherChoiceView) {
    this.go(one.key);
    this.looking = null;
    this.chosen = one;
    this.open = true;
    this.write();
    this.said = words.say('other-chosen', { name: one.name });
  }

  /** Begins to write about the one in hand, from the finding that stands. */
  write(): Draft | null {
    const { row } = this;
    if (row === null || this.draft !== null) return this.draft;
    const stands = row.finding;
    const borne = BORNE.find((one) => one === stands?.borne) ?? null;
    this.draft = {
      cost: dollarsTyped(stands?.costCents ?? 0),
      days: daysTyped(stands?.daysTenths ?? 0),
      borne,
      note: stands?.note ?? '',
      photo: stands?.photo ?? null,
    };
    return this.draft;
  }

  /** What was written as a finding, where it can be read. */
  #finding(condition: string, outcome: OutcomeView): NewFinding {
    // Words and picture are of the one they were written at.
    const draft = condition === this.here ? this.draft : null;
    const finding: NewFinding = { survey: this.survey, condition, outcome };
    if (draft && draft.note.trim() !== '') finding.note = draft.note.trim();
    if (draft?.photo) finding.photo = draft.photo;
    if (outcome !== 'found' || !draft) return finding;
    const [cents, tenths] = [centsOf(draft.cost), tenthsOf(draft.days)];
    if (cents === null) throw new HostError('input', words.say('cost-not-read', { said: draft.cost }), words.say('cost-not-read-how'));
    if (tenths === null) throw new HostError('input', words.say('days-not-read', { said: draft.days }), words.say('days-not-read-how'));
    finding.cost_cents = cents;
    finding.days_tenths = tenths;
    if (draft.borne === 'in-price') finding.in_price = true;
    else if (draft.borne !== null) finding.paid_by = draft.borne satisfies PaidBy;
    return finding;
  }

  /** Enters an outcome for all in hand and goes on to the next that has none. True when all were kept. */
  async enter(outcome: OutcomeView): Promise<boolean> {
    const keys = this.hand;
    if (this.busy || keys.length === 0) return false;
    const { row } = this;
    const other = row !== null && !forecast(row) && keys[0] === row.key ? row : null;
    // That it was not there corrects an entry; of what nobody forecast there is nothing else to say.
    if (other && outcome !== 'found' && (other.finding === null || outcome === 'not-opened')) return false;
    this.busy = true;
    this.refused = null;
    try {
      if (other) this.#putOther(await this.host.ask('enter-other-finding', this.#finding(other.key, outcome)));
      else for (const key of keys) this.#put(await this.host.ask('enter-finding', this.#finding(key, outcome)));
    } catch (thrown) {
      this.refused = HostError.from(thrown);
      this.said = this.refused.message;
      return false;
    } finally {
      this.busy = false;
    }
    const what = words.say(OUTCOME[outcome]);
    if (other) {
      this.said = words.say('other-kept', { name: other.name, what });
      this.draft = null;
      this.open = false;
      return true;
    }
    const name = this.all.find((row) => row.key === keys.at(-1))?.name ?? '';
    const values = { what, entered: this.entered, wanted: this.all.length };
    this.said = keys.length === 1 ? words.say('finding-kept', { name, ...values }) : words.say('findings-kept', { n: keys.length, ...values });
    this.#onward(keys.at(-1)!);
    return true;
  }

  /** To the next row without a finding, else to the next. */
  #onward(after: string) {
    const rows = this.all;
    const at = rows.findIndex((row) => row.key === after);
    const next = rows.slice(at + 1).find((row) => row.finding === null) ?? rows.find((row) => row.finding === null) ?? rows[at + 1];
    this.draft = null;
    this.from = null;
    this.open = false;
    if (next) this.here = next.key;
  }

  /** Sends a photograph for the one in hand; it belongs to the finding once that is entered. */
  async photo(file: File): Promise<void> {
    const draft = this.write();
    if (draft === null || this.here === null) return;
    this.refused = null;
    this.sending = 0;
    try {
      const sent = await this.host.sendFindingPhoto(file, (sent, of) => (this.sending = of > 0 ? sent / of : 0));
      draft.photo = sent.digest;
      this.said = words.say('finding-photo-sent');
    } catch (thrown) {
      this.refused = HostError.from(thrown);
    } finally {
      this.sending = null;
    }
  }

  #put(row: FindingRowView) {
    if (!this.value) return;
    const put = (rows: FindingRowView[]) => rows.map((one) => (one.key === row.key ? row : one));
    this.value = { ...this.value, stages: this.value.stages.map((stage) => ({ ...stage, rows: put(stage.rows) })) };
  }

  #putOther(row: OtherRowView) {
    if (!this.value) return;
    const { others, choices } = this.value;
    const there = others.some((one) => one.key === row.key);
    this.value = {
      ...this.value,
      others: there ? others.map((one) => (one.key === row.key ? row : one)) : [...others, row],
      choices: choices.filter((one) => one.key !== row.key),
    };
    this.chosen = null;
  }

  /** What a key does that is pressed on the list. True when it did something; `focus` is asked for a field. */
  async key({ key, shiftKey }: { key: string; shiftKey: boolean }, focus: (field: Field) => void): Promise<boolean> {
    const letter = key.toLowerCase();
    const is = (id: string) => letter === words.say(id).toLowerCase();
    if (key === 'ArrowDown' || key === 'ArrowUp') this.step(key === 'ArrowDown' ? 1 : -1, shiftKey);
    else if (key === 'Home' || key === 'End') this.step(key === 'Home' ? -this.shown.length : this.shown.length, shiftKey);
    else if (key === 'Escape') {
      this.from = null;
      this.open = false;
      this.draft = null;
      if (this.chosen) this.go(this.shown.at(-2)?.key ?? this.all[0]?.key ?? '');
    } else if (is('letter-not-there')) await this.enter('not-there');
    else if (is('letter-not-opened')) await this.enter('not-opened');
    else if (is('letter-found')) {
      // What several have in common is not a cost: found is entered for them as it is.
      if (this.hand.length > 1) await this.enter('found');
      else this.#field(focus, 'cost');
    } else if (is('letter-days')) this.#field(focus, 'days');
    else if (is('letter-note')) this.#field(focus, 'note');
    else if (is('letter-left')) this.left = !this.left;
    else if (is('letter-other')) this.looking ??= '';
    else return false;
    return true;
  }

  #field(focus: (field: Field) => void, field: Field) {
    this.from = null;
    this.open = true;
    this.write();
    focus(field);
  }

  heading(): string {
    if (!this.value) return words.say(this.trouble ? 'failed-heading' : 'reading');
    const left = this.all.length - this.entered;
    return words.say('findings-heading', { left, wanted: this.all.length });
  }
}
