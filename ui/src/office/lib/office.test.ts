import { describe, expect, it, vi } from 'vitest';
import recorded from '../../../e2e/page/office.json';
import { HostError } from '../../lib/host/host';
import { Words } from '../../lib/words/words';
import { told } from '../host/http';
import { MemoryOffice } from '../host/memory';
import type { RecordedOffice } from '../host/recorded';
import { withOffice } from '../words';
import { hoursOf, Inbox, minuteOf } from './inbox.svelte';
import { Compared, FIRST, House } from './leaves.svelte';
import { People } from './people.svelte';
import { Seen } from './seen.svelte';
import { Session } from './session.svelte';

const words = withOffice(new Words('en'));
function memory() {
  const host = new MemoryOffice(structuredClone(recorded) as unknown as RecordedOffice);
  host.person('M. Hale', 'owner', 'the first of them', true);
  return host;
}

describe('who is signed in', () => {
  it('may_do_what_those_with_less_may', async () => {
    const host = memory();
    host.session = { ...host.session, person: null };
    const session = new Session(host);
    await session.read();
    expect([session.person, session.may('estimator')]).toEqual([null, false]);
    expect(await session.signIn('M. Hale', 'not it')).toBe(false);
    expect(session.refused?.message).toContain('nobody here by that name');
    expect(await session.signIn('M. Hale', 'the first of them')).toBe(true);
    expect([session.may('owner'), session.may('reviewer'), session.refused]).toEqual([true, true, null]);
    await session.signOut();
    expect(session.person).toBeNull();
  });

  it('is_the_first_owner_by_the_one_time_link', async () => {
    const host = new MemoryOffice(recorded as unknown as RecordedOffice);
    host.session = { person: null, set_up: false, firm: null };
    const session = new Session(host);
    expect(await session.setUp('t', 'Hale & Daughter', 'M. Hale', 'one of them here', 'another of them')).toBe(false);
    expect([session.refused?.kind, host.asked.length]).toEqual(['input', 0]);
    expect(await session.setUp('t', 'Hale & Daughter', 'M. Hale', 'one of them here', 'one of them here')).toBe(true);
    expect([session.value!.firm, session.person!.role]).toEqual(['Hale & Daughter', 'owner']);
  });

  it('changes_a_password_only_by_the_old_one', async () => {
    const session = new Session(memory());
    await session.read();
    expect(await session.changePassword('wrong', 'x'.repeat(15), 'x'.repeat(15))).toBe(false);
    expect(await session.changePassword('the first of them', 'y'.repeat(15), 'y'.repeat(15))).toBe(true);
    expect(session.done).toBe('password-changed');
  });

  it('chooses_their_own_password_where_an_owner_chose_the_first', async () => {
    const host = memory();
    const people = new People(host);
    await people.add('L. Pardo', 'estimator', 'handed over in person');
    const session = new Session(host);
    await session.read();
    await session.signOut();
    await session.signIn('L. Pardo', 'handed over in person');
    expect(session.person?.first_password).toBe(true);
    await session.changePassword('handed over in person', 'their very own one', 'their very own one');
    expect([session.person?.first_password, session.done]).toEqual([false, 'password-changed']);
  });

  it('sets_a_second_factor_up_and_is_asked_for_its_code_from_then_on', async () => {
    const host = memory();
    const session = new Session(host);
    await session.read();
    expect(await session.beginSecond('wrong')).toBe(false);
    expect([session.bring, await session.beginSecond('the first of them')]).toEqual([null, true]);
    expect(session.bring?.secret).toHaveLength(32);
    expect(await session.confirmSecond('000000')).toBe(false);
    expect([session.refused?.kind, session.bring !== null]).toEqual(['code', true]);
    expect(await session.confirmSecond('402 817')).toBe(true);
    expect([session.bring, session.person?.second_factor, session.done]).toEqual([null, true, 'second-set']);
    await session.signOut();
    expect(await session.signIn('M. Hale', 'the first of them')).toBe(false);
    expect([session.codeWanted, session.refused?.hint]).toEqual([true, null]);
    expect(await session.signIn('M. Hale', 'the first of them', '000000')).toBe(false);
    expect([session.codeWanted, session.refused?.hint]).toEqual([true, 'Wait for the next one.']);
    host.refusal = new HostError('conflict', 'wait');
    await session.signIn('M. Hale', 'the first of them', '402817');
    expect(session.codeWanted, 'the password was shown').toBe(true);
    host.refusal = null;
    session.anew();
    expect([session.codeWanted, session.refused]).toEqual([false, null]);
    await session.signIn('M. Hale', 'the first of them');
    expect(await session.signIn('M. Hale', 'the first of them', '402817')).toBe(true);
    expect(await session.beginSecond('the first of them', '000000')).toBe(false);
    expect(await session.beginSecond('the first of them', '402817')).toBe(true);
    await session.confirmSecond('402817');
    expect(await session.dropSecond('the first of them', '402817')).toBe(true);
    expect(session.person?.second_factor).toBe(false);
  });

  it('leaves_nothing_of_one_person_to_the_next_at_the_same_browser', async () => {
    const host = memory();
    host.own = [{ id: 'a', since: null, seen: null, from: null, here: true }];
    const session = new Session(host);
    await session.read();
    for (const end of [() => session.signOut(), async () => session.ended()]) {
      await session.signIn('M. Hale', 'the first of them');
      await session.readOwn();
      await session.beginSecond('the first of them');
      expect([session.bring === null, session.own === null]).toEqual([false, false]);
      await end();
      expect([session.bring, session.own, session.done]).toEqual([null, null, null]);
    }
    // Reading once more who is here leaves what they were doing.
    await session.signIn('M. Hale', 'the first of them');
    await session.beginSecond('the first of them');
    await session.read();
    expect(session.bring).not.toBeNull();
    // A session that was ended elsewhere is known as soon as anything is asked.
    await session.signIn('M. Hale', 'the first of them');
    host.session = { ...host.session, person: null };
    expect(await session.readOwn()).toBe(false);
    expect(session.person).toBeNull();
  });

  it('begins_again_where_setting_up_waited_too_long', async () => {
    const host = memory();
    const session = new Session(host);
    await session.read();
    await session.beginSecond('the first of them');
    host.refusal = new HostError('conflict', 'not begun here');
    expect(await session.confirmSecond('402817')).toBe(false);
    expect(session.bring).toBeNull();
  });

  it('sees_where_they_are_signed_in_and_ends_the_others_by_the_password', async () => {
    const host = memory();
    host.own = ['a', 'b', 'c'].map((id) => ({ id, since: null, seen: null, from: null, here: id === 'a' }));
    const session = new Session(host);
    await session.read();
    await session.readOwn();
    expect(session.own).toHaveLength(3);
    expect(await session.endOwn('wrong', 'b')).toBe(false);
    expect(await session.endOwn('the first of them', 'b')).toBe(true);
    expect(session.own!.map((one) => one.id)).toEqual(['a', 'c']);
    await session.endOwn('the first of them');
    expect(session.own!.map((one) => one.id)).toEqual(['a']);
  });

  it('is_asked_for_a_second_factor_where_the_office_asks_everybody', async () => {
    const host = memory();
    const [session, people] = [new Session(host), new People(host)];
    await people.read();
    expect(await people.demandSecond()).toBe(true);
    await session.read();
    expect([session.person?.second_demanded, session.person?.second_wanted]).toEqual([true, true]);
    await session.beginSecond('the first of them');
    await session.confirmSecond('402817');
    expect(session.person?.second_wanted).toBe(false);
    await people.read();
    expect(people.value![0]!.second_factor).toBe(true);
    expect(await people.leaveSecondFree('guessed', '402817')).toBe(false);
    expect(await people.leaveSecondFree('the first of them')).toBe(false);
    expect(host.demanded).toBe(true);
    expect(await people.leaveSecondFree('the first of them', '402817')).toBe(true);
    expect(host.demanded).toBe(false);
    await people.liftSecond(people.value![0]!.id);
    expect(people.value![0]!.second_factor).toBe(false);
  });

  it('closes_a_house_to_all_but_owners_and_those_who_are_chosen_and_opens_it_again', async () => {
    const host = memory();
    host.person('Ines Okafor', 'reviewer', 'the second of them');
    host.person('Luis Pardo', 'estimator', 'the third of them');
    const seen = new Seen(host, host.recorded.house.survey);
    await seen.read();
    const sees = () => seen.value!.people.filter((one) => one.sees).map((one) => one.name);
    expect([seen.value!.closed, sees()]).toEqual([false, ['Ines Okafor', 'Luis Pardo']]);
    await seen.close();
    expect([seen.value!.closed, sees()]).toEqual([true, []]);
    const [ines, luis] = seen.value!.people.map((one) => one.id);
    await seen.turn(ines!, true);
    await seen.turn(luis!, true);
    await seen.turn(ines!, false);
    expect(sees()).toEqual(['Luis Pardo']);
    await seen.open();
    expect(seen.value!.closed).toBe(false);
    expect(await new Seen(host, 'none').read()).toBeUndefined();
  });

  it('is_asked_again_once_a_session_nobody_used_must_have_ended', async () => {
    vi.useFakeTimers();
    try {
      const host = memory();
      const session = new Session(host);
      await session.read();
      const idle = session.person!.idle_ms;
      const asked = () => host.asked.filter((name) => name === 'session').length;
      session.used();
      vi.advanceTimersByTime(idle - 1);
      session.used(); // a question: it goes on
      vi.advanceTimersByTime(idle);
      expect(asked()).toBe(1);
      host.session = { ...host.session, person: null };
      await vi.advanceTimersByTimeAsync(60_000);
      expect([asked(), session.person]).toEqual([2, null]);
    } finally {
      vi.useRealTimers();
    }
  });

  it('is_nobody_once_the_program_says_so_whatever_its_words', () => {
    expect(() => told(401, '{"kind":"conflict","message":"nobody is signed in here; sign in","hint":null}')).toThrow(expect.objectContaining({ kind: 'signed-out' }));
    expect(() => told(409, '{"kind":"conflict","message":"clash","hint":"mend"}')).toThrow(expect.objectContaining({ kind: 'conflict', hint: 'mend' }));
    expect(() => told(502, '<html>')).toThrow('HTTP 502');
    expect(told(200, '{"a":1}')).toEqual({ a: 1 });
  });
});

