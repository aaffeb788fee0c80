// The office held in memory: for tests and for looking at its screens in a browser. Never part of the program. Its house
// is one that the program gave.
import type { ArrivalView, Arriving, FindingRowView, FindingsView, FoundView, LearningView, OtherRowView, PublishedView, RefusedView, Tablet } from '../../lib/bindings/views';
import { HostError } from '../../lib/host/host';
import type { AuditLine, NewFinding, OfficeCommands, OfficeHost, OwnSession, Person, Progress, Role, Seen, Session } from './host';
import type { RecordedOffice } from './recorded';

const IDLE_MS = 60 * 60 * 1000;
/** The code of every phone here. */
const CODE = '402817';
/** Three corners and nothing between: it looks like a code and holds none. */
const CORNERS = [[4, 4], [22, 4], [4, 22]].map(([x, y]) => `M${x} ${y}h7v7h-7zM${x! + 1} ${y! + 1}v5h5v-5zM${x! + 2} ${y! + 2}h3v3h-3z`).join('');
const SCANNED = { size: 33, path: `${CORNERS}${Array.from({ length: 60 }, (_, i) => `M${12 + ((i * 7) % 10)} ${4 + ((i * 11) % 25)}h1v1h-1z`).join('')}` };
const NOW = '2026-06-10T10:20:00-04:00';

export class MemoryOffice implements OfficeHost {
  /** Every command asked, in order. */
  readonly asked: string[] = [];
  /** What the next command is refused with. */
  refusal: HostError | null = null;
  /** What the program itself would say, in the language shown. */
  said = (text: string) => text;
  people: Person[] = [];
  lines: AuditLine[] = [];
  session: Session = { person: null, set_up: true, firm: 'Invented Remodeling' };
  /** Where the pictures are, by digest. */
  shots: (digest: string) => string = (digest) => `/shots/${digest}`;
  /** A packet that is being handed in stands still half way. */
  stands = false;
  /** Nothing was opened yet. */
  unopened = false;
  tablets: Tablet[] = [];
  arriving: Arriving[] = [];
  /** Only the houses that were opened here, so that the record is small. */
  few = false;
  findings: FindingsView;
  learning: LearningView;
  published: PublishedView = { last: null, differs: false };
  packets: ArrivalView[];
  readonly passwords = new Map<string, string>();
  /** Those who have not chosen their own password yet. */
  readonly firsts = new Set<string>();

  constructor(readonly recorded: RecordedOffice) {
    this.findings = structuredClone(recorded.findings);
    this.learning = structuredClone(recorded.learning);
    this.packets = structuredClone(recorded.inbox.packets);
  }

  /** What lies refused in the watched folder, the latest first. */
  refused: RefusedView[] = [];

