// Who is signed in here: setting the office up, signing in and out, a password changed.
import { HostError } from '../../lib/host/host';
import { Reading } from '../../lib/reading.svelte';
import { ROLES, type OfficeHost, type OwnSession, type Role, type Session as Held, type ToBring } from '../host/host';
import { words } from '../words';

/** Fewest letters of a password, as the program has it; said before it is sent, held after. */
export const FEWEST_LETTERS = 15;

/** How long the program waits for the first code of a second factor. */
const WAITS_MS = 10 * 60 * 1000;
/** Later than the program ends it, so that the question does not keep it. */
const LATER_MS = 5000;

export class Session extends Reading<Held> {
  refused = $state.raw<HostError | null>(null);
  busy = $state(false);
  /** What was done just now: a message. */
  done = $state<string | null>(null);
  /** The password was right, and the code of a second factor is asked for. */
  codeWanted = $state(false);
  /** A second factor that is being set up. */
  bring = $state.raw<ToBring | null>(null);
  /** The browsers in which they are signed in, once asked for. */
  own = $state.raw<OwnSession[] | null>(null);

  constructor(readonly host: OfficeHost) {
    super(() => host.ask('session', {}));
  }

  get person() {
    return this.value?.person ?? null;
  }

  /** True when whoever is signed in has at least this role. */
  may(role: Role): boolean {
    return this.person !== null && ROLES.indexOf(this.person.role) >= ROLES.indexOf(role);
  }

  setUp(token: string, firm: string, name: string, password: string, again: string): Promise<boolean> {
    if (password !== again) return this.#no('password-differs');
    return this.#act(async () => {
      this.value = await this.host.ask('set-up', { token, firm, name, password });
    });
  }

  async signIn(name: string, password: string, code = ''): Promise<boolean> {
    const done = await this.#act(async () => {
      this.value = await this.host.ask('sign-in', { name, password, ...(this.codeWanted ? { code } : {}) });
    });
    // Whoever must wait has shown the password; whatever else is refused begins with it again.
    if (done || this.refused?.kind === 'input') this.codeWanted = false;
    if (this.refused?.kind === 'code') this.codeWanted = true;
    if (done) this.#forget();
    return done;
  }

  /** Another name or password than the one that was right. */
  anew() {
    if (this.codeWanted) [this.codeWanted, this.refused] = [false, null];
  }

  /** By the password, and where they have a second factor already by a code of that. */
  beginSecond(password: string, code = ''): Promise<boolean> {
    const by = this.person?.second_factor ? { password, code } : { password };
    return this.#act(async () => {
      this.bring = await this.host.ask('begin-second-factor', by);
      clearTimeout(this.#waits);
      this.#waits = setTimeout(() => (this.bring = null), WAITS_MS);
    });
  }

  async confirmSecond(code: string): Promise<boolean> {
    const done = await this.#act(async () => {
      this.value = await this.host.ask('confirm-second-factor', { code });
      this.bring = null;
      this.done = 'second-set';
      await this.#sessions();
    });
    // It waited too long, or too many codes were wrong: only beginning again helps.
    if (this.refused?.kind === 'conflict') this.bring = null;
    return done;
  }

  dropSecond(password: string, code: string): Promise<boolean> {
    return this.#act(async () => {
      this.value = await this.host.ask('drop-second-factor', { password, code });
      this.done = 'second-dropped';
    });
  }

  /** Asks where they are signed in. */
  readOwn(): Promise<boolean> {
    return this.#act(() => this.#sessions());
  }

  /** Ends one of their other sessions, or all of them. */
  endOwn(password: string, id?: string): Promise<boolean> {
    return this.#act(async () => {
      this.own = await this.host.ask('end-own-sessions', { password, ...(id === undefined ? {} : { id }) });
      this.done = 'sessions-ended';
    });
  }

  async #sessions() {
    this.own = await this.host.ask('own-sessions', {});
  }

  signOut(): Promise<boolean> {
    return this.#act(async () => {
      await this.host.ask('sign-out', {});
      this.#forget();
      await this.read();
    });
  }

  /** By the old password, and where they have a second factor by a code of it. */
  changePassword(old: string, next: string, again: string, code = ''): Promise<boolean> {
    if (next !== again) return this.#no('password-differs');
    const by = this.person?.second_factor ? { old, code } : { old };
    return this.#act(async () => {
      this.value = await this.host.ask('change-password', { ...by, new: next });
      if (!this.person?.second_wanted) await this.#sessions();
      this.done = 'password-changed';
    });
  }

  /** Asked again once a session that nobody used must have ended, so that its last screen does not stand there. */
  #sleeps: ReturnType<typeof setTimeout> | undefined;

  /** Something was asked: from now on it may be left for as long as the program says. */
  used() {
    clearTimeout(this.#sleeps);
    const idle = this.person?.idle_ms;
    if (idle !== undefined) this.#sleeps = setTimeout(() => void this.read(), idle + LATER_MS);
  }

  #waits: ReturnType<typeof setTimeout> | undefined;

  /** What belongs to one person is not shown to the next at the same browser. */
  #forget() {
    clearTimeout(this.#waits);
    [this.bring, this.own, this.done, this.codeWanted] = [null, null, null, false];
  }

  /** Who it was last; not watched, so that whoever reads this again when it changes does not read it for ever. */
  #whose: string | undefined;

  override async read(): Promise<void> {
    await super.read();
    if (this.person?.id !== this.#whose) this.#forget();
    this.#whose = this.person?.id;
  }

  /** The program says that nobody is signed in here any more. */
  ended() {
    this.#forget();
    if (this.value) this.value = { ...this.value, person: null };
  }

  async #no(why: string): Promise<boolean> {
    this.refused = new HostError('input', words.say(why));
    return false;
  }

  async #act(act: () => Promise<void>): Promise<boolean> {
    if (this.busy) return false;
    this.busy = true;
    this.refused = null;
    this.done = null;
    try {
      await act();
      this.#whose = this.person?.id;
      return true;
    } catch (thrown) {
      this.refused = HostError.from(thrown);
      if (this.refused.kind === 'signed-out') this.ended();
      return false;
    } finally {
      this.busy = false;
    }
  }
}