describe('the people', () => {
  it('are_added_given_roles_unlocked_and_removed_and_what_was_done_is_read_back', async () => {
    const host = memory();
    const other = host.person('I. Okafor', 'estimator', 'the second of them');
    other.locked = true;
    const people = new People(host);
    await people.read();
    await people.unlock(other.id);
    await people.setRole(other.id, 'reviewer');
    expect(people.value!.find((one) => one.id === other.id)).toMatchObject({ locked: false, role: 'reviewer' });
    expect(await people.add('I. Okafor', 'office', 'the third of them')).toBe(false);
    expect(people.refused?.kind).toBe('conflict');
    expect(await people.add('R. Ames', 'office', 'the third of them')).toBe(true);
    expect(people.lines[0]).toMatchObject({ what: 'person-added', about: 'R. Ames' });
    people.leaving = other.id;
    await people.remove(other.id);
    expect([people.value!.map((one) => one.name), people.leaving]).toEqual([['M. Hale', 'R. Ames'], null]);
  });

  it('see_earlier_lines_until_there_are_none', async () => {
    const host = memory();
    host.lines = Array.from({ length: 9 }, (_, i) => ({ n: 9 - i, at: '2026-06-09T14:00:00-04:00', who: null, what: 'signed-in', about: null, address: null }));
    const people = new People(host);
    await people.earlier();
    expect([people.lines.length, people.all]).toEqual([6, false]);
    await people.earlier();
    expect([people.lines.map((line) => line.n), people.all]).toEqual([[9, 8, 7, 6, 5, 4, 3, 2, 1], true]);
  });
});

