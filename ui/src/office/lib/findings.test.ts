import { describe, expect, it } from 'vitest';
import recorded from '../../../e2e/page/office.json';
import { HostError } from '../../lib/host/host';
import { MemoryOffice } from '../host/memory';
import type { RecordedOffice } from '../host/recorded';
import { Findings, type Field } from './findings.svelte';

async function read(at: string | null = null) {
  const host = new MemoryOffice(recorded as unknown as RecordedOffice);
  host.person('W. Stroud', 'reviewer', 'a long enough one', true);
  const findings = new Findings(host, host.findings.survey, at);
  await findings.read();
  const focused: Field[] = [];
  const press = (key: string, shiftKey = false) => findings.key({ key, shiftKey }, (field) => focused.push(field));
  return { host, findings, press, focused };
}
const entries = (host: MemoryOffice) => host.asked.filter((name) => name === 'enter-finding').length;

describe('findings', () => {
  it('begin_at_the_first_row_of_the_first_stage_and_go_by_arrows_to_either_end', async () => {
    const { findings, press } = await read();
    const rows = findings.all;
    expect(rows.length).toBeGreaterThan(40);
    expect(findings.here).toBe(rows[0]!.key);
    await press('ArrowUp');
    expect(findings.here).toBe(rows[0]!.key);
    await press('ArrowDown');
    await press('ArrowDown');
    expect(findings.here).toBe(rows[2]!.key);
    await press('End');
    await press('ArrowDown');
    expect(findings.here).toBe(rows.at(-1)!.key);
    await press('Home');
    expect(findings.here).toBe(rows[0]!.key);
  });

  it('are_entered_by_one_letter_and_the_next_open_row_is_in_hand', async () => {
    const { host, findings, press } = await read();
    const open = findings.all.filter((row) => row.finding === null);
    findings.go(open[0]!.key);
    const before = findings.entered;
    await press('n');
    expect(host.rows.find((row) => row.key === open[0]!.key)!.finding!.outcome).toBe('not-there');
    expect([findings.entered, findings.here]).toEqual([before + 1, open[1]!.key]);
    expect(findings.said).toContain('not there');
    await press('O');
    expect(host.rows.find((row) => row.key === open[1]!.key)!.finding!.outcome).toBe('not-opened');
    expect(findings.here).toBe(open[2]!.key);
    expect(await press('q')).toBe(false);
    expect(entries(host)).toBe(2);
  });

  it('take_rows_along_with_shift_and_one_letter_is_for_all_of_them', async () => {
    const { host, findings, press } = await read();
    await press('l');
    const shown = findings.shown.map((row) => row.key);
    findings.go(shown[1]!);
    for (let n = 0; n < 3; n += 1) await press('ArrowDown', true);
    expect(findings.hand).toEqual(shown.slice(1, 5));
    expect(findings.said).toBe('4 rows taken along');
    await press('N');
    for (const key of shown.slice(1, 5)) expect(host.rows.find((row) => row.key === key)!.finding!.outcome).toBe('not-there');
    expect(findings.hand).toHaveLength(1);
    expect(entries(host)).toBe(4);
  });

  it('of_what_was_found_ask_for_cost_and_days_before_anything_is_kept', async () => {
    const { host, findings, press, focused } = await read();
    const key = findings.all.find((row) => row.finding === null)!.key;
    findings.go(key);
    await press('f');
    expect([focused, findings.open, entries(host)]).toEqual([['cost'], true, 0]);
    Object.assign(findings.draft!, { cost: '$1,480', days: '1 1/2', borne: 'change-order', note: ' behind the plate ' });
    expect(await findings.enter('found')).toBe(true);
    const kept = host.rows.find((row) => row.key === key)!.finding!;
    expect(kept).toMatchObject({ outcome: 'found', costCents: 148_000, daysTenths: 15, borne: 'change-order', note: 'behind the plate' });
    expect(findings.draft).toBeNull();
  });

  it('that_cannot_be_read_are_told_and_stay_in_hand', async () => {
    const { host, findings, press } = await read();
    await press('f');
    findings.draft!.cost = 'about 900';
    expect(await findings.enter('found')).toBe(false);
    expect(findings.refused?.message).toContain('about 900');
    findings.draft!.cost = '900';
    findings.draft!.days = 'a week';
    expect(await findings.enter('found')).toBe(false);
    expect([findings.draft!.cost, entries(host)]).toEqual(['900', 0]);
  });

  it('are_corrected_by_an_entry_more_from_what_stands', async () => {
    const { host, findings } = await read();
    const row = findings.all.find((one) => one.finding?.outcome === 'found' && one.finding.costCents > 0)!;
    findings.toggle(row.key);
    expect(findings.draft).toMatchObject({ note: row.finding!.note, cost: String(row.finding!.costCents / 100) });
    findings.draft!.cost = '5';
    await findings.enter('found');
    expect(host.rows.find((one) => one.key === row.key)).toMatchObject({ earlier: row.earlier + 1, finding: { costCents: 500 } });
    expect(findings.entered).toBe(findings.all.filter((one) => one.finding !== null).length);
  });

  it('keep_cost_days_and_payer_away_from_what_was_not_found', async () => {
    const { host, findings } = await read();
    const asked: unknown[] = [];
    const ask = host.ask.bind(host);
    host.ask = (name, args) => (name === 'enter-finding' && asked.push(args), ask(name, args));
    findings.toggle(findings.here!);
    findings.toggle(findings.here!);
    const key = findings.here!;
    findings.write();
    Object.assign(findings.draft!, { cost: '12', days: '1', borne: 'absorbed', note: 'dry' });
    await findings.enter('not-there');
    expect(asked).toEqual([{ survey: findings.survey, condition: key, outcome: 'not-there', note: 'dry' }]);
  });

  it('stop_at_the_first_that_is_refused_and_say_why', async () => {
    const { host, findings, press } = await read();
    const before = findings.here;
    host.refusal = new HostError('internal', 'The disk is full.', 'Make room.');
    await press('n');
    expect([findings.refused?.hint, findings.here, findings.said, findings.busy]).toEqual(['Make room.', before, 'The disk is full.', false]);
  });

  it('have_a_photograph_once_they_are_kept', async () => {
    const { host, findings } = await read();
    await findings.photo(new File(['x'], 'letter.txt'));
    expect(findings.refused?.hint).toBe('Choose a JPEG.');
    await findings.photo(new File(['x'], 'opened.jpg'));
    const { photo } = findings.draft!;
    const key = findings.here!;
    expect([findings.sending, entries(host)]).toEqual([null, 0]);
    await findings.enter('not-there');
    expect(host.rows.find((row) => row.key === key)!.finding!.photo).toBe(photo);
  });

  it('of_what_nobody_forecast_are_looked_up_written_and_stand_below_the_others', async () => {
    const { host, findings, press } = await read();
    expect(await press('e')).toBe(true);
    expect(findings.looking).toBe('');
    const wanted = findings.choices.at(-1)!;
    findings.looking = wanted.name.toUpperCase();
    expect(findings.choices.map((one) => one.key)).toContain(wanted.key);
    findings.choose(wanted);
    expect([findings.here, findings.open, findings.looking, findings.others.length]).toEqual([wanted.key, true, null, 1]);
    expect(findings.number(wanted.key)).toBe(findings.all.length + 1);
    // Nothing but that it was found can be said of it first.
    await press('n');
    expect(findings.others[0]!.finding).toBeNull();
    const before = findings.entered;
    Object.assign(findings.draft!, { cost: '640', days: '', borne: 'absorbed' });
    expect(await findings.enter('found')).toBe(true);
    expect(findings.others).toMatchObject([{ key: wanted.key, earlier: 0, finding: { outcome: 'found', costCents: 64_000, borne: 'absorbed' } }]);
    expect(findings.value!.choices.map((one) => one.key)).not.toContain(wanted.key);
    expect([findings.entered, entries(host), host.asked.at(-1)]).toEqual([before, 0, 'enter-other-finding']);
    await press('n');
    expect(findings.others).toMatchObject([{ earlier: 1, finding: { outcome: 'not-there' } }]);
  });

  it('of_something_else_are_dropped_unwritten_by_escape_and_never_taken_along', async () => {
    const { findings, press } = await read();
    findings.choose(findings.choices[0]!);
    await press('Escape');
    expect([findings.others, findings.draft, findings.open]).toEqual([[], null, false]);
    expect(findings.row).not.toBeNull();
    const last = findings.all.at(-1)!.key;
    findings.choose(findings.choices[0]!);
    await findings.enter('found');
    findings.go(last);
    await press('ArrowDown', true);
    expect(findings.hand).toEqual([last]);
  });

  it('open_at_the_condition_of_the_address', async () => {
    const { findings } = await read('bulkhead-duct');
    expect([findings.here, findings.open]).toEqual(['bulkhead-duct', true]);
  });
});