  /** Somebody works here, and is signed in where it is asked for. */
  person(name: string, role: Role, password: string, signedIn = false): Person {
    const id = `${this.people.length + 1}`.padStart(32, '0');
    const person: Person = { id, name, role, locked: false, second_factor: false, since: '2026-01-12T08:05:00-05:00' };
    this.people.push(person);
    this.passwords.set(name, password);
    if (signedIn) this.session = { ...this.session, person: this.#signedIn(person) };
    return person;
  }

  /** True where the office asks everybody for a second factor. */
  demanded = false;
  /** Who sees the house besides owners; none where everybody does. */
  closed: string[] | null = null;
  /** Where whoever is signed in is signed in. */
  own: OwnSession[] = [];

  #signedIn(person: Person): NonNullable<Session['person']> {
    const { id, name, role, second_factor } = person;
    return { id, name, role, first_password: this.firsts.has(id), second_factor, second_wanted: this.demanded && !second_factor, second_demanded: this.demanded, idle_ms: IDLE_MS };
  }
  /** What is said of whoever is signed in, after their row or the office was changed. */
  refresh() {
    const me = this.people.find((one) => one.id === this.session.person?.id);
    if (me) this.session = { ...this.session, person: this.#signedIn(me) };
  }
  /** Whoever is signed in has a second factor from now on, or none. */
  #second(has: boolean): Session {
    const me = this.people.find((one) => one.id === this.session.person!.id)!;
    me.second_factor = has;
    return (this.session = { ...this.session, person: this.#signedIn(me) });
  }
  #seen(): Seen {
    const others = this.people.filter((one) => one.role !== 'owner');
    return { closed: this.closed !== null, people: others.map(({ id, name, role }) => ({ id, name, role, sees: this.closed?.includes(id) ?? true })) };
  }
  #byPassword(password: string) {
    if (this.passwords.get(this.session.person!.name) !== password) throw new HostError('input', this.said('This is not the password you have now.'));
  }
  #byCode(code: string) {
    if (code.replaceAll(' ', '') !== CODE) throw new HostError('code', this.said('This code is not the one of this moment, or was used before.'), this.said('Wait for the next one.'));
  }

  async ask<Name extends keyof OfficeCommands>(name: Name, args: OfficeCommands[Name][0]): Promise<OfficeCommands[Name][1]> {
    this.asked.push(name);
    if (this.refusal && name !== 'session') throw this.refusal;
    if (!['session', 'sign-in', 'set-up'].includes(name) && this.session.person === null) throw new HostError('signed-out', 'Nobody is signed in here.');
    return this.#answers[name](args as never) as OfficeCommands[Name][1];
  }

  async sendPacket(file: File, progress: Progress): Promise<ArrivalView> {
    this.asked.push('packet');
    progress(Math.round(file.size * 0.6), file.size);
    if (this.stands) return new Promise(() => {});
    progress(file.size, file.size);
    if (!file.name.endsWith('.zip')) throw new HostError('damaged', this.said(`This packet was not received: ${file.name} is no zip file.`), this.said('Hand over the file that the tablet sealed.'));
    const first = this.packets[0]!;
    const firstTime = !this.packets.some((one) => one.packet === file.name);
    const came: ArrivalView = { ...first, packet: file.name, number: first.number + 1, receivedAt: NOW, judged: false };
    if (firstTime) this.packets = [came, ...this.packets];
    return { ...came, firstTime };
  }

  async sendFindingPhoto(file: File, progress: Progress): Promise<{ digest: string }> {
    this.asked.push('finding-photo');
    progress(file.size, file.size);
    if (!/\.(jpe?g|png)$/i.test(file.name)) throw new HostError('input', this.said(`${file.name} is no photograph.`), this.said('Choose a JPEG.'));
    return { digest: Object.entries(this.recorded.shots).find(([, path]) => path.includes('findings-photos'))?.[0] ?? file.name };
  }

  picture(_packet: string, photo: string) {
    return this.shots(photo);
  }
  thumbnail(_packet: string, photo: string) {
    return this.shots(photo);
  }
  findingPicture(photo: string) {
    return this.shots(photo);
  }
  page(packet: string, name: string) {
    return `#page/${packet}/${name}`;
  }

  get rows(): FindingRowView[] {
    return this.findings.stages.flatMap((stage) => stage.rows);
  }

  readonly #answers: { [Name in keyof OfficeCommands]: (args: OfficeCommands[Name][0]) => OfficeCommands[Name][1] } = {
    session: () => this.session,
    'set-up': ({ firm, name, password }) => {
      if (this.session.set_up) throw new HostError('conflict', 'This link was used.');
      this.session = { person: null, set_up: true, firm };
      this.person(name, 'owner', password, true);
      return this.session;
    },
    'sign-in': ({ name, password, code }) => {
      const person = this.people.find((one) => one.name === name);
      if (person?.locked) throw new HostError('conflict', this.said('Too many wrong passwords were given for this name.'));
      if (!person || this.passwords.get(name) !== password) throw new HostError('input', this.said('There is nobody here by that name and password.'));
      if (person.second_factor && code === undefined) throw new HostError('code', this.said('The password is right; give the code that your phone shows as well.'));
      if (person.second_factor) this.#byCode(code!);
      this.session = { ...this.session, person: this.#signedIn(person) };
      return this.session;
    },
    'sign-out': () => (this.session = { ...this.session, person: null }),
    'change-password': ({ old, new: next, code }) => {
      this.#byPassword(old);
      if (this.session.person!.second_factor) this.#byCode(code ?? '');
      this.passwords.set(this.session.person!.name, next);
      this.firsts.delete(this.session.person!.id);
      return (this.session = { ...this.session, person: { ...this.session.person!, first_password: false } });
    },
    'begin-second-factor': ({ password, code }) => {
      this.#byPassword(password);
      if (this.session.person!.second_factor) this.#byCode(code ?? '');
      return { secret: 'GEZDGNBVGY3TQOJQGEZDGNBVGY3TQOJQ', link: 'otpauth://totp/invented', qr: SCANNED };
    },
    'confirm-second-factor': ({ code }) => {
      this.#byCode(code);
      this.own = this.own.filter((one) => one.here);
      return this.#second(true);
    },
    'drop-second-factor': ({ password, code }) => {
      this.#byPassword(password);
      this.#byCode(code);
      return this.#second(false);
    },
    'own-sessions': () => this.own,
    'end-own-sessions': ({ id, password }) => {
      this.#byPassword(password);
      return (this.own = this.own.filter((one) => one.here || (id !== undefined && one.id !== id)));
    },
    'lift-second-factor': ({ id }) => {
      this.people = this.people.map((one) => (one.id === id ? { ...one, second_factor: false } : one));
    },
    'demand-second-factor': (wish) => {
      if (!wish.demanded) {
        this.#byPassword(wish.password);
        if (this.session.person!.second_factor) this.#byCode(wish.code ?? '');
      }
      this.demanded = wish.demanded;
      this.refresh();
    },
    'who-sees': ({ survey }) => (this.#here(survey), this.#seen()),
    'close-house': ({ survey }) => {
      this.#here(survey);
      this.closed ??= [];
      return this.#seen();
    },
    'let-see': ({ survey, id, sees }) => {
      this.#here(survey);
      this.closed = this.closed && [...this.closed.filter((one) => one !== id), ...(sees ? [id] : [])];
      return this.#seen();
    },
    'open-house': ({ survey }) => {
      this.#here(survey);
      this.closed = null;
      return this.#seen();
    },
    people: () => [...this.people],
    'add-person': ({ name, role, password }) => {
      if (this.people.some((one) => one.name === name)) throw new HostError('conflict', this.said(`Somebody here is called “${name}” already.`));
      this.lines.unshift({ n: this.lines.length + 1, at: NOW, who: this.session.person!.name, what: 'person-added', about: name, address: null });
      const person = this.person(name, role, password);
      this.firsts.add(person.id);
      return person;
    },
    'set-role': ({ id, role }) => {
      this.people = this.people.map((one) => (one.id === id ? { ...one, role } : one));
    },
    unlock: ({ id }) => {
      this.people = this.people.map((one) => (one.id === id ? { ...one, locked: false } : one));
    },
    'end-sessions': () => null,
    'remove-person': ({ id }) => {
      this.people = this.people.filter((one) => one.id !== id);
    },
    audit: ({ before }) => this.lines.filter((line) => before === undefined || line.n < before).slice(0, 6),
    inbox: () => {
      const entered = this.rows.filter((row) => row.finding !== null).length;
      const packets = this.packets.map((one) => (one.survey === this.findings.survey && one.judged ? { ...one, entered } : one));
      return { packets, houses: new Set(packets.map((one) => one.survey)).size, refused: this.refused.slice(0, 5), refusedInAll: this.refused.length };
    },
    house: ({ survey, packet }) => {
      this.#here(survey);
      const house = this.recorded.house;
      if (packet !== undefined && !house.packets.some((one) => one.packet === packet)) throw new HostError('missing', this.said('There is no such packet here.'), null);
      return { ...house, closed: this.closed !== null, packet: packet ?? house.packets[0]?.packet ?? house.packet };
    },
    findings: ({ survey }) => (this.#here(survey), structuredClone(this.findings)),
    'enter-finding': (finding) => this.#enter(finding),
    'enter-other-finding': (finding) => this.#enterOther(finding),
    comparison: ({ survey }) => (this.#here(survey), this.unopened ? this.recorded.unopened : this.recorded.compared),
    tablets: () => [...this.tablets],
    // What a code looks like, and no code: it holds nothing to be read.
    'invite-tablet': () => ({ link: `underlath-office:office.hale.example:8443#${'9a41c07be2aa5d10'.repeat(4)}`, qr: { size: 29, path: squares(29) }, until: '2026-06-10T10:30:00-04:00' }),
    'revoke-tablet': ({ id }) => (this.tablets = this.tablets.map((one) => (one.id === id ? { ...one, revokedAt: NOW } : one))),
    arriving: () => [...this.arriving],
    track: ({ by, include_seen }) => {
      const told = this.few ? this.recorded.small : this.recorded.track;
      return { ...told, by: by === 'all' ? null : by, overlap: by === 'scope' || by === 'surveyor', withSeen: include_seen };
    },
    learning: () => structuredClone(this.learning),
    'accept-learning': ({ lines }) => {
      const here = this.learning.lines.filter((line) => lines.includes(line.id));
      if (here.length !== lines.length) throw new HostError('missing', this.said('There is no such proposed line.'));
      const known = this.learning.known + this.learning.houses.length;
      this.learning = { ...this.learning, state: 'none', lines: [], known, decided: [...here.map((line) => this.#decided(line.id, true, '')), ...this.learning.decided] };
      this.learning.catalog = '9d41c07be2aa';
      this.published.differs = true;
      return { lines, houses: known, catalog: '9d41c07be2aa' };
    },
    'refuse-learning': ({ line, why }) => {
      const decided = this.#decided(line, false, why);
      this.learning.lines = this.learning.lines.map((one) => (one.id === line ? { ...one, decided } : one));
      this.learning.decided = [decided, ...this.learning.decided];
      return structuredClone(this.learning);
    },
    published: () => structuredClone(this.published),
    'publish-catalog': () => {
      if (!this.published.differs) throw new HostError('conflict', this.said('Nothing changed since it was published.'));
      const last = { number: (this.published.last?.number ?? 0) + 1, at: NOW, by: this.session.person!.name, houses: this.learning.known, catalog: this.learning.catalog };
      return structuredClone((this.published = { last, differs: false }));
    },
  };

  #here(survey: string) {
    if (survey !== this.findings.survey) throw new HostError('missing', this.said(`The office has no house “${survey}”.`), null);
  }

  #decided(id: string, accepted: boolean, why: string) {
    const line = this.learning.lines.find((one) => one.id === id);
    return { line: id, name: `${line?.condition}: ${line?.what}`, accepted, why, by: this.session.person?.name ?? '', at: NOW };
  }

  #enter(finding: NewFinding): FindingRowView {
    this.#here(finding.survey);
    const row = this.rows.find((one) => one.key === finding.condition);
    if (!row) throw new HostError('input', `“${finding.condition}” is no condition of the catalog`);
    row.earlier += row.finding ? 1 : 0;
    row.finding = this.#found(finding);
    return structuredClone(row);
  }

  #enterOther(finding: NewFinding): OtherRowView {
    this.#here(finding.survey);
    const key = finding.condition;
    if (this.rows.some((one) => one.key === key)) throw new HostError('input', this.said(`The forecast of this house holds “${key}”.`));
    const { others, choices } = this.findings;
    const before = others.find((one) => one.key === key);
    const known = before ?? choices.find((one) => one.key === key);
    if (!known) throw new HostError('input', this.said(`“${key}” is no condition of the catalog`));
    const row: OtherRowView = { key, name: known.name, place: known.place, finding: this.#found(finding), earlier: before ? before.earlier + 1 : 0 };
    this.findings.others = before ? others.map((one) => (one.key === key ? row : one)) : [...others, row];
    this.findings.choices = choices.filter((one) => one.key !== key);
    return structuredClone(row);
  }

  #found(finding: NewFinding): FoundView {
    return {
      outcome: finding.outcome,
      costCents: finding.cost_cents ?? 0,
      daysTenths: finding.days_tenths ?? 0,
      borne: finding.paid_by ?? (finding.in_price ? 'in-price' : 'not-said'),
      note: finding.note ?? '',
      photo: finding.photo ?? null,
      by: this.session.person?.name ?? '',
      at: NOW,
    };
  }
}

function squares(size: number): string {
  let path = '';
  for (let y = 4; y < size - 4; y += 1) for (let x = 4; x < size - 4; x += 1) if ((x * 7 + y * 11 + x * y) % 5 < 2) path += `M${x} ${y}h1v1h-1z`;
  return path;
}
