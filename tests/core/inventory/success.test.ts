import { describe, expect, test } from 'vitest';
import { InventoryDetails } from '../../../src/core/domain/inventory.ts';
import { successOf } from '../../../src/core/inventory/success.ts';

const of = (counts: object, laid: number | null = null) =>
  successOf(InventoryDetails.parse({ date: '2026-08-20', ...counts }), laid);

describe('which eggs success is reckoned from', () => {
  const counts = { shells: 80, unhatched: 10, pipped_live: 1, pipped_dead: 2, depredated: 7 };

  test('the contents are shells, unhatched, pipped and depredated eggs', () => {
    expect(of(counts)).toMatchObject({ denominator: 'contents', clutch: 100, hatch: 0.8 });
  });

  test('the eggs of the nest’s registration count only where the inventory says so', () => {
    expect(of(counts, 120).hatch).toBe(0.8);
    expect(of({ ...counts, denominator: 'laid' }, 120)).toMatchObject({ clutch: 120, missing: 20 });
  });

  test('the contents hold where an inventory with its own number of eggs names them', () => {
    expect(of({ ...counts, clutch: 120, denominator: 'contents' }).clutch).toBe(100);
  });

  test('eggs at laying that nobody knows give no success and a word on it', () => {
    const none = of({ ...counts, denominator: 'laid' });
    expect(none).toMatchObject({ clutch: null, hatch: null, emergence: null });
    expect(none.problems[0]?.message).toContain('not known');
  });
});

describe('counts that do not add up', () => {
  test('more hatchlings in the nest than shells: no emergence success, never a negative one', () => {
    const odd = of({ shells: 10, unhatched: 20, live_in_nest: 12 });
    expect(odd.emergence).toBeNull();
    expect(odd.hatch).toBeCloseTo(1 / 3, 9);
    expect(odd.problems[0]?.message).toContain('12 hatchlings');
  });

  test('more found than laid is told, with both numbers', () => {
    const odd = of({ shells: 100, unhatched: 20, clutch: 110 });
    expect(odd.missing).toBe(-10);
    expect(odd.problems[0]?.message).toMatch(/120 eggs, more than the 110/);
  });

  test('more shells than eggs laid give no success above one', () => {
    expect(of({ shells: 120, unhatched: 0, clutch: 110 }).hatch).toBeNull();
  });
});

describe('what was not counted', () => {
  test('shells: nothing can be said', () => {
    expect(of({ unhatched: 10 })).toMatchObject({ hatch: null, emergence: null, contents: null });
  });

  test('anything else counts as none, and is named', () => {
    const bare = of({ shells: 90, unhatched: 10 });
    expect(bare.hatch).toBe(0.9);
    expect(bare.takenAsNone).toEqual([
      'pipped_live',
      'pipped_dead',
      'live_in_nest',
      'dead_in_nest',
      'depredated',
    ]);
  });

  test('an empty nest has no success, not nought', () => {
    expect(of({ shells: 0, unhatched: 0 })).toMatchObject({ hatch: null, emergence: null });
    expect(of({ shells: 0, unhatched: 90 }).hatch).toBe(0);
  });
});
