import { describe, expect, test } from 'vitest';
import { Programme } from '../../../src/core/domain/programme.ts';
import { siteOf } from '../../../src/core/forecast/site.ts';
import { stakeSettings } from '../../../src/core/forecast/at-stake.ts';
import { inventoryRules } from '../../../src/core/inventory/inventory-rules.ts';
import { programmeDefaults } from '../../../src/core/season-report/programme-defaults.ts';
import {
  type SettingKey,
  settingKind,
  settingOf,
  withSetting,
} from '../../../src/core/season-report/programme-settings.ts';
import { toldSeason } from './told-season.ts';

const rows = programmeDefaults('metric').flatMap(({ defaults }) => defaults);
const keys = rows.flatMap(({ setting }) => setting ?? []);

test('every default has a value, a label and a source, and only guesses can be set', () => {
  expect(rows.length).toBeGreaterThan(40);
  for (const { name, value, label, source, setting } of rows) {
    expect(name, value).not.toBe('');
    expect(value, name).not.toMatch(/^$|NaN|undefined|null/);
    expect(source, name).not.toBe('');
    if (setting !== undefined) expect(label, name).toBe('guess');
  }
  expect(new Set(keys).size).toBe(keys.length);
});

test('temperatures are told in the measures chosen, everything else is the same', () => {
  const inFeet = programmeDefaults('feet').flatMap(({ defaults }) => defaults);
  const changed = inFeet.filter(({ value }, index) => value !== rows[index]?.value);
  expect(changed.length).toBeGreaterThan(5);
  for (const { value, source } of changed) expect(`${value} ${source}`).not.toContain('°C');
  const told = (list: typeof rows): string | undefined =>
    list.find(({ name }) => name === 'Development, loggerhead')?.value;
  expect(told(rows)).toBe('from 16.8 °C, 708 degree days, + 1 nights');
  expect(told(inFeet)).toBe('from 62.2 °F, 1274 degree days, + 1 nights');
  expect(inFeet.map(({ value, source }) => value + source).join('\n')).not.toContain('°C');
});

describe('a setting', () => {
  test.each(keys)('%s is kept in a programme that can be written, and taken out again', (key) => {
    const value = settingKind(key).kind === 'share' ? 0.35 : 4;
    const programme = { name: 'Tern Beach', time_zone: 'UTC' };
    const set = withSetting(programme, key, value);
    expect(Programme.safeParse(set).success).toBe(true);
    expect(settingOf(set, key)).toBe(value);
    expect(settingOf(programme, key)).toBeNull();
    expect(withSetting(set, key, null)).toEqual(programme);
  });

  test('reaches what it is a setting of', () => {
    const set = (key: SettingKey, value: number): Programme => withSetting({}, key, value);
    const siteWith = (programme: Programme) => siteOf({ ...toldSeason().record, programme });
    expect(siteWith(set('boil_tracks', 17)).boilTracks).toBe(17);
    expect(siteWith(set('pairs', 5)).pairs).toBe(5);
    expect(stakeSettings(set('expected_success', 0.5)).success).toBe(0.5);
    expect(stakeSettings(set('stray_by_exposure.2', 0.9)).strayByExposure[2]).toBe(0.9);
    expect(inventoryRules(set('inventory_days.after_emergence', 9), null).afterEmergence.days).toBe(
      9,
    );
    const days = set('inventory_days.without_emergence', 99);
    expect(inventoryRules(days, null).withoutEmergence.days).toBe(99);
  });

  test('of two exposures keeps both', () => {
    const one = withSetting({}, 'stray_by_exposure.0', 0.1);
    const both = withSetting(one, 'stray_by_exposure.3', 0.8);
    expect(settingOf(both, 'stray_by_exposure.0')).toBe(0.1);
    expect(settingOf(both, 'stray_by_exposure.1')).toBeNull();
    expect(settingOf(both, 'stray_by_exposure.3')).toBe(0.8);
  });
});
