import { describe, expect, it } from 'vitest';
import { plain } from './tauri';

describe('what goes beside the bytes of a photograph', () => {
  it('is_json_in_plain_letters_that_reads_back_the_same', () => {
    const beside = { name: 'Küche – “unter” 流し 🪚.jpg', survey: '0195', key: 'stub-height@a' };
    const said = plain(JSON.stringify(beside));
    expect(said).toMatch(/^[\x20-\x7e]*$/);
    expect(JSON.parse(said)).toEqual(beside);
  });
});
