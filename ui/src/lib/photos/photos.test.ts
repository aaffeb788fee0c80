import { describe, expect, it } from 'vitest';
import recorded from '../../../e2e/page/recorded.json';
import { houses } from '../../../e2e/page/sample';
import { HostError } from '../host/host';
import { MemoryHost } from '../host/memory';
import type { Recorded } from '../host/recorded';
import { words } from '../words/words';
import { Marked } from './marked.svelte';
import { OnPaper } from './on-paper.svelte';
import { Photos } from './photos.svelte';

const survey = houses[0]!.survey;

function memory() {
  const host = new MemoryHost([...houses], recorded as unknown as Recorded);
  host.album.held = [{ digest: 'abcd', name: 'under-sink.jpg', key: 'stub-height', width: 1600, height: 1200, picture: null, marks: [] }];
  return host;
}

const file = (name: string) => new File(['bytes'], name);

describe('photographs of a house', () => {
  it('come_in_one_after_the_other_and_one_that_is_refused_keeps_none_out', async () => {
    const host = memory();
    host.album.points.set('b.jpg', ['too dark']);
    const photos = new Photos(host, survey, 'sink-mount');
    await photos.read();
    expect(photos.count).toBe(0);
    await photos.take([file('a.jpg'), file('letter.txt'), file('b.jpg')]);
    expect(photos.taken.map((one) => one.name)).toEqual(['b.jpg', 'letter.txt', 'a.jpg']);
    expect(photos.taken[0]!.said!.notes).toEqual(['too dark']);
    expect(photos.taken[1]!.refused!.hint).toBe('Choose a JPEG.');
    expect([photos.count, photos.coming]).toEqual([2, null]);
    expect(host.album.held.at(-1)!.key).toBe('sink-mount');
  });

  it('are_told_no_more_when_they_were_taken_back', async () => {
    const host = memory();
    const photos = new Photos(host, survey, 'sink-mount');
    await photos.take([file('a.jpg'), file('letter.txt'), file('b.jpg')]);
    await host.ask('undo', { survey });
    await photos.takenBack();
    expect(photos.taken.map((one) => one.name)).toEqual(['letter.txt', 'a.jpg']);
    expect(photos.count).toBe(1);
  });

  it('stop_coming_in_on_asking_and_those_that_are_kept_stay', async () => {
    const host = memory();
    const photos = new Photos(host, survey);
    const coming = photos.take([file('a.jpg'), file('b.jpg'), file('c.jpg')]);
    expect(photos.coming).toEqual({ kept: 0, of: 3 });
    photos.stop();
    await coming;
    expect(photos.taken.map((one) => one.name)).toEqual(['a.jpg']);
    expect(host.album.held.map((one) => one.name)).toEqual(['under-sink.jpg', 'a.jpg']);
  });

  it('are_asked_for_by_the_card_they_belong_to', async () => {
    const photos = new Photos(memory(), survey, 'stub-height');
    await photos.read();
    expect([photos.count, photos.value!.about!.key, photos.value!.wanted.length]).toEqual([1, 'stub-height', 0]);
  });
});

describe('marks on a photograph', () => {
  async function open() {
    const host = memory();
    const marked = new Marked(host, survey, 'abcd');
    await marked.read();
    return { host, marked };
  }
  function tap(marked: Marked, ...spots: [number, number][]) {
    for (const spot of spots) {
      marked.points.down(spot, 1);
      marked.points.up();
    }
  }

  it('are_kept_rubbed_out_and_put_back_as_they_were', async () => {
    const { host, marked } = await open();
    tap(marked, [10, 10], [100, 10]);
    await marked.keep();
    marked.choose('dimension');
    tap(marked, [10, 300], [900, 300]);
    expect(marked.ready).toBe(false);
    marked.length = '19 3/8';
    await marked.keep();
    expect(marked.value!.marks.map((one) => one.kind)).toEqual(['ring', 'dimension']);
    await marked.rubOut();
    await marked.rubOut();
    expect(marked.value!.marks).toEqual([]);
    await marked.putBack();
    await marked.putBack();
    expect(marked.value!.marks.map((one) => [one.kind, one.text])).toEqual([['ring', ''], ['dimension', '19 3/8" ± 1/8"']]);
    expect(marked.rubbed).toEqual([]);
    expect(host.album.held[0]!.marks).toHaveLength(2);
  });

  it('stay_in_hand_when_they_are_refused', async () => {
    const { marked } = await open();
    marked.choose('dimension');
    tap(marked, [10, 300], [900, 300]);
    marked.length = 'a foot';
    await marked.keep();
    expect(marked.refused!.hint).toBe('write 19 3/8');
    expect([marked.points.set.length, marked.length, marked.busy]).toEqual([2, 'a foot', false]);
  });

  it('that_carry_a_length_of_another_visit_are_rubbed_out_but_not_read_back', async () => {
    const { host, marked } = await open();
    host.album.mark('abcd', { kind: 'dimension', points: [[1, 1], [9, 9]], length: '4', tolerance: null });
    await marked.read();
    await marked.rubOut();
    expect([marked.value!.marks.length, marked.rubbed.length]).toEqual([0, 0]);
  });
});

describe('a length on a photograph', () => {
  async function open() {
    const host = memory();
    const paper = new OnPaper(host, survey, 'abcd');
    await paper.read();
    return { host, paper };
  }
  const six = (paper: OnPaper) => {
    for (const at of [[200, 380], [475, 395], [470, 745], [200, 735], [620, 600], [620, 980]] as [number, number][]) {
      paper.points.down(at, 1);
      paper.points.up();
    }
  };

  it('says_what_to_touch_next_and_then_what_it_came_to', async () => {
    const { paper } = await open();
    expect(paper.heading(words)).toBe('Touch corner 1 of the sheet');
    six(paper);
    expect(await paper.measure()).toBe(true);
    expect(paper.heading(words)).toBe('19-3/8", give or take 3/8"');
    expect(paper.drawing.map((one) => one.kind)).toEqual(['paper', 'dimension']);
    paper.again();
    expect([paper.measured, paper.points.set.length]).toEqual([null, 0]);
  });

  it('is_recorded_for_the_question_the_photo_was_taken_for_and_only_on_asking', async () => {
    const { paper } = await open();
    six(paper);
    await paper.measure();
    expect(paper.measured!.recorded).toBeNull();
    expect(paper.key).toBe('stub-height');
    expect(await paper.measure(true)).toBe(true);
    expect(paper.measured!.recorded).toBe('19-3/8"');
  });

  it('needs_both_sides_of_a_sheet_of_its_own_size', async () => {
    const { paper } = await open();
    six(paper);
    paper.kind = 'own';
    expect(await paper.measure()).toBe(false);
    [paper.width, paper.height] = ['12', '18'];
    expect(await paper.measure()).toBe(true);
  });

  it('says_why_it_gives_none', async () => {
    const { host, paper } = await open();
    six(paper);
    host.refusal = new HostError('input', 'The corners are not in order around the sheet.');
    expect(await paper.measure()).toBe(false);
    expect([paper.refused!.message, paper.measured]).toEqual(['The corners are not in order around the sheet.', null]);
  });
});
