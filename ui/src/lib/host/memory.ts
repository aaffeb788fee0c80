// Houses held in memory: for tests and for looking at the screens in a browser. Never part of the program. The walk is
// one that the program gave; no question is ruled out here, and nothing is weighed.
import type { AssessmentView, CardView, DemolitionView, DoneView, HouseCard, HouseView, LengthView, OddsNowView, RowView, StandingView, StopView, WalkView } from '../bindings/views';
import { Album } from './album';
import { Drawer } from './drawer';
import { HostError, type Answer, type Commands, type Host, type NewPhoto } from './host';
import { MemoryLine } from '../link/memory';
import type { Recorded, RecordedFits } from './recorded';

/** A house as memory holds it: its odds are those it would have now, frozen or not. */
export interface KeptHouse extends Omit<HouseView, 'frozen' | 'demolition' | 'withdrawn'> {
  now: AssessmentView | null;
}

/** What was answered in one house, the last act last. */
interface Said {
  acts: { key: string; answer: Answer }[];
  notes: Map<string, string[]>;
  left: string | null;
  /** Names given to places, and those taken out. */
  names: Map<string, string>;
  out: Set<string>;
  /** Photographs taken since the last answer. */
  photos: string[];
  /** Places in the order walked; empty: as the cards come. */
  order: string[];
  /** The declaration that ended the walk. */
  demolition: DemolitionView | null;
}

/** What the program refuses once demolition was declared. */
const OF_THE_WALK = new Set<keyof Commands>(['answer', 'remark', 'undo', 'add-place', 'name-place', 'take-out-place', 'move-stop', 'show-check', 'mark', 'take-mark-back']);

export class MemoryHost implements Host {
  /** What the next question is refused with, to see how a screen says it. */
  refusal: HostError | null = null;
  /** Every command asked, in order. */
  readonly asked: string[] = [];
  /** How each condition came about is never done, to see how the screen waits. */
  slow = false;
  /** What the program itself would say, in the language shown. */
  said = (text: string) => text;
  /** The house on the screen when the program ended. */
  onScreen: string | null = null;
  readonly album = new Album();
  readonly desk = new Drawer();
  readonly line = new MemoryLine();
  readonly #said = new Map<string, Said>();

  constructor(
    public kept: KeptHouse[],
    readonly recorded: Recorded | null = null,
    readonly fits: RecordedFits | null = null,
  ) {}

  async ask<Name extends keyof Commands>(name: Name, args: Commands[Name][0]): Promise<Commands[Name][1]> {
    this.asked.push(name);
    if (this.refusal) throw this.refusal;
    const over = 'survey' in args && typeof args.survey === 'string' && this.#said.get(args.survey)?.demolition;
    if (over && OF_THE_WALK.has(name)) throw new HostError('conflict', `${over.by} declared demolition of this house.`, 'Enter a finding.');
    return this.#answers[name](args as never) as Commands[Name][1] | Promise<Commands[Name][1]>;
  }

  async takePhoto(photo: NewPhoto) {
    this.asked.push('take-photo');
    if (this.refusal) throw this.refusal;
    const said = this.album.take(photo);
    if (!said.known) this.#of(photo.survey).photos.push(said.digest);
    return said;
  }

  async pairPhoto() {
    this.asked.push('pair-photo');
    if (this.refusal) throw this.refusal;
    return this.line.read('underlath-office:photographed');
  }

  async picture(digest: string) {
    return this.album.picture(digest);
  }

  /** In memory a photograph has one size. */
  async thumbnail(digest: string) {
    this.asked.push('thumbnail');
    return this.album.picture(digest);
  }

