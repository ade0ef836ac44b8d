import { describe, expect, test } from 'vitest';
import {
  hatchlingsAtStake,
  stakeSettings,
  strayShare,
} from '../../../src/core/forecast/at-stake.ts';
import { siteOf } from '../../../src/core/forecast/site.ts';
import { SeasonBuilder, night } from '../../builders/season.ts';

const settings = stakeSettings({});
const site = siteOf(
  new SeasonBuilder()
    .programme({ time_zone: 'America/New_York', latitude: 27, longitude: -80 })
    .record(),
);

describe('moonlight in the hours of emergence', () => {
  // New moon 12 August 17:37 UTC, full moon 28 August 04:18 UTC 2026 (facts.md, L8).
  test('is none at new moon and nearly all of it at full moon', () => {
    expect(site.moonlight(night('2026-08-12'))).toBeLessThan(0.02);
    expect(site.moonlight(night('2026-08-27'))).toBeGreaterThan(0.85);
  });

  test('is taken as half where nobody knows the place', () => {
    expect(siteOf(new SeasonBuilder().record()).moonlight(night('2026-08-12'))).toBe(0.5);
  });
});

describe('hatchlings at stake', () => {
  test('more go astray by lamps than in the dark, and under a new moon than under a full one', () => {
    const shares = [0, 1, 2, 3].map((exposure) => strayShare(exposure, 0.4, settings));
    expect([...shares].sort((a, b) => a - b)).toEqual(shares);
    for (const exposure of [0, 1, 2, 3]) {
      expect(strayShare(exposure, 0, settings)).toBeGreaterThan(strayShare(exposure, 1, settings));
    }
  });

  test('are chance x eggs x success x share astray', () => {
    const nest = { clutch_eggs: 120, lightExposure: 2 };
    const own = stakeSettings({ stray_by_exposure: [0.1, 0.2, 0.5, 0.8], expected_success: 0.5 });
    // A share of one half by moonlight that leaves its odds as they are: 1.25 - 0.65 m = 1.
    expect(hatchlingsAtStake(0.25, nest, 0.25 / 0.65, own)).toBeCloseTo(0.25 * 120 * 0.5 * 0.5, 9);
  });

  test('of a nest nobody described are those of an ordinary clutch with a little light', () => {
    const untold = { clutch_eggs: null, lightExposure: null };
    const usual = { clutch_eggs: 100, lightExposure: 1 };
    expect(hatchlingsAtStake(0.3, untold, 0.5, settings)).toBe(
      hatchlingsAtStake(0.3, usual, 0.5, settings),
    );
  });
});
