import { describe, expect, it } from 'vitest';
import { readPlace, writePlace, type Place } from './place';

describe('the address', () => {
  it('comes_back_as_it_was_written', () => {
    const places: Place[] = [
      { at: 'houses' },
      { at: 'start' },
      { at: 'settings' },
      { at: 'help' },
      { at: 'walk', survey: 'alder-street' },
      { at: 'places', survey: 'alder-street' },
      { at: 'next', survey: 'alder-street' },
      { at: 'leaving', survey: 'alder-street' },
      { at: 'record', survey: 'alder-street' },
      { at: 'odds', survey: 'a/b c%d' },
      { at: 'fits', survey: 'alder-street' },
      { at: 'photos', survey: 'alder-street' },
      { at: 'photos', survey: 'alder-street', of: 'stub-height@a/b c' },
      { at: 'marks', survey: 'alder-street', of: '3f2a9c1d' },
      { at: 'sheet', survey: 'alder-street', of: '3f2a9c1d' },
      { at: 'seal', survey: 'alder-street' },
    ];
    for (const place of places) expect(readPlace(writePlace(place))).toEqual(place);
  });

  it('leads_to_the_list_when_it_cannot_be_read', () => {
    for (const hash of ['', '#', '#/', '#/house', '#/house/', '#/elsewhere/x', '#/start/x', '#/help/x', '#/house/%E0%A4%A']) {
      expect(readPlace(hash)).toEqual({ at: 'houses' });
    }
  });
});
