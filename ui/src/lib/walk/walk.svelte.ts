// The walk of one house: the card on the screen, and what a tap does. Everything is recorded by the program before it
// comes back; nothing is kept here that a killed program would lose.
import type { CardView, DemolitionView, LookNextView, OddsNowView, StopView, WalkView } from '../bindings/views';
import { HostError, type Answer, type Host } from '../host/host';
import { until } from '../until';
import type { Words } from '../words/words';
import { Figures, Pad } from './pad.svelte';
import { Ticks } from './ticks.svelte';

/** One division of the scale bar. */
export interface Division {
  key: string;
  done: boolean;
  here: boolean;
}

export class Walk {
  value = $state.raw<WalkView | null>(null);
  trouble = $state.raw<HostError | null>(null);
  /** What to look at again although it was taken. */
  complaints = $state.raw<string[]>([]);
  /** What was recorded or taken back last, in words. */
  said = $state.raw('');
  /** The money to carry as the answers stood last. */
  money = $state.raw<OddsNowView | null>(null);
  /** False from a touch until that money is as the answers stand now. */
  reckoned = $state(false);
  /** The looks as weighed last. */
  next = $state.raw<LookNextView | null>(null);
  /** True from a tap until its answer is on the disk: a second tap is not an answer to the next card. */
  busy = $state(false);
  /** An answer that was refused and could be meant all the same. */
  refused = $state.raw<Answer | null>(null);

  readonly card: CardView | null = $derived(this.value?.card ?? null);
  /** The declaration of demolition that ended the walk: its leaves are to be read only. */
  readonly over: DemolitionView | null = $derived(this.value?.demolition ?? null);
  readonly stops: StopView[] = $derived(this.value?.stops ?? []);

  /** What was keyed or ticked on a card and not answered yet, kept while one looks elsewhere. */
  #pads = new Map<string, Pad>();
  #figures = new Map<string, Figures>();
  #ticks = new Map<string, Ticks>();

  /** Each act has a number; what was asked before the last one does not count any more. */
  #acts = 0;

  constructor(
    readonly host: Host,
    readonly survey: string,
    /** Milliseconds before weighing is tried again that was broken off. */
    readonly pause = 150,
  ) {}

