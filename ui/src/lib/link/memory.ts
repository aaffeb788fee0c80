// The line to the office held in memory: for tests and for looking at the screens. Never part of the program.
import type { LinkedOffice, OfficeLink, Pairing, Sending, TakenView, VersionView } from '../bindings/views';
import { HostError } from '../host/host';

const NOW = '2026-03-03T16:20:00-05:00';
const FINGERPRINT = '9A41C07BE2AA5D10F2386C1190D7EE045B7A12C93F60AB84D1175E2906CC4BF3';

export class MemoryLine {
  office: LinkedOffice | null = null;
  /** The catalog that was taken, the one the office has for the next that asks, and why the last was not taken. */
  catalog: TakenView | null = null;
  published: VersionView | null = null;
  notTaken: string | null = null;
  sendings: Sending[] = [];
  /** A packet being sent gets no further than this share of it. */
  stands: number | null = null;
  /** What the program itself would say, in the language shown. */
  said = (text: string) => text;

  paired(device = 'Tablet 2') {
    this.office = { firm: 'Hale & Daughter', address: 'office.hale.example:8443', fingerprint: FINGERPRINT, device, since: NOW };
  }

  read(link: string): Pairing {
    if (!link.startsWith('underlath-office:')) throw new HostError('input', this.said('This is no link of an office.'), this.said('Copy it whole from the office’s screen.'));
    return { link, firm: 'Hale & Daughter', address: 'office.hale.example:8443', fingerprint: FINGERPRINT };
  }

  pair(link: string, name: string) {
    if (link.endsWith('used')) throw new HostError('conflict', this.said('This code was used already.'), this.said('Have the office invite this tablet again.'));
    this.paired(name);
    return this.newest();
  }

  link(): OfficeLink {
    return { office: this.office, catalog: this.catalog, notTaken: this.notTaken };
  }

  newest(): OfficeLink {
    if (!this.office) throw new HostError('missing', this.said('This tablet is paired with no office.'));
    if (this.published) this.catalog = { version: this.published, since: NOW, unused: null };
    [this.published, this.notTaken] = [null, null];
    return this.link();
  }

  send(survey: string, packet: string): Sending[] {
    if (!this.office) throw new HostError('conflict', this.said('This tablet is paired with no office.'));
    if (!this.sendings.some((one) => one.packet === packet)) this.sendings = [{ packet, survey, bytes: 31_400_000, sent: 0, state: 'going', said: null, at: NOW }, ...this.sendings];
    return this.sending();
  }

  /** Each time it is looked at a third more has gone. */
  sending(): Sending[] {
    this.sendings = this.sendings.map((one) => {
      if (one.state !== 'going') return one;
      const sent = Math.round(this.stands === null ? Math.min(one.bytes, one.sent + one.bytes / 3) : one.bytes * this.stands);
      return sent < one.bytes ? { ...one, sent } : { ...one, sent, state: 'acknowledged', said: null };
    });
    return this.sendings;
  }
}
