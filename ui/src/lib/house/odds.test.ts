import { describe, expect, it } from 'vitest';
import { houses } from '../../../e2e/page/sample';
import { HostError } from '../host/host';
import { MemoryHost } from '../host/memory';
import { Words } from '../words/words';
import { OddsNow } from './odds.svelte';

const words = new Words('en');
const of = (survey: string, host = new MemoryHost([...houses])) => new OddsNow(host, survey);

describe('the odds of a house', () => {
  it('are_worked_out_as_the_answers_stand_and_say_what_to_carry', async () => {
    const host = new MemoryHost([...houses]);
    const odds = of('0195-alder-street', host);
    expect(odds.heading(words)).toBe('Working out odds, money and days…');
    await odds.read();
    expect(odds.heading(words)).toBe('Carry $7,900 for the unknown to be right 8 times in 10');
    expect(host.asked).not.toContain('assess');
  });

  it('are_there_before_it_is_known_which_answers_moved_them', async () => {
    const host = new MemoryHost([...houses]);
    host.slow = true;
    const odds = of('0195-alder-street', host);
    void odds.read();
    await new Promise((done) => setTimeout(done));
    expect(odds.value?.whole).toBe(false);
    expect(odds.assessment?.conditions.every((one) => one.path.length === 0)).toBe(true);
    expect(odds.heading(words)).toContain('$7,900');
    expect(host.asked).toEqual(['odds-now', 'odds-why']);
  });

  it('are_none_where_the_answers_do_not_go_together_and_say_so', async () => {
    const odds = of('0195-tanner-row');
    await odds.read();
    expect(odds.assessment).toBeNull();
    expect(odds.heading(words)).toBe('The answers do not go together');
    expect(odds.value?.trouble).toContain('cannot all be true');
  });

  it('stay_on_the_screen_when_they_cannot_be_worked_out_again', async () => {
    const host = new MemoryHost([...houses]);
    const odds = of('0195-alder-street', host);
    await odds.read();
    host.refusal = new HostError('damaged', 'No.');
    await odds.read();
    expect(odds.assessment).not.toBeNull();
    expect(odds.trouble?.message).toBe('No.');
  });
});