  readonly #answers: { [Name in keyof Commands]: (args: Commands[Name][0]) => Commands[Name][1] | Promise<Commands[Name][1]> } = {
    houses: () => this.kept.map((house) => ({ ...card(house), packet: this.desk.last(house.survey), demolition: this.#of(house.survey).demolition !== null })).sort((a, b) => b.lastTouched.localeCompare(a.lastTouched)),
    house: ({ survey }) => this.#shown(survey),
    'start-form': () => this.#walkOf().start,
    'start-house': ({ label, planned }) => {
      if (label.trim() === '') throw new HostError('input', 'A label is needed.');
      if (this.kept.some((house) => house.label === label)) throw new HostError('conflict', `There is a house “${label}” already.`, 'Give this one another label.');
      const survey = `0195-${label.toLowerCase().replace(/[^a-z0-9]+/g, '-')}`;
      this.kept.unshift({ survey, label, stations: [], takenOut: [], photos: 0, now: null });
      if (planned.length > 0) this.#of(survey).acts.push({ key: 'planned-work', answer: { answer: planned } });
      return this.#walk(survey);
    },
    walk: ({ survey, key }) => this.#walk(survey, key),
    answer: ({ survey, key, ...answer }) => {
      this.#house(survey);
      const asked = this.#walkOf().cards.find((one) => one.key === key);
      if (!asked) throw new HostError('missing', `No question "${key}".`);
      const far = asked.kind === 'number' && Number(answer.answer?.[0]) > 9_999 && !answer.sure;
      if (far) throw new HostError('input', 'That is outside the range.', 'Measure again.');
      this.#of(survey).acts.push({ key, answer });
      this.#of(survey).photos = [];
      return this.#done(survey, key, said(asked, answer));
    },
    remark: ({ survey, key, text }) => {
      const { notes } = this.#of(survey);
      notes.set(key, [...(notes.get(key) ?? []), text]);
      return this.#walk(survey, key);
    },
    undo: ({ survey }) => {
      const photo = this.#of(survey).photos.pop();
      if (photo !== undefined) {
        this.album.held = this.album.held.filter((one) => one.digest !== photo);
        return { said: photo, complaints: [], walk: this.#walk(survey) };
      }
      const last = this.#of(survey).acts.pop();
      if (!last) throw new HostError('missing', 'There is nothing to take back.');
      return { said: last.answer.answer?.join(', ') ?? '', complaints: [], walk: this.#walk(survey, last.key) };
    },
    'add-place': ({ survey, label }) => {
      const { names, out } = this.#of(survey);
      for (const place of out) if (names.get(place) === label) out.delete(place);
      return this.#walk(survey);
    },
    'name-place': ({ survey, place, label }) => {
      this.#of(survey).names.set(place, label);
      return this.#walk(survey);
    },
    'take-out-place': ({ survey, place }) => {
      this.#of(survey).out.add(place);
      return this.#walk(survey);
    },
    'move-stop': ({ survey, place, toward }) => {
      const stops = this.#walk(survey).stops;
      const at = stops.findIndex((stop) => stop.place === place);
      if (!stops[at]?.[toward]) throw new HostError('conflict', 'The stop is there already.');
      const order = stops.map((stop) => stop.place);
      order.splice(toward === 'earlier' ? at - 1 : at + 1, 0, ...order.splice(at, 1));
      this.#of(survey).order = order;
      return this.#walk(survey);
    },
    'read-length': ({ text }) => readLength(text),
    'look-next': ({ survey }) => ({ ...this.#walkOf().looks, ...(this.#of(survey).demolition ? { looks: [], minutes: 0, ask: null } : {}), survey, label: this.#house(survey).label }),
    'show-check': ({ survey, check }) => ({ said: check, complaints: [], walk: this.#walk(survey) }),
    leaving: ({ survey }) => {
      const none = { disagreements: [], clashes: [], implausible: [], ruledOut: [], photos: [], ask: [], gathered: null };
      return { ...this.#walkOf().leaving, ...(this.#of(survey).demolition ? none : {}), survey, label: this.#house(survey).label };
    },
    assess: ({ survey }) => this.#shown(survey),
    'declare-demolition': ({ survey, reason }) => {
      this.declare(survey, reason.trim() || null);
      return this.#walk(survey);
    },
    'withdraw-demolition': ({ survey }) => {
      this.#of(survey).demolition = null;
      return this.#walk(survey);
    },
    'money-now': ({ survey }) => ({ ...oddsNow(this.#house(survey), this.said), assessment: null }),
    'odds-now': ({ survey }) => (this.slow ? quick(oddsNow(this.#house(survey), this.said)) : oddsNow(this.#house(survey), this.said)),
    'odds-why': ({ survey }) => (this.slow ? new Promise<never>(() => {}) : oddsNow(this.#house(survey), this.said)),
    fits: ({ survey }) => ({ ...this.#fitsOf().list, survey, label: this.#house(survey).label }),
    fit: ({ survey, key, typed }) => {
      const { fits, typed: byHand } = this.#fitsOf();
      if (typed?.some(([, text]) => text === 'a foot or so')) throw new HostError('input', 'stub-height: “a foot or so” is no length.', 'Write it as 19 3/8 or 1\' 7 3/8".');
      const found = (typed ? byHand : fits).find((one) => one.key === key) ?? fits.find((one) => one.key === key);
      if (!found) throw new HostError('missing', `No calculation "${key}".`);
      const fields = found.fields.map((field) => (typed ? { ...field, given: typed.filter(([name]) => name === field.name).map(([, text]) => text).join('\n') } : field));
      return { ...found, survey, label: this.#house(survey).label, byHand: Boolean(typed), fields };
    },
    photos: ({ survey, key }) => this.album.list(survey, this.#house(survey).label, this.#walkOf().cards, key),
    photo: ({ photo }) => this.album.marked(photo, this.#walkOf().cards),
    mark: ({ photo, mark }) => {
      this.album.mark(photo, mark);
      return this.album.marked(photo, this.#walkOf().cards);
    },
    'take-mark-back': ({ photo, mark }) => {
      this.album.back(photo, mark);
      return this.album.marked(photo, this.#walkOf().cards);
    },
    'measure-on-photo': ({ photo, ...asked }) => this.album.measure(photo, asked),
    packets: ({ survey }) => this.desk.list(survey, this.#house(survey)),
    seal: ({ survey, signs }) => this.desk.begin(survey, this.#house(survey), signs),
    'household-page': ({ survey }) => this.desk.page(survey),
    'household-signs': ({ survey, name }) => this.desk.sign(survey, name),
    'seal-on': ({ survey }) => this.desk.on(survey),
    'stop-sealing': ({ survey }) => {
      this.desk.stop();
      return this.desk.list(survey, this.#house(survey));
    },
    'hand-over': ({ survey, number, pages }) => this.desk.handOver(survey, number, pages),
    office: () => this.line.link(),
    'read-link': ({ link }) => this.line.read(link),
    pair: ({ link, name }) => this.line.pair(link, name),
    unpair: () => {
      this.line.office = null;
      return this.line.link();
    },
    'fetch-catalog': () => this.line.newest(),
    send: ({ survey, packet }) => this.line.send(survey, packet),
    sending: () => this.line.sending(),
    screens: () => this.desk.settings(this.kept.length),
    settings: () => this.desk.settings(this.kept.length),
    set: ({ setting, value }) => {
      this.desk.set(setting, value);
      return this.desk.settings(this.kept.length);
    },
    left: () => ({ survey: this.onScreen }),
    'leave-house': () => (this.onScreen = null),
  };

  #house(survey: string): KeptHouse {
    const found = this.kept.find((house) => house.survey === survey);
    if (!found) throw new HostError('missing', `No house "${survey}" on this device.`, 'Look at the list of houses.');
    return found;
  }

  #walkOf(): Recorded {
    if (!this.recorded) throw new HostError('internal', 'No walk in memory.');
    return this.recorded;
  }

  #fitsOf(): RecordedFits {
    if (!this.fits) throw new HostError('internal', 'No calculations in memory.');
    return this.fits;
  }

  #of(survey: string): Said {
    const found = this.#said.get(survey) ?? { acts: [], notes: new Map(), left: null, names: new Map(), out: new Set(), photos: [], order: [], demolition: null };
    this.#said.set(survey, found);
    return found;
  }

  /** The house as left at a card, every card before `until` answered; null answers none or, at the end, all. */
  fill(survey: string, until: string | null, left: string | null) {
    const said = this.#of(survey);
    said.left = left ?? '';
    for (const one of this.#walkOf().cards) {
      if (left !== null && (until === null || one.key === until)) break;
      said.acts.push({ key: one.key, answer: { answer: [one.options[0]?.id ?? 'cant-tell'] } });
    }
  }

  /** Demolition as the program tells of it. */
  declare(survey: string, reason: string | null, setAside: DemolitionView['setAside'] = [], canWithdraw = true) {
    this.#of(survey).demolition = { by: 'Rosa Lind', at: '2026-03-20T07:45:00-05:00', reason, setAside, canWithdraw };
  }

  #shown(survey: string): HouseView {
    return { ...shown(this.#house(survey)), demolition: this.#of(survey).demolition };
  }

  #done(survey: string, key: string, words: string): DoneView {
    const { cards } = this.#walkOf();
    const { acts } = this.#of(survey);
    const at = cards.findIndex((one) => one.key === key);
    const open = [...cards.slice(at + 1), ...cards.slice(0, at + 1)].find((one) => !acts.some((act) => act.key === one.key));
    this.#of(survey).left = open?.key ?? '';
    return { said: words, complaints: [], walk: this.#walk(survey, open?.key ?? '') };
  }

  #walk(survey: string, asked?: string): WalkView {
    const { label } = this.#house(survey);
    const { cards } = this.#walkOf();
    const house = this.#of(survey);
    const answered = (one: CardView) => house.acts.some((act) => act.key === one.key);
    const wanted = asked ?? house.left ?? cards.find((one) => !answered(one))?.key;
    const at = cards.findIndex((one) => one.key === wanted);
    this.onScreen = survey;
    if (at >= 0) house.left = wanted ?? null;
    const stops: StopView[] = [];
    for (const one of cards.filter((it) => !house.out.has(it.place))) {
      let stop = stops.find((it) => it.place === one.place);
      const name = house.names.get(one.place) ?? null;
      const several = one.station === 'bulkhead';
      const label = name === null ? one.placeLabel : `${one.placeLabel} (${name})`;
      const answers = house.acts.filter((act) => cards.some((it) => it.key === act.key && it.place === one.place)).length;
      // In memory a place that can be one of several can be taken out: the walk that the program gave has no second one.
      const told = { place: one.place, station: one.station, label, photosMissing: 0, several, name, added: several, answers };
      if (!stop) stops.push((stop = { ...told, cards: [], earlier: false, later: false }));
      stop.cards.push({ key: one.key, question: one.question, kind: standing(one, house)?.kind ?? 'open' });
    }
    const rank = (stop: StopView) => house.order.indexOf(stop.place);
    stops.sort((a, b) => rank(a) - rank(b));
    for (const [i, stop] of stops.entries()) [stop.earlier, stop.later] = [i > 1, i > 0 && i < stops.length - 1];
    const photo = this.album.held.find((one) => one.digest === house.photos.at(-1));
    const shown = cards.find((one) => one.key === photo?.key);
    const last = house.acts.at(-1);
    const lastCard = cards.find((one) => one.key === last?.key);
    const here = cards[at];
    return {
      survey, label, stops,
      takenOut: [...house.out].map((place) => ({ place, station: cards.find((it) => it.place === place)?.station ?? place, label: house.names.get(place) ?? cards.find((it) => it.place === place)?.placeLabel ?? place, reason: null, answers: 2 })),
      position: at + 1,
      wanted: cards.length,
      answered: cards.filter(answered).length,
      card: here ? { ...here, ...answeredCard(here, house), before: cards[at - 1]?.key ?? null, after: cards[at + 1]?.key ?? null } : null,
      undo: house.demolition ? null : photo ? { key: photo.key, what: shown?.question ?? label, said: photo.name, left: house.acts.length + house.photos.length } : last && lastCard ? { key: last.key, what: lastCard.question, said: said(lastCard, last.answer), left: house.acts.length } : null,
      moneyP80Cents: this.#house(survey).now?.money.p80Cents ?? null,
      weighed: true,
      demolition: house.demolition,
    };
  }
}

/** The house as the program would give it. */
function shown({ now, ...house }: KeptHouse): HouseView {
  return { ...house, demolition: null, withdrawn: [], frozen: now && { madeAt: now.madeAt, p80Cents: now.money.p80Cents, catalog: now.catalog, engine: now.engine } };
}

/** Without what takes longer. */
function quick(now: OddsNowView): OddsNowView {
  const it = now.assessment;
  return { ...now, whole: false, assessment: it && { ...it, conditions: it.conditions.map((one) => ({ ...one, because: [], path: [] })) } };
}

/** As the answers stand: what was frozen of it, or that they do not go together. */
function oddsNow({ now: assessment }: KeptHouse, said: (text: string) => string): OddsNowView {
  const trouble = assessment ? null : said('These answers cannot all be true together: vent-pipe = yes, stack-seen = no.');
  return { p80Cents: assessment?.money.p80Cents ?? null, assessment, whole: true, trouble };
}

function standing(one: CardView, house: Said): StandingView | null {
  const act = house.acts.filter((it) => it.key === one.key).at(-1);
  if (!act) return one.standing;
  const kind = act.answer.couldNotReach ? 'could-not-reach' : act.answer.answer?.[0] === 'cant-tell' ? 'cant-tell' : 'answer';
  return { kind, answer: said(one, act.answer), entered: null, tolerance: act.answer.tolerance ? `±${act.answer.tolerance}` : null, by: 'Rosa Lind', at: '2026-03-03T10:31:00-05:00', rivals: [] };
}

function answeredCard(one: CardView, house: Said): Partial<CardView> {
  const chosen = house.acts.filter((act) => act.key === one.key).at(-1)?.answer.answer ?? [];
  return {
    standing: standing(one, house),
    options: one.options.map((option) => ({ ...option, chosen: chosen.includes(option.id) })),
    notes: house.notes.get(one.key) ?? [],
  };
}

function said(one: CardView, answer: Answer): string {
  if (answer.couldNotReach) return answer.couldNotReach;
  const label = (id: string) => one.options.find((option) => option.id === id)?.label ?? id;
  return (answer.answer ?? []).map(label).join(', ');
}

/** Just enough of the program's reading of lengths for tests of the screens. */
function readLength(text: string): LengthView {
  const none = { read: false, inches: '', feet: '', metric: '', whole: 0, sixteenths: 0, note: 'not a length', outside: null };
  const metric = /^(\d+) mm$/.exec(text);
  const tape = /^-?(?:(\d+)'\s*)?(\d+(?![/\d]))?\s*(?:(\d+)\/(\d+))?\s*"?$/.exec(text);
  if (!metric && (!tape || text === '')) return none;
  const [, feet = '0', whole = '0', over = '0', under = '1'] = tape ?? [];
  const inches = metric ? Number(metric[1]) / 25.4 : Number(feet) * 12 + Number(whole) + Number(over) / Number(under);
  const all = Math.round(inches * 16);
  const part = (n: number): string => (n % 16 === 0 ? '' : [2, 4, 8, 16].filter((d) => (n % 16) % (16 / d) === 0).slice(0, 1).map((d) => `${((n % 16) * d) / 16}/${d}`).join(''));
  const [whole16, rest] = [Math.floor(all / 16), part(all)];
  return {
    read: true,
    inches: `${whole16}${rest && `-${rest}`}"`,
    feet: `${Math.floor(whole16 / 12)}'-${whole16 % 12}${rest && ` ${rest}`}"`,
    metric: `${Math.round(inches * 25.4)} mm`,
    whole: whole16,
    sixteenths: all % 16,
    note: null,
    outside: inches > 60 ? 'outside what is plausible here, 2" to 30"' : null,
  };
}

function card(house: KeptHouse): HouseCard {
  const rows: RowView[] = house.stations.flatMap((station) => station.rows);
  const times = rows.flatMap((row) => [row.at, ...row.rivals.map((rival) => rival.at)]).filter((at) => at !== null);
  return {
    survey: house.survey,
    label: house.label,
    lastTouched: times.sort().at(-1) ?? '',
    answered: rows.filter((row) => row.kind !== 'open').length,
    wanted: rows.length,
    photos: house.photos,
    moneyP80Cents: house.now?.money.p80Cents ?? null,
    packet: null,
    demolition: false,
  };
}
