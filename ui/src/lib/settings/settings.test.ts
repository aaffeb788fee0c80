import { describe, expect, it } from 'vitest';
import { houses } from '../../../e2e/page/sample';
import { MemoryHost } from '../host/memory';
import { Settings } from './settings.svelte';

async function read() {
  const settings = new Settings(new MemoryHost([...houses]));
  await settings.read();
  return settings;
}

describe('the settings of a device', () => {
  it('are_kept_one_by_one_as_they_are_touched', async () => {
    const settings = await read();
    expect([settings.value!.metric, settings.value!.light]).toEqual([false, null]);
    expect(await settings.set('unit', 'mm')).toBe(true);
    expect(await settings.set('light', 'dark')).toBe(true);
    expect(await settings.set('codes-plumbing', 'upc-2012')).toBe(true);
    expect([settings.value!.metric, settings.value!.light, settings.value!.codes[0]!.chosen]).toEqual([true, 'dark', 'upc-2012']);
    await settings.set('light', '');
    expect(settings.value!.light).toBeNull();
  });

  it('stay_as_they_were_where_a_value_is_refused', async () => {
    const settings = await read();
    await settings.set('firm', 'Hale & Daughter');
    expect(await settings.set('firm', 'x'.repeat(90))).toBe(false);
    expect([settings.value!.firm, settings.refused?.kind]).toEqual(['Hale & Daughter', 'input']);
    await settings.set('by', 'Ines Okafor');
    expect(settings.refused).toBeNull();
  });
});
