import { describe, expect, it } from 'vitest';
import recorded from '../../../e2e/page/fits.json';
import { houses } from '../../../e2e/page/sample';
import { MemoryHost } from '../host/memory';
import type { RecordedFits } from '../host/recorded';
import { Words } from '../words/words';
import { Fit, Fits } from './fits.svelte';

const words = new Words('en');
const alder = '0195-alder-street';
const fits = recorded as unknown as RecordedFits;

function host() {
  return new MemoryHost(houses, null, fits);
}

async function read(key: string) {
  const fit = new Fit(host(), alder, key);
  await fit.read();
  return fit;
}

describe('the calculations of a house', () => {
  it('say_how_many_lie_beyond_a_table_value_and_how_many_cannot_be_said', async () => {
    const list = new Fits(host(), alder);
    expect(list.heading(words)).toBe('Reading the record…');
    await list.read();
    const standing = (kind: string) => list.rows.filter((one) => one.standing === kind).length;
    expect(standing('beyond') + standing('near')).toBeGreaterThan(0);
    expect(list.heading(words)).toMatch(/lies? at or beyond a table value/);
    expect(list.rows.find((one) => one.key === 'stud-hole')).toMatchObject({ standing: null, fromWalk: false });
  });

  it('say_that_nothing_was_measured_where_nothing_was', async () => {
    const none = { ...fits, list: { ...fits.list, trades: fits.list.trades.map((trade) => ({ ...trade, fits: trade.fits.map((one) => ({ ...one, standing: null })) })) } };
    const list = new Fits(new MemoryHost(houses, null, none), alder);
    await list.read();
    expect(list.heading(words)).toBe('Nothing has been measured that a calculation could use');
  });
});

describe('one calculation', () => {
  it('says_its_result_what_it_was_read_from_and_what_is_missing', async () => {
    const fit = await read('sink-drain');
    expect(fit.heading(words)).toBe(fit.value!.result!.sentence);
    expect(fit.answered.map((one) => one.key)).toContain('stub-height');
    expect(fit.missing.map((one) => one.key)).toContain('counter-height');
  });

  it('says_what_it_would_answer_before_anything_was_given', async () => {
    const fit = await read('stud-hole');
    expect(fit.value!.result).toBeNull();
    expect(fit.heading(words)).toBe(fit.value!.about);
  });

  it('is_worked_out_from_what_is_on_the_screen_and_goes_back_to_the_walk', async () => {
    const fit = await read('sink-drain');
    const stub = fit.value!.fields.find((field) => field.name === 'stub-height')!;
    expect(fit.text(stub)).toBe(stub.given);
    expect(fit.touched).toBe(false);
    fit.type(stub, '12');
    expect(fit.text(stub)).toBe('12');
    await fit.work();
    expect(fit.value!.byHand).toBe(true);
    expect(fit.value!.fields.find((field) => field.name === 'stub-height')!.given).toBe('12');
    // What the walk gave and nobody touched goes along.
    expect(fit.value!.fields.find((field) => field.name === 'disposer-plan')!.given).toBe('yes');
    await fit.asWalked();
    expect(fit.value!.byHand).toBe(false);
    expect(fit.touched).toBe(false);
  });

  it('keeps_what_was_typed_when_it_is_refused', async () => {
    const fit = await read('sink-drain');
    const stub = fit.value!.fields.find((field) => field.name === 'stub-height')!;
    fit.type(stub, 'a foot or so');
    await fit.work();
    expect(fit.refused?.message).toContain('stub-height');
    expect(fit.text(stub)).toBe('a foot or so');
    expect(fit.value!.byHand).toBe(false);
    expect(fit.busy).toBe(false);
  });

  it('gives_each_line_of_rows_as_one_row', async () => {
    const fit = await read('openings');
    const hole = fit.value!.fields.find((field) => field.name === 'hole')!;
    fit.type(hole, 'plumbing, kitchen, wall, sink wall, 20, 10, 12, 14\n\nlook, kitchen, wall, sink wall, 60, 40, 8, 8');
    await fit.work();
    const given = fit.value!.fields.find((field) => field.name === 'hole')!.given;
    expect(given.split('\n')).toHaveLength(2);
  });
});
