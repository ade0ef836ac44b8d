import type { Nest } from '../domain/nest.ts';
import type { Programme } from '../domain/programme.ts';
import { oddsTimes } from '../numerics/odds.ts';
import { expectedSuccess, hatchlingsOf } from './hatchlings.ts';

/** Share of unattended hatchlings that go astray by light exposure, 0 dark to 3 lamps in view (guess). */
export const strayByExposure: readonly [number, number, number, number] = [0.05, 0.2, 0.45, 0.7];
/** A nest whose exposure nobody noted counts as one with a little light (guess). */
const untoldExposure = 1;
/**
 * Fewest are led astray under a full moon that is up, most at new moon (direction measured: Salmon
 * & Witherington 1995 Copeia 1995:931-938; the size a guess).
 */
export const moonOdds = { dark: 1.25, full: 0.6 };
/** No beach leads all of them astray, or none. */
const bounds = { least: 0.01, most: 0.95 };

/** What a programme says of how many hatchlings would go astray. */
export interface StakeSettings {
  readonly strayByExposure: readonly number[];
  readonly success: number;
}

/** The settings of a programme, the defaults where it says nothing. */
export function stakeSettings(programme: Programme): StakeSettings {
  return {
    strayByExposure: programme.stray_by_exposure ?? strayByExposure,
    success: programme.expected_success ?? expectedSuccess,
  };
}

/** Share of a nest's hatchlings expected to go astray when nobody is there. */
export function strayShare(
  exposure: number | null,
  moonlight: number,
  { strayByExposure: shares }: StakeSettings,
): number {
  const share = shares[exposure ?? untoldExposure] ?? 0;
  const factor = moonOdds.dark + (moonOdds.full - moonOdds.dark) * moonlight;
  return Math.min(bounds.most, Math.max(bounds.least, oddsTimes(share, factor)));
}

/**
 * Hatchlings expected to be lost tonight if nobody sits at a nest: chance of a boil x eggs x share
 * that comes out x share that goes astray.
 */
export function hatchlingsAtStake(
  pTonight: number,
  nest: Pick<Nest, 'clutch_eggs' | 'lightExposure'>,
  moonlight: number,
  settings: StakeSettings,
): number {
  const astray = strayShare(nest.lightExposure, moonlight, settings);
  return pTonight * hatchlingsOf(nest, settings.success) * astray;
}
