// The people of the office, for its owners, and what was done.
import { HostError } from '../../lib/host/host';
import { Acting } from '../../lib/acting.svelte';
import type { AuditLine, OfficeHost, Person, Role } from '../host/host';

export class People extends Acting<Person[]> {
  /** The latest first, as far as they were asked for. */
  lines = $state.raw<AuditLine[]>([]);
  /** There are no earlier ones. */
  all = $state(false);
  /** Whom it was asked to remove, until that is confirmed. */
  leaving = $state<string | null>(null);

  constructor(readonly host: OfficeHost) {
    super(() => host.ask('people', {}));
  }

  add(name: string, role: Role, password: string): Promise<boolean> {
    return this.#act(() => this.host.ask('add-person', { name, role, password }));
  }

  setRole(id: string, role: Role): Promise<boolean> {
    return this.#act(() => this.host.ask('set-role', { id, role }));
  }

  unlock(id: string): Promise<boolean> {
    return this.#act(() => this.host.ask('unlock', { id }));
  }

  endSessions(id: string): Promise<boolean> {
    return this.#act(() => this.host.ask('end-sessions', { id }));
  }

  liftSecond(id: string): Promise<boolean> {
    return this.#act(() => this.host.ask('lift-second-factor', { id }));
  }

  demandSecond(): Promise<boolean> {
    return this.#act(() => this.host.ask('demand-second-factor', { demanded: true }));
  }

  /** By the owner's own password, and a code where they have a second factor. */
  leaveSecondFree(password: string, code?: string): Promise<boolean> {
    return this.#act(() => this.host.ask('demand-second-factor', { demanded: false, password, ...(code === undefined ? {} : { code }) }));
  }

  async remove(id: string): Promise<boolean> {
    const done = await this.#act(() => this.host.ask('remove-person', { id }));
    this.leaving = null;
    return done;
  }

  /** The next lines further back. */
  async earlier(): Promise<void> {
    try {
      const before = this.lines.at(-1)?.n;
      const more = await this.host.ask('audit', before === undefined ? {} : { before });
      this.lines = [...this.lines, ...more];
      this.all = more.length === 0 || more.at(-1)!.n <= 1;
    } catch (thrown) {
      this.refused = HostError.from(thrown);
    }
  }

  #act(act: () => Promise<unknown>): Promise<boolean> {
    return this.act(async () => {
      await act();
      await this.read();
      this.lines = [];
      await this.earlier();
    });
  }
}
