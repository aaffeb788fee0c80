import { describe, expect, it } from 'vitest';
import recorded from '../../../e2e/page/recorded.json';
import { houses } from '../../../e2e/page/sample';
import { HostError, type Commands, type Host } from '../host/host';
import { MemoryHost } from '../host/memory';
import type { Recorded } from '../host/recorded';
import { Ticks } from './ticks.svelte';
import { Walk } from './walk.svelte';

const SURVEY = '0195-alder-street';
const memory = () => new MemoryHost([...houses], recorded as unknown as Recorded);

async function opened(host: Host = memory(), key?: string) {
  const walk = new Walk(host, SURVEY);
  await walk.open(key);
  return walk;
}

describe('the walk', () => {
  it('opens_at_the_first_open_card_and_a_tap_brings_the_next', async () => {
    const walk = await opened();
    const first = walk.card!;
    expect(first.key).toBe('planned-work');
    await walk.answer({ answer: [first.options[0]!.id] });
    expect(walk.card!.key).toBe(first.after);
    expect(walk.value!.answered).toBe(1);
    expect(walk.said).toBe(first.options[0]!.label);
  });

  it('opens_again_on_the_card_where_it_was_left', async () => {
    const host = memory();
    await opened(host, 'stub-height');
    expect((await opened(host)).card!.key).toBe('stub-height');
    expect(await host.ask('left', {})).toEqual({ survey: SURVEY });
  });

  it('takes_a_second_tap_before_the_answer_is_kept_for_none', async () => {
    const host = memory();
    const walk = await opened(host, 'sink-mount');
    const both = [walk.answer({ answer: ['drop-in'] }), walk.answer({ answer: ['undermount'] })];
    await Promise.all(both);
    expect(host.asked.filter((name) => name === 'answer')).toEqual(['answer']);
    expect(walk.card!.key).toBe('bowl-depth');
  });

  it('is_over_once_demolition_is_declared_until_that_is_withdrawn', async () => {
    const walk = await opened(memory(), 'sink-mount');
    await walk.answer({ answer: ['drop-in'] });
    await walk.declare('north wall');
    expect(walk.over).toMatchObject({ reason: 'north wall', canWithdraw: true });
    expect(walk.value!.undo).toBeNull();
    expect(walk.next!.looks).toEqual([]);
    const answered = walk.value!.answered;
    await walk.answer({ answer: ['undermount'] });
    expect(walk.trouble!.kind).toBe('conflict');
    expect(walk.refused).toBeNull();
    expect(walk.value!.answered).toBe(answered);
    await walk.withdraw('the wrong house');
    expect(walk.over).toBeNull();
    await walk.answer({ answer: ['undermount'] });
    expect(walk.trouble).toBeNull();
  });

  it('takes_the_last_act_back_and_shows_its_card', async () => {
    const walk = await opened(memory(), 'sink-mount');
    await walk.answer({ answer: ['drop-in'] });
    await walk.undo();
    expect(walk.card!.key).toBe('sink-mount');
    expect(walk.value!.answered).toBe(0);
    expect(walk.value!.undo).toBeNull();
  });

  it('names_a_place_takes_it_out_and_puts_it_back', async () => {
    const walk = await opened();
    const stop = () => walk.stops.find((one) => one.place === 'bulkhead');
    expect(stop()!.name).toBeNull();
    await walk.namePlace('bulkhead', 'Soffit over the range');
    expect(stop()!.name).toBe('Soffit over the range');
    await walk.takeOutPlace('bulkhead');
    expect(stop()).toBeUndefined();
    expect(walk.value!.takenOut.map((one) => one.label)).toEqual(['Soffit over the range']);
    await walk.addPlace('bulkhead', 'Soffit over the range');
    expect(stop()!.name).toBe('Soffit over the range');
    expect(walk.value!.takenOut).toEqual([]);
  });

  it('says_why_a_place_stays', async () => {
    const host = memory();
    const walk = await opened(host);
    host.refusal = new HostError('conflict', 'The first place stays.');
    await walk.takeOutPlace('bulkhead');
    expect(walk.trouble!.message).toBe('The first place stays.');
    expect(walk.busy).toBe(false);
  });

  it('walks_a_stop_earlier_or_later_and_keeps_the_card', async () => {
    const host = memory();
    const walk = await opened(host, 'sink-mount');
    const places = () => walk.stops.map((stop) => stop.place);
    const [first, second, third] = places();
    expect([walk.stops[0]!.later, walk.stops[1]!.earlier, walk.stops.at(-1)!.later]).toEqual([false, false, false]);
    await walk.moveStop(third!, 'earlier');
    expect(places().slice(0, 3)).toEqual([first, third, second]);
    expect(walk.card!.key).toBe('sink-mount');
    await walk.moveStop(third!, 'later');
    expect(places().slice(0, 3)).toEqual([first, second, third]);
    await walk.moveStop(first!, 'later');
    expect(walk.trouble!.kind).toBe('conflict');
    expect(places()[0]).toBe(first);
  });

  it('keeps_the_card_and_offers_to_keep_a_value_that_was_refused', async () => {
    const walk = await opened(memory(), 'year-built');
    await walk.answer({ answer: ['99999'] });
    expect(walk.card!.key).toBe('year-built');
    expect(walk.trouble!.hint).toBe('Measure again.');
    await walk.allTheSame();
    expect(walk.trouble).toBeNull();
    expect(walk.card!.key).not.toBe('year-built');
  });

  it('keeps_what_was_keyed_on_a_card_while_one_looks_elsewhere_and_lets_it_go_once_answered', async () => {
    const walk = await opened(memory(), 'stub-height');
    walk.pad(walk.card!).digit('9');
    await walk.open('sink-mount');
    await walk.open('stub-height');
    expect(walk.pad(walk.card!).text).toBe('9"');
    await walk.answer({ answer: ['9"'] });
    await walk.open('stub-height');
    expect(walk.pad(walk.card!).text).toBe('');
  });

  it('draws_one_division_for_each_question_and_the_caret_at_the_card', async () => {
    const walk = await opened(memory(), 'sink-mount');
    expect(walk.divisions.length).toBe(walk.value!.wanted);
    expect(walk.divisions.findIndex((one) => one.here)).toBe(walk.value!.position - 1);
  });

  it('weighs_between_taps_and_again_when_it_was_broken_off', async () => {
    const host = memory();
    let asked = 0;
    const slow: Host = {
      async ask<Name extends keyof Commands>(name: Name, args: Commands[Name][0]): Promise<Commands[Name][1]> {
        if (name === 'look-next' && asked++ === 0) return null as Commands[Name][1];
        return host.ask(name, args);
      },
      takePhoto: (photo) => host.takePhoto(photo),
      pairPhoto: () => Promise.reject(new Error('no line')),
      picture: (digest) => host.picture(digest),
      thumbnail: (digest) => host.thumbnail(digest),
    };
    const walk = new Walk(slow, SURVEY, 0);
    await walk.open('sink-mount');
    expect(asked).toBe(2);
    expect(walk.next!.looks.length).toBeGreaterThan(0);
    expect(walk.card!.key).toBe('sink-mount');
  });

  it('has_the_money_as_the_answers_stand_before_it_weighs_what_to_look_at', async () => {
    const host = memory();
    const walk = await opened(host, 'sink-mount');
    const answering = walk.answer({ answer: ['drop-in'] });
    expect(walk.reckoned).toBe(false);
    await answering;
    expect(walk.reckoned).toBe(true);
    expect(walk.money?.p80Cents).toBe(790000);
    const after = host.asked.slice(host.asked.lastIndexOf('answer') + 1);
    expect(after.slice(0, 2)).toEqual(['money-now', 'look-next']);
  });

  it('takes_a_touch_while_the_card_is_read_again_after_a_photograph', async () => {
    const host = memory();
    let go = () => {};
    let slow = false;
    const held: Host = {
      async ask<Name extends keyof Commands>(name: Name, args: Commands[Name][0]): Promise<Commands[Name][1]> {
        if (name === 'walk' && slow) await new Promise<void>((done) => (go = done));
        return host.ask(name, args);
      },
      takePhoto: (photo) => host.takePhoto(photo),
      pairPhoto: () => Promise.reject(new Error('no line')),
      picture: (digest) => host.picture(digest),
      thumbnail: (digest) => host.thumbnail(digest),
    };
    const walk = await opened(held, 'sink-mount');
    slow = true;
    const again = walk.again();
    slow = false;
    await walk.answer({ answer: ['drop-in'] });
    const after = walk.card!.key;
    expect(after).not.toBe('sink-mount');
    go();
    await again;
    expect(walk.card!.key).toBe(after);
  });

  it('shows_nothing_that_was_weighed_after_the_house_was_left', async () => {
    const host = memory();
    let done = () => {};
    const slow: Host = {
      async ask<Name extends keyof Commands>(name: Name, args: Commands[Name][0]): Promise<Commands[Name][1]> {
        if (name === 'look-next') await new Promise<void>((go) => (done = go));
        return host.ask(name, args);
      },
      takePhoto: (photo) => host.takePhoto(photo),
      pairPhoto: () => Promise.reject(new Error('no line')),
      picture: (digest) => host.picture(digest),
      thumbnail: (digest) => host.thumbnail(digest),
    };
    const walk = new Walk(slow, SURVEY, 0);
    const opening = walk.open('sink-mount');
    await new Promise((go) => setTimeout(go, 0));
    walk.leave();
    done();
    await opening;
    expect(walk.next).toBeNull();
    expect(await host.ask('left', {})).toEqual({ survey: null });
  });

  it('says_what_went_wrong_and_keeps_what_is_shown', async () => {
    const host = memory();
    const walk = await opened(host, 'sink-mount');
    host.refusal = new HostError('internal', 'The disk is full.');
    await walk.answer({ answer: ['drop-in'] });
    expect(walk.trouble!.message).toBe('The disk is full.');
    expect(walk.card!.key).toBe('sink-mount');
    expect(walk.busy).toBe(false);
  });
});

describe('ticks', () => {
  const card = (recorded as unknown as Recorded).cards.find((one) => one.key === 'old-tests')!;
  const [some, other] = card.options.filter((one) => !one.alone);
  const alone = card.options.find((one) => one.alone)!;

  it('add_up_and_are_taken_away_again', () => {
    const ticks = new Ticks({ ...card, options: card.options.map((one) => ({ ...one, chosen: false })) });
    expect(ticks.toggle(some!)).toBe(false);
    ticks.toggle(other!);
    expect(ticks.ticked).toEqual([some!.id, other!.id]);
    ticks.toggle(some!);
    expect(ticks.ticked).toEqual([other!.id]);
  });

  it('of_an_option_that_stands_alone_are_a_whole_answer', () => {
    const ticks = new Ticks(card);
    ticks.toggle(some!);
    expect(ticks.toggle(alone)).toBe(true);
    expect(ticks.ticked).toEqual([alone.id]);
    ticks.toggle(some!);
    expect(ticks.ticked).toEqual([some!.id]);
  });
});
