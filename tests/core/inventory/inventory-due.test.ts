import { describe, expect, test } from 'vitest';
import { asNight } from '../../../src/core/domain/night.ts';
import { Programme } from '../../../src/core/domain/programme.ts';
import { type NestSoFar, inventoryDue } from '../../../src/core/inventory/inventory-due.ts';
import { inventoryRules } from '../../../src/core/inventory/inventory-rules.ts';

const laid = asNight(20_600);
const nothing: NestSoFar = {
  layNightLatest: laid,
  boil: null,
  lastSeen: null,
  washedOut: null,
  counted: null,
};
const rules = inventoryRules({}, 'Caretta caretta');

describe('the day of an inventory', () => {
  test('comes three days after the boil, unless the site says otherwise', () => {
    const boil = asNight(laid + 55);
    expect(inventoryDue({ ...nothing, boil, lastSeen: boil }, rules)).toMatchObject({
      kind: 'due',
      on: boil + 3,
      from: 'boil',
      rule: { days: 3, source: 'guess' },
      putOff: false,
    });
  });

  test('without a boil comes by the age of the nest, from the last night it may have been laid', () => {
    expect(inventoryDue(nothing, rules)).toMatchObject({ on: laid + 70, from: 'lay night' });
  });

  test('waits for stragglers', () => {
    const boil = asNight(laid + 55);
    const due = inventoryDue({ ...nothing, boil, lastSeen: asNight(boil + 2) }, rules);
    expect(due).toMatchObject({ on: boil + 5, putOff: true });
    const seen = inventoryDue({ ...nothing, lastSeen: asNight(laid + 69) }, rules);
    expect(seen).toMatchObject({ on: laid + 72, from: 'lay night', putOff: true });
  });

  test('is not known of a nest with neither lay night nor boil', () => {
    expect(inventoryDue({ ...nothing, layNightLatest: null }, rules).kind).toBe('not known');
  });

  test('is over once the nest was counted, and never comes for one that the sea took', () => {
    const counted = asNight(laid + 60);
    expect(inventoryDue({ ...nothing, counted }, rules)).toEqual({ kind: 'counted', on: counted });
    expect(inventoryDue({ ...nothing, washedOut: counted }, rules).kind).toBe('washed out');
  });
});

describe('the rules of a site', () => {
  const programme = Programme.parse({
    inventory_days: { after_emergence: 5 },
    inventory_days_by_species: { 'Chelonia mydas': { without_emergence: 75 } },
  });

  test('hold for a species, then for the beach, then as a guess that says so', () => {
    expect(inventoryRules(programme, 'Chelonia mydas')).toEqual({
      afterEmergence: { days: 5, source: 'set here' },
      withoutEmergence: { days: 75, source: 'set for this species' },
    });
    expect(inventoryRules(programme, null).withoutEmergence).toEqual({ days: 70, source: 'guess' });
    expect(inventoryRules({}, 'Dermochelys coriacea').withoutEmergence.days).toBe(80);
  });
});