describe('the inbox', () => {
  it('says_how_many_came_and_how_many_need_a_look_day_by_day', async () => {
    const host = memory();
    const inbox = new Inbox(host);
    expect(inbox.heading(words)).toBe('Reading the record…');
    await inbox.read();
    expect(inbox.value!.packets.length).toBe(3);
    expect(inbox.heading(words)).toBe('3 packets came in; 3 need a look');
    const days = inbox.days;
    expect(days.flatMap((day) => day.packets)).toEqual(inbox.value!.packets);
    for (const day of days) expect(new Set(day.packets.map((one) => one.receivedAt.slice(0, 10)))).toEqual(new Set([day.day]));
    expect(days.map((day) => day.day)).toEqual([...days.map((day) => day.day)].sort().reverse());
    host.packets = host.packets.map((one) => ({ ...one, certified: true }));
    await inbox.read();
    expect(inbox.heading(words)).toBe('3 packets came in, and the firm vouches for all');
  });

  it('takes_one_file_after_the_other_and_one_that_is_refused_keeps_none_out', async () => {
    const inbox = new Inbox(memory());
    const file = (name: string) => new File(['bytes'], name);
    await inbox.hand([file('a.zip'), file('letter.txt'), file('a.zip')]);
    expect(inbox.handed.map((one) => [one.name, one.came?.firstTime ?? null])).toEqual([['a.zip', false], ['letter.txt', null], ['a.zip', true]]);
    expect(inbox.handed[1]!.refused?.kind).toBe('damaged');
    expect([inbox.going, inbox.value!.packets.length]).toEqual([null, 4]);
  });

  it('has_a_tape_of_whole_hours_that_holds_every_packet', () => {
    expect(minuteOf('2026-03-03T17:05:00-05:00')).toBe(1025);
    const came = (...times: string[]) => times.map((time) => ({ receivedAt: `2026-03-03T${time}:00-05:00` }) as never);
    expect(hoursOf(came('09:02', '17:05'))).toEqual({ from: 9, to: 18 });
    expect(hoursOf(came('10:30'))).toEqual({ from: 10, to: 13 });
    expect(hoursOf(came('23:59'))).toEqual({ from: 21, to: 24 });
    expect(hoursOf(came('00:00'))).toEqual({ from: 0, to: 3 });
  });
});

