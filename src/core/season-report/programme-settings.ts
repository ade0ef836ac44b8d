import type { Programme } from '../domain/programme.ts';
import { strayByExposure } from '../forecast/at-stake.ts';

/** A default that a programme can have its own value for, and that the odds then go by. */
export type SettingKey =
  | 'boil_tracks'
  | 'pairs'
  | 'expected_success'
  | `stray_by_exposure.${0 | 1 | 2 | 3}`
  | 'inventory_days.after_emergence'
  | 'inventory_days.without_emergence';

/** What may stand in a setting: a whole number from `least` on, or a share from 0 to 1. */
export type SettingKind =
  { readonly kind: 'count'; readonly least: number } | { readonly kind: 'share' };

/** What kind of number a setting is. */
export function settingKind(key: SettingKey): SettingKind {
  switch (key) {
    case 'boil_tracks':
    case 'pairs':
    case 'inventory_days.without_emergence':
      return { kind: 'count', least: 1 };
    case 'inventory_days.after_emergence':
      return { kind: 'count', least: 0 };
    default:
      return { kind: 'share' };
  }
}

/** A programme's own value; null where the default holds. */
export function settingOf(programme: Programme, key: SettingKey): number | null {
  switch (key) {
    case 'boil_tracks':
    case 'pairs':
    case 'expected_success':
      return programme[key] ?? null;
    case 'inventory_days.after_emergence':
      return programme.inventory_days?.after_emergence ?? null;
    case 'inventory_days.without_emergence':
      return programme.inventory_days?.without_emergence ?? null;
    default: {
      const exposure = exposureOf(key);
      const own = programme.stray_by_exposure?.[exposure] ?? null;
      return own === strayByExposure[exposure] ? null : own;
    }
  }
}

/** The programme with its own value for a setting; null = the default again. */
export function withSetting(
  programme: Programme,
  key: SettingKey,
  value: number | null,
): Programme {
  switch (key) {
    case 'boil_tracks':
    case 'pairs':
    case 'expected_success': {
      const { [key]: _own, ...rest } = programme;
      return value === null ? rest : { ...rest, [key]: value };
    }
    case 'inventory_days.after_emergence':
      return withDays(programme, 'after_emergence', value);
    case 'inventory_days.without_emergence':
      return withDays(programme, 'without_emergence', value);
    default:
      return withStray(programme, exposureOf(key), value);
  }
}

function withDays(
  { inventory_days, ...rest }: Programme,
  key: 'after_emergence' | 'without_emergence',
  value: number | null,
): Programme {
  const { [key]: _own, ...others } = inventory_days ?? {};
  const days = value === null ? others : { ...others, [key]: value };
  return Object.keys(days).length === 0 ? rest : { ...rest, inventory_days: days };
}

/** The four shares are kept together: those that were not set stay at the default. */
function withStray(
  { stray_by_exposure, ...rest }: Programme,
  exposure: 0 | 1 | 2 | 3,
  value: number | null,
): Programme {
  const shares: [number, number, number, number] = [...(stray_by_exposure ?? strayByExposure)];
  shares[exposure] = value ?? strayByExposure[exposure];
  const isDefault = shares.every((share, index) => share === strayByExposure[index]);
  return isDefault ? rest : { ...rest, stray_by_exposure: shares };
}

function exposureOf(key: `stray_by_exposure.${0 | 1 | 2 | 3}`): 0 | 1 | 2 | 3 {
  switch (key) {
    case 'stray_by_exposure.0':
      return 0;
    case 'stray_by_exposure.1':
      return 1;
    case 'stray_by_exposure.2':
      return 2;
    case 'stray_by_exposure.3':
      return 3;
  }
}
