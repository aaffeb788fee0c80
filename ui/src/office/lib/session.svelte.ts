// Who is signed in here: setting the office up, signing in and out, a password changed.
import { HostError } from '../../lib/host/host';
import { Reading } from '../../lib/reading.svelte';
import { ROLES, type OfficeHost, type Role, type Session as Held } from '../host/host';
import { words } from '../words';

/** Fewest letters of a password, as the program has it; said before it is sent, held after. */
export const FEWEST_LETTERS = 15;

/** Later than the program ends it, so that the question does not keep it. */
const LATER_MS = 5000;

export class Session extends Reading<Held> {
  refused = $state.raw<HostError | null>(null);
  busy = $state(false);
  /** The password was changed just now. */
  changed = $state(false);

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

  signIn(name: string, password: string): Promise<boolean> {
    return this.#act(async () => {
      this.value = await this.host.ask('sign-in', { name, password });
    });
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
      this.changed = true;
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
    this.changed = false;
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
