import { expect, it } from 'vitest';
import { matching } from './matching';

it('finds_by_every_word_typed_in_any_order_case_or_accent', () => {
  const names = ['Tubería de hierro', 'Drain line of cast iron', 'Iron gas line'];
  const found = (typed: string) => matching(names, typed, (name) => name);
  expect(found('')).toEqual(names);
  expect(found('  LINE iron ')).toEqual([names[1], names[2]]);
  expect(found('tuberia')).toEqual([names[0]]);
  expect(found('copper')).toEqual([]);
});
