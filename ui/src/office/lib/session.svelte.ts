// Who is signed in here: setting the office up, signing in and out, a password changed.
import { HostError } from '../../lib/host/host';
import { Reading } from '../../lib/reading.svelte';
import { ROLES, type OfficeHost, type OwnSession, type Role, type Session as Held, type ToBring } from '../host/host';
import { words } from '../words';

/** Fewest letters of a password, as the program has it; said before it is sent, held after. */
export const FEWEST_LETTERS = 15;

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
    this.codeWanted = this.refused?.kind === 'code';
    return done;
  }

  /** Another name or password than the one that was right. */
  anew() {
    if (this.codeWanted) [this.codeWanted, this.refused] = [false, null];
  }

  beginSecond(password: string): Promise<boolean> {
    return this.#act(async () => {
      this.bring = await this.host.ask('begin-second-factor', { password });
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
      await this.read();
    });
  }

  changePassword(old: string, next: string, again: string): Promise<boolean> {
    if (next !== again) return this.#no('password-differs');
    return this.#act(async () => {
      this.value = await this.host.ask('change-password', { old, new: next });
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

  /** The program says that nobody is signed in here any more. */
  ended() {
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
      return true;
    } catch (thrown) {
      this.refused = HostError.from(thrown);
      return false;
    } finally {
      this.busy = false;
    }
  }
}
