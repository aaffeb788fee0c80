import { describe, expect, it } from 'vitest';
import type { Spot } from '../host/host';
import { byKey, Points } from './points.svelte';

function tap(points: Points, ...spots: Spot[]) {
  for (const spot of spots) {
    points.down(spot, 1);
    points.up();
  }
}

describe('points of a picture', () => {
  it('are_set_by_single_taps', () => {
    const points = new Points(1600, 1200, 2);
    tap(points, [100, 100], [400, 300]);
    expect(points.set).toEqual([[100, 100], [400, 300]]);
    expect([points.all, points.chosen]).toEqual([true, 1]);
  });

  it('are_pulled_out_by_one_drag', () => {
    const points = new Points(1600, 1200, 2);
    points.down([100, 100], 1);
    for (const at of [[103, 101], [150, 140], [400, 300]] as Spot[]) points.move(at, 1);
    points.up();
    expect(points.set).toEqual([[100, 100], [400, 300]]);
  });

  it('move_when_they_are_taken_hold_of_and_a_tap_on_one_moves_nothing', () => {
    const points = new Points(1600, 1200, 2);
    tap(points, [100, 100], [400, 300]);
    points.down([110, 95], 1);
    points.move([112, 96], 1);
    expect([points.set[0], points.chosen]).toEqual([[100, 100], 0]);
    points.move([200, 250], 1);
    points.up();
    expect(points.set[0]).toEqual([200, 250]);
  });

  it('take_a_tap_elsewhere_for_the_one_that_is_chosen_once_all_are_set', () => {
    const points = new Points(1600, 1200, 2);
    tap(points, [100, 100], [400, 300], [100, 100], [700, 700]);
    expect(points.set).toEqual([[700, 700], [400, 300]]);
  });

  it('never_leave_the_picture', () => {
    const points = new Points(1600, 1200, 1);
    tap(points, [-50, 5000]);
    expect(points.set).toEqual([[0, 1200]]);
    points.nudge(-10, 10);
    expect(points.set).toEqual([[0, 1200]]);
  });

  it('can_all_be_set_and_moved_by_keys', () => {
    const points = new Points(1600, 1200, 6);
    for (let i = 0; i < 7; i += 1) points.middle();
    expect(points.all).toBe(true);
    expect(new Set(points.set.map(String)).size).toBe(6);
    points.chosen = 0;
    const [x, y] = points.set[0]!;
    expect(byKey(points, 'ArrowRight', false, 2)).toBe(true);
    expect(byKey(points, 'ArrowUp', true, 2)).toBe(true);
    expect(points.set[0]).toEqual([x + 2, y - 20]);
    expect(byKey(points, 'Tab', false, 2)).toBe(false);
  });
});
