// Packets and settings of the houses held in memory: for tests and for looking at the screens. Never part of the
// program.
import type { HouseholdPageView, PacketsView, PacketView, SealingView, SettingsView } from '../bindings/views';
import { HostError, type Setting } from './host';
import type { KeptHouse } from './memory';

const SUM = 'sha256:7d1e4c0b95a2f3866be0147a2c9d58f1034e6b7a8890cd2f11aa5e36c4d7b209';

export class Drawer {
  /** Entries recorded since the last packet of a house. */
  since = new Map<string, number>();
  /** True once a house is sealed that it is said to be at the disk's end. */
  full = false;
  /** A sealing that has written so many photographs goes no further. */
  stands = -1;
  readonly #packets = new Map<string, PacketView[]>();
  /** The sheets of the household's page, as SVG. */
  sheets: string[] = [];
  /** What is told of the certificate. */
  certificate: string | null = null;
  #going: { survey: string; sealing: SealingView } | null = null;
  #signedBy: string | null = null;
  readonly #set = new Map<Setting, string>();

  list(survey: string, house: KeptHouse): PacketsView {
    const packets = this.#packets.get(survey) ?? [];
    const recorded = house.stations.flatMap((station) => station.rows).length;
    return {
      survey,
      label: house.label,
      firm: this.#set.get('firm') || null,
      certificate: this.certificate,
      packets,
      since: this.since.get(survey) ?? (packets.length > 0 ? 0 : recorded),
      sealing: this.#going?.survey === survey ? this.#going.sealing : null,
    };
  }

  /** The last packet as the list of houses says it. */
  last(survey: string) {
    const number = this.#packets.get(survey)?.[0]?.number;
    return number === undefined ? null : { number, since: this.since.get(survey) ?? 0 };
  }

  begin(survey: string, house: KeptHouse, signs = false): SealingView {
    if (this.full) throw new HostError('internal', 'The disk is full.', 'Everything recorded before is kept.');
    this.#signedBy = null;
    this.#going = { survey, sealing: { photosWritten: 0, photos: house.photos, signs, packet: null } };
    return this.#going.sealing;
  }

  page(survey: string): HouseholdPageView {
    if (this.#going?.survey !== survey || !this.#going.sealing.signs) throw new HostError('conflict', 'There is no page to sign now.');
    return { language: 'en', pictures: this.sheets, texts: this.sheets.map((_, i) => `Sheet ${i + 1}.`), said: 'I have read this page. Signing it agrees to no price.', wide: 1000, high: 320 };
  }

  sign(survey: string, name: string): SealingView {
    if (this.#going?.survey !== survey) throw new HostError('conflict', 'There is no page to sign now.');
    if (!name.trim()) throw new HostError('input', 'The name is empty.', 'Type something.');
    this.#signedBy = name.trim();
    return (this.#going.sealing = { ...this.#going.sealing, signs: false });
  }

  on(survey: string): SealingView | Promise<SealingView> {
    if (this.#going?.survey !== survey) throw new HostError('missing', 'No packet of this house is being sealed.');
    const { photosWritten, photos } = this.#going.sealing;
    if (photosWritten === this.stands) return new Promise(() => {});
    if (photosWritten < photos) return (this.#going.sealing = { photosWritten: photosWritten + 1, photos, signs: false, packet: null });
    this.#going = null;
    const packet = this.seal(survey, photos);
    return { photosWritten, photos, signs: false, packet };
  }

  stop() {
    this.#going = null;
  }

  /** A packet more of a house. */
  seal(survey: string, photos: number): PacketView {
    const before = this.#packets.get(survey) ?? [];
    const number = before.length + 1;
    const name = `${survey.replace(/^0195-/, '')}-${number}.zip`;
    const packet: PacketView = {
      number, name, photos, path: `/tablet/underlath/packets/${name}`, there: true, digest: SUM,
      bytes: 31_400_000, files: 9 + photos, pages: true, sealedAt: '2026-03-03T16:45:00-05:00', signedBy: this.#signedBy,
    };
    this.#packets.set(survey, [packet, ...before]);
    this.since.set(survey, 0);
    return packet;
  }

  handOver(survey: string, number: number, pages: boolean): { path: string } {
    const packet = this.#packets.get(survey)?.find((one) => one.number === number);
    if (!packet) throw new HostError('missing', `No packet ${number} of this house was sealed on this device.`);
    return { path: `/tablet/Downloads/${pages ? packet.name.replace('.zip', '-pages') : packet.name}` };
  }

  settings(houses: number): SettingsView {
    const get = (setting: Setting) => this.#set.get(setting) || null;
    const books = (list: [string, string, string][]) => list.map(([id, title, document]) => ({ id, title, document }));
    return {
      firm: get('firm') ?? '',
      address: get('address') ?? '',
      by: get('by') ?? 'Rosa Lind',
      device: get('device') ?? '',
      deviceId: '0195-0a1b2c',
      key: 'kPrK_qmxVWaYVA9wwBF6Iuo3vVzz7TxHCTwXBygrS4k',
      keyState: 'certified by Hale & Daughter (no. 3), from Jan 5, 2026, 8:00 AM until Jan 5, 2028, 8:00 AM',
      language: get('language'),
      light: get('light'),
      metric: get('unit') === 'mm',
      tolerance: get('tolerance') ?? '1/8"',
      codes: [
        { family: 'plumbing', label: 'plumbing', fixed: false, chosen: get('codes-plumbing'), books: books([['ipc-2021', 'IPC/IRC', 'International Plumbing Code (IPC) and International Residential Code (IRC), 2021'], ['upc-2012', 'UPC 2012', 'Uniform Plumbing Code (UPC), 2012']]) },
        { family: 'gas', label: 'fuel gas', fixed: true, chosen: 'ifgc-2018', books: books([['ifgc-2018', 'IFGC 2018', 'International Fuel Gas Code (IFGC), 2018']]) },
      ],
      houses,
      photos: 34,
      folder: '/tablet/underlath',
      catalog: '1 (4fd1c0a7b2e9)',
      software: 'Underlath 0.1.0',
    };
  }

  set(setting: Setting, value: string) {
    if (value.length > 80) throw new HostError('input', 'That is too long.', 'Use at most 80 characters.');
    this.#set.set(setting, value);
  }
}
