import { describe, expect, test } from 'vitest';
import { InventoryDetails } from '../../../src/core/domain/inventory.ts';
import { successOf } from '../../../src/core/inventory/success.ts';

const of = (counts: object, laid: number | null = null) =>
  successOf(InventoryDetails.parse({ date: '2026-08-20', ...counts }), laid);

// Real inventories as their teams reported them (common practice, no publication), with the
// denominator that gives the published per cents to their last digit; two of them are cut off, not
// rounded. The arithmetic was worked again by hand.
describe('four inventories that teams reported', () => {
  test('95 shells, 10 unhatched, 86 live and 1 dead in the nest: 87.9 % and 7.4 % of the 108 laid', () => {
    const counts = { shells: 95, unhatched: 10, live_in_nest: 86, dead_in_nest: 1, clutch: 108 };
    const { hatch, emergence, clutch, denominator, missing } = of(counts);
    expect(clutch).toBe(108);
    expect(denominator).toBe('laid');
    expect(missing).toBe(3);
    expect(hatch).toBeCloseTo(0.8796, 4);
    expect(emergence).toBeCloseTo(0.0741, 4);
  });

  test('the same nest from its contents alone: 90.5 % and 7.6 %', () => {
    const counts = { shells: 95, unhatched: 10, live_in_nest: 86, dead_in_nest: 1 };
    const { hatch, emergence, clutch, denominator } = of(counts);
    expect(clutch).toBe(105);
    expect(denominator).toBe('contents');
    expect(hatch).toBeCloseTo(0.9048, 4);
    expect(emergence).toBeCloseTo(0.0762, 4);
  });

  test('87 shells of 95 eggs, one of them taken as a sample: 91.5 %', () => {
    const counts = { shells: 87, unhatched: 7, live_in_nest: 0, dead_in_nest: 1, clutch: 95 };
    expect(Math.floor((of(counts).hatch ?? 0) * 1000)).toBe(915);
  });

  test('83 shells and 32 unhatched, the egg taken as a sample counted: 71.5 %', () => {
    const counts = { shells: 83, unhatched: 32, clutch: 116 };
    expect(Math.floor((of(counts).hatch ?? 0) * 1000)).toBe(715);
  });

  test('101 shells and 7 unhatched, no sample counted: 93.5 % of the contents', () => {
    const counts = { shells: 101, unhatched: 7, live_in_nest: 0, dead_in_nest: 0 };
    const { hatch, emergence } = of(counts);
    expect(hatch).toBeCloseTo(0.9352, 4);
    expect(emergence).toBe(hatch);
  });
});
