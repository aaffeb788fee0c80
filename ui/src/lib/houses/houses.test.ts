import { describe, expect, it } from 'vitest';
import { houses as kept } from '../../../e2e/page/sample';
import { MemoryHost } from '../host/memory';
import { Words } from '../words/words';
import { FIRST, Houses } from './houses.svelte';

const words = new Words('en');

async function read(host: MemoryHost) {
  const houses = new Houses(host);
  await houses.read();
  return houses;
}

describe('the list of houses', () => {
  it('is_headed_by_how_many_there_are', async () => {
    expect((await read(new MemoryHost(kept))).heading(words)).toBe('3 houses on this device');
    expect((await read(new MemoryHost(kept.slice(0, 1)))).heading(words)).toBe('One house on this device');
    expect((await read(new MemoryHost([]))).heading(words)).toBe('No house on this device yet');
  });

  it('of_years_are_there_a_few_rows_at_a_time_and_all_of_them_in_the_end', async () => {
    const many = Array.from({ length: 200 }, (_, n) => ({ ...kept[0]!, survey: `house-${n}`, label: `House ${n}` }));
    const houses = await read(new MemoryHost(many));
    expect([houses.others.length, houses.coming]).toEqual([FIRST, true]);
    while (houses.coming) houses.next();
    expect(houses.others.map((card) => card.survey)).toEqual(many.slice(1).map((card) => card.survey));
    const few = await read(new MemoryHost(kept));
    expect([few.others.length, few.coming]).toEqual([2, false]);
  });

  it('has_no_amount_for_a_house_that_was_not_assessed', async () => {
    const cards = (await read(new MemoryHost(kept))).value!;
    expect(cards.find((card) => card.label === 'Tanner Row bath')!.moneyP80Cents).toBeNull();
    expect(cards.find((card) => card.label === 'Alder Street kitchen')!.moneyP80Cents).toBe(790000);
  });
});
