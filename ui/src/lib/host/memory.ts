// Houses held in memory: for tests and for looking at the screens in a browser. Never part of the program.
import type { HouseCard, HouseView, RowView } from '../bindings/views';
import { HostError, type Host } from './host';

export class MemoryHost implements Host {
  /** What the next question is refused with, to see how a screen says it. */
  refusal: HostError | null = null;

  constructor(public kept: HouseView[]) {}

  async houses(): Promise<HouseCard[]> {
    if (this.refusal) throw this.refusal;
    return this.kept.map(card).sort((a, b) => b.lastTouched.localeCompare(a.lastTouched));
  }

  async house(survey: string): Promise<HouseView> {
    if (this.refusal) throw this.refusal;
    const found = this.kept.find((house) => house.survey === survey);
    if (!found) throw new HostError('missing', `No house "${survey}" on this device.`, 'Look at the list of houses.');
    return found;
  }
}

function card(house: HouseView): HouseCard {
  const rows: RowView[] = house.stations.flatMap((station) => station.rows);
  const times = rows.flatMap((row) => [row.at, ...row.rivals.map((rival) => rival.at)]).filter((at) => at !== null);
  return {
    survey: house.survey,
    label: house.label,
    lastTouched: times.sort().at(-1) ?? '',
    answered: rows.filter((row) => row.kind !== 'open').length,
    wanted: rows.length,
    photos: house.photos,
    moneyP80Cents: house.assessment?.money.p80Cents ?? null,
  };
}
