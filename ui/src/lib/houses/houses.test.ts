import { describe, expect, it } from 'vitest';
import { houses as kept } from '../../../e2e/page/sample';
import { MemoryHost } from '../host/memory';
import { Words } from '../words/words';
import { Houses } from './houses.svelte';

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

  it('has_no_amount_for_a_house_that_was_not_assessed', async () => {
    const cards = (await read(new MemoryHost(kept))).value!;
    expect(cards.find((card) => card.label === 'Tanner Row bath')!.moneyP80Cents).toBeNull();
    expect(cards.find((card) => card.label === 'Alder Street kitchen')!.moneyP80Cents).toBe(790000);
  });
});