  /** Shows a card, or the one where the walk was left. */
  open(key?: string): Promise<void> {
    return this.#act(async () => {
      this.#show(await this.host.ask('walk', key === undefined ? { survey: this.survey } : { survey: this.survey, key }));
    });
  }

  /** Reads the card on the screen again, because something was added to it. A touch meanwhile counts. */
  async again(): Promise<void> {
    const card = this.card;
    if (!card || this.busy) return;
    const mine = ++this.#acts;
    const now = () => mine === this.#acts;
    try {
      const walk = await this.host.ask('walk', { survey: this.survey, key: card.key });
      if (now()) this.#show(walk);
    } catch (thrown) {
      if (now()) this.trouble = HostError.from(thrown);
    }
    if (now()) await this.weigh();
  }

  pad(card: CardView): Pad {
    return kept(this.#pads, card.key, () => new Pad(card.unit).like(card.metric, card.tolerance));
  }

  figures(card: CardView): Figures {
    return kept(this.#figures, card.key, () => new Figures());
  }

  ticks(card: CardView): Ticks {
    return kept(this.#ticks, card.key, () => new Ticks(card));
  }

  /** Records an answer to the card on the screen and goes on. */
  answer(answer: Answer): Promise<void> {
    const card = this.card;
    if (!card || this.busy) return Promise.resolve();
    return this.#act(async () => {
      try {
        const done = await this.host.ask('answer', { survey: this.survey, key: card.key, ...answer });
        for (const keyed of [this.#pads, this.#figures, this.#ticks]) keyed.delete(card.key);
        this.#show(done.walk);
        this.said = done.said;
        this.complaints = done.complaints;
      } catch (thrown) {
        if (HostError.from(thrown).kind === 'input' && !answer.sure) this.refused = answer;
        throw thrown;
      }
    });
  }

  /** Records what was refused: it is meant. */
  allTheSame(): Promise<void> {
    return this.refused ? this.answer({ ...this.refused, sure: true }) : Promise.resolve();
  }

  remark(text: string): Promise<void> {
    const card = this.card;
    if (!card || text.trim() === '') return Promise.resolve();
    return this.#act(async () => this.#show(await this.host.ask('remark', { survey: this.survey, key: card.key, text })));
  }

  /** Takes the last act back and shows its card. */
  undo(): Promise<void> {
    if (this.busy) return Promise.resolve();
    return this.#act(async () => {
      const done = await this.host.ask('undo', { survey: this.survey });
      this.#show(done.walk);
      this.said = done.said;
    });
  }

  /** Declares demolition: the walk is over. */
  declare(reason: string): Promise<void> {
    if (this.busy) return Promise.resolve();
    return this.#act(async () => this.#show(await this.host.ask('declare-demolition', { survey: this.survey, reason })));
  }

  /** Withdraws the declaration: nothing was opened. */
  withdraw(reason: string): Promise<void> {
    if (this.busy) return Promise.resolve();
    return this.#act(async () => this.#show(await this.host.ask('withdraw-demolition', { survey: this.survey, reason })));
  }

  addPlace(station: string, label: string): Promise<void> {
    return this.#act(async () => this.#show(await this.host.ask('add-place', { survey: this.survey, station, label })));
  }

  /** Gives a place another name. */
  namePlace(place: string, label: string): Promise<void> {
    return this.#act(async () => this.#show(await this.host.ask('name-place', { survey: this.survey, place, label })));
  }

  /** Takes a place out of the walk and the odds; what was recorded there is kept. */
  takeOutPlace(place: string): Promise<void> {
    return this.#act(async () => this.#show(await this.host.ask('take-out-place', { survey: this.survey, place })));
  }

  /** Walks a stop before the one before it, or after the one after it. */
  moveStop(place: string, toward: 'earlier' | 'later'): Promise<void> {
    if (this.busy) return Promise.resolve();
    return this.#act(async () => this.#show(await this.host.ask('move-stop', { survey: this.survey, place, toward })));
  }

  /** Weighs what is left, between taps. A tap breaks it off and starts it again; so does whatever else is asked. */
  async weigh(): Promise<void> {
    const mine = this.#acts;
    const now = () => mine === this.#acts;
    const asked = <T>(ask: () => Promise<T | null>) => until(() => (now() ? ask() : Promise.reject()), this.pause).catch(() => null);
    // First what the foot shows: it is there within the touch.
    const money = await asked(() => this.host.ask('money-now', { survey: this.survey }));
    if (!now()) return;
    if (money !== null) this.money = money;
    this.reckoned = true;
    const next = await asked(() => this.host.ask('look-next', { survey: this.survey }));
    if (next === null || !now()) return;
    this.next = next;
    // Now it is known on which questions nothing depends any more.
    const card = this.card;
    const walk = await this.host.ask('walk', card ? { survey: this.survey, key: card.key } : { survey: this.survey }).catch(() => null);
    if (walk !== null && now()) this.value = walk;
  }

  /** The house is left: what is still being weighed does not count any more. */
  leave() {
    this.#acts += 1;
    void this.host.ask('leave-house', {}).catch(() => null);
  }

  #show(walk: WalkView) {
    this.value = walk;
  }

  async #act(act: () => Promise<void>): Promise<void> {
    const mine = ++this.#acts;
    this.busy = true;
    this.reckoned = false;
    this.trouble = null;
    this.refused = null;
    this.complaints = [];
    this.said = '';
    try {
      await act();
    } catch (thrown) {
      this.trouble = HostError.from(thrown);
    } finally {
      this.busy = false;
    }
    if (mine === this.#acts) await this.weigh();
  }

  /** The scale bar: a division for each question that matters now, stop by stop. */
  get divisions(): Division[] {
    const here = this.card?.key;
    return this.stops.flatMap((stop) => stop.cards.map((one) => ({ key: one.key, done: one.kind !== 'open' && one.kind !== 'disagreement', here: one.key === here })));
  }

  heading(words: Words): string {
    if (!this.value) return words.say(this.trouble ? 'failed-heading' : 'reading');
    return this.card?.question ?? words.say('walk-at-end');
  }
}

function kept<T>(all: Map<string, T>, key: string, make: () => T): T {
  const found = all.get(key) ?? make();
  all.set(key, found);
  return found;
}
