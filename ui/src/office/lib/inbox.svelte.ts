// The packets as they came, and handing more in.
import type { ArrivalView, InboxView } from '../../lib/bindings/views';
import { HostError } from '../../lib/host/host';
import { Reading } from '../../lib/reading.svelte';
import type { Words } from '../../lib/words/words';
import type { OfficeHost } from '../host/host';

/** A file that was handed in here, and what became of it. */
export interface Handed {
  name: string;
  came: ArrivalView | null;
  refused: HostError | null;
}

/** The packets that came on one day, by the clock of the office. */
export interface Day {
  /** Like 2026-03-03. */
  day: string;
  packets: ArrivalView[];
}

export class Inbox extends Reading<InboxView> {
  /** The file under way; of it so much, in bytes; and how many wait. */
  going = $state.raw<{ name: string; sent: number; of: number; left: number } | null>(null);
  /** The latest first. */
  handed = $state.raw<Handed[]>([]);

  constructor(readonly host: OfficeHost) {
    super(() => host.ask('inbox', {}));
  }

  get days(): Day[] {
    const days: Day[] = [];
    for (const one of this.value?.packets ?? []) {
      const day = one.receivedAt.slice(0, 10);
      if (days.at(-1)?.day === day) days.at(-1)!.packets.push(one);
      else days.push({ day, packets: [one] });
    }
    return days;
  }

  /** Packets that somebody should look at: not to be opened, or sealed by a key nobody vouches for. */
  get wanting(): number {
    return (this.value?.packets ?? []).filter((one) => one.trouble !== null || !one.certified).length;
  }

  heading(words: Words): string {
    if (!this.value) return words.say(this.trouble ? 'failed-heading' : 'reading');
    return words.say('inbox-heading', { n: this.value.packets.length, wanting: this.wanting });
  }

  /** Hands files in, one after the other; one that is refused keeps none out. */
  async hand(files: File[]): Promise<void> {
    if (this.going) return;
    for (const [i, file] of files.entries()) {
      const left = files.length - i - 1;
      this.going = { name: file.name, sent: 0, of: file.size, left };
      let one: Handed;
      try {
        const came = await this.host.sendPacket(file, (sent, of) => (this.going = { name: file.name, sent, of, left }));
        one = { name: file.name, came, refused: null };
      } catch (thrown) {
        one = { name: file.name, came: null, refused: HostError.from(thrown) };
      }
      this.handed = [one, ...this.handed];
      await this.read();
    }
    this.going = null;
  }
}

/** Minutes after midnight, by the clock that wrote the time. */
export function minuteOf(rfc3339: string): number {
  const [, hour, minute] = /T(\d\d):(\d\d)/.exec(rfc3339) ?? [];
  return Number(hour ?? 0) * 60 + Number(minute ?? 0);
}

/** The hours a day's tape shows: from the whole hour before the first packet to the one after the last, three at least. */
export function hoursOf(packets: readonly ArrivalView[]): { from: number; to: number } {
  const minutes = packets.map((one) => minuteOf(one.receivedAt));
  const from = Math.max(0, Math.floor(Math.min(...minutes) / 60));
  const to = Math.min(24, Math.max(Math.floor(Math.max(...minutes) / 60) + 1, from + 3));
  return { from: Math.min(from, to - 3), to };
}