describe('a house', () => {
  it('is_read_as_its_packet_holds_it', async () => {
    const host = memory();
    const house = new House(host, host.findings.survey);
    await house.read();
    expect(house.answered).toBeGreaterThan(60);
    expect(house.value!.photos.photos).toBe(10);
    expect(house.value!.calculations.length).toBeGreaterThan(2);
    const nowhere = new House(host, 'nowhere');
    await nowhere.read();
    expect(nowhere.trouble?.kind).toBe('missing');
  });
});

describe('a photo of a house', () => {
  it('stands_between_those_beside_it_and_bears_its_marks', async () => {
    const house = new House(memory(), recorded.house.survey);
    await house.read();
    const all = house.photos;
    expect(all.length).toBe(house.value!.photos.photos);
    const marked = all.findIndex((one) => one.marks.some((mark) => mark.kind === 'dimension'));
    const photo = house.photo(all[marked]!.digest)!;
    expect([photo.n, photo.before?.digest, photo.after?.digest]).toEqual([marked + 1, all[marked - 1]?.digest, all[marked + 1]?.digest]);
    expect(photo.it.marks[0]!.text).toContain('12"');
    expect([house.photo(all[0]!.digest)!.before, house.photo(all.at(-1)!.digest)!.after, house.photo('none')]).toEqual([null, null, null]);
  });
});

describe('forecast beside finding', () => {
  it('is_headed_by_the_sum_and_the_dots_below_it', async () => {
    const host = memory();
    const compared = new Compared(host, host.findings.survey);
    await compared.read();
    const it = compared.value!;
    expect(compared.heading(words)).toContain(words.money(it.cameCents));
    expect(it.opened + it.unopened.length).toBe(it.conditions);
    expect(it.fell.reduce((sum, part) => sum + part.cents, 0)).toBe(it.cameCents);
    expect(it.fell.reduce((sum, part) => sum + part.share, 0)).toBeCloseTo(1, 2);
    expect(it.money!.wide).toContain('came-money-wide');
  });

  it('shows_the_largest_differences_first_and_all_on_asking', async () => {
    const host = memory();
    const compared = new Compared(host, host.findings.survey);
    await compared.read();
    const by = (row: { cameCents: number; carriedCents: number }) => Math.abs(row.cameCents - row.carriedCents);
    expect(compared.rows).toHaveLength(FIRST);
    const further = compared.further;
    compared.all = true;
    expect([compared.rows.length, compared.further]).toEqual([FIRST + further, 0]);
    expect(compared.rows.map(by)).toEqual(compared.rows.map(by).sort((a, b) => b - a));
    for (const row of compared.rows) expect(row.outcome).not.toBe('not-opened');
  });

  it('draws_the_clue_that_misled_of_a_miss_or_a_false_alarm_only', async () => {
    const host = memory();
    const compared = new Compared(host, host.findings.survey);
    await compared.read();
    const told = compared.misled!;
    expect(told.missed || told.falseAlarm).toBe(true);
    const { path, wrong, base } = told.misled!;
    const from = wrong === 0 ? base : path[wrong - 1]!.to;
    expect(Math.sign(path[wrong]!.to - from)).toBe(told.outcome === 'found' ? -1 : 1);
    for (const row of compared.value!.rows) if (!row.missed && !row.falseAlarm) expect(row.misled).toBeNull();
  });

  it('says_so_while_nothing_was_opened', async () => {
    const host = memory();
    host.unopened = true;
    const compared = new Compared(host, host.findings.survey);
    await compared.read();
    expect([compared.heading(words), compared.value!.unopened.length]).toEqual(['Nothing of Quarry Bend kitchen was opened yet', compared.value!.conditions]);
    expect(compared.value!.unopened.every((one) => !one.entered)).toBe(true);
  });

  it('says_why_it_could_not_be_read', async () => {
    const host = memory();
    const compared = new Compared(host, host.findings.survey);
    host.refusal = new HostError('damaged', 'It cannot be read.');
    await compared.read();
    expect(compared.heading(words)).toBe('The record could not be read');
  });
});
