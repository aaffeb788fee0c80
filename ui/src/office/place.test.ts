import { describe, expect, it } from 'vitest';
import { readPlace, writePlace, type Place } from './place';

describe('an address of the office', () => {
  it('is_read_as_it_was_written', () => {
    const places: Place[] = [
      { at: 'inbox' }, { at: 'people' }, { at: 'me' }, { at: 'tablets' }, { at: 'learning' }, { at: 'record', by: 'condition' }, { at: 'record', by: 'surveyor' }, { at: 'set-up', token: 'a1b2' },
      { at: 'house', survey: '0195-x' }, { at: 'house', survey: '0195-x', of: 'a1b2c3' }, { at: 'house', survey: '0195-x', photo: '9f' }, { at: 'house', survey: 'a b', of: 'a1b2c3', photo: '9f' }, { at: 'findings', survey: '0195-x' },
      { at: 'findings', survey: '0195-x', of: 'bulkhead-duct@over-range/soffit' }, { at: 'compared', survey: 'a b' },
    ];
    for (const place of places) expect(readPlace(writePlace(place))).toEqual(place);
  });

  it('that_is_none_is_the_inbox', () => {
    for (const hash of ['', '#', '#/', '#/house', '#/house/', '#/nowhere', '#/people/x', '#/learning/x', '#/record/era/x', '#set-up', '#/house/%']) {
      expect(readPlace(hash), hash).toEqual({ at: 'inbox' });
    }
  });
});
