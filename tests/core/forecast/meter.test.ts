import { describe, expect, test } from 'vitest';
import type { NestId } from '../../../src/core/domain/nest.ts';
import { forecastSeason } from '../../../src/core/forecast/tonight.ts';
import { whyTonight } from '../../../src/core/forecast/why.ts';
import { SeasonBuilder, clock, eveningOf, layNightBefore } from '../../builders/season.ts';

const today = '2026-07-20';
const asked = eveningOf(today, '22:00');
const nest = 'a' as NestId;
const plain = () => new SeasonBuilder().nest('a', { lay_night: layNightBefore(today, 53) });
const chance = (season: SeasonBuilder): number =>
  forecastSeason(season.record(), asked).nests.find((n) => n.record.nest.id === nest)!.pTonight;

/** What the meter gives: how likely what it heard is under each state. */
const meter = (...[quiet, occasional, steady, waterfall]: readonly number[]) => ({
  instrument: 'microphone',
  meter_quiet: quiet,
  meter_occasional: occasional,
  meter_steady: steady,
  meter_waterfall: waterfall,
});
const loud = meter(0.02, 0.03, 0.2, 0.75);

describe('a meter reading', () => {
  test('that could not tell changes nothing', () => {
    const flat = plain().visit('a', today, meter(0.25, 0.25, 0.25, 0.25));
    expect(chance(flat)).toBeCloseTo(chance(plain()), 10);
  });

  test('moves the nest, more the surer it is', () => {
    const none = chance(plain());
    const unsure = chance(plain().visit('a', today, meter(0.15, 0.2, 0.3, 0.35)));
    const sure = chance(plain().visit('a', today, loud));
    expect(unsure).toBeGreaterThan(none);
    expect(sure).toBeGreaterThan(unsure);
    expect(chance(plain().visit('a', today, meter(0.95, 0.03, 0.01, 0.01)))).toBeLessThan(none);
  });

  test('without doubt is what a probe hears without misreading, whatever the scale of the numbers', () => {
    const whole = chance(plain().visit('a', today, meter(0, 0, 0, 1)));
    const scaled = chance(plain().visit('a', today, meter(0, 0, 0, 0.3)));
    expect(scaled).toBeCloseTo(whole, 10);
  });

  test('through a stethoscope says less than one beside the nest', () => {
    const muffled = { ...meter(0.95, 0.03, 0.01, 0.01), instrument: 'stethoscope' };
    expect(chance(plain().visit('a', today, muffled))).toBeGreaterThan(
      chance(plain().visit('a', today, meter(0.95, 0.03, 0.01, 0.01))),
    );
  });

  test('and an ear that heard the same in one half night count once', () => {
    const ear = { sound: 'waterfall', instrument: 'microphone' };
    const byEar = chance(plain().visit('a', today, ear));
    const byMeter = chance(plain().visit('a', today, loud));
    const onOneNote = chance(plain().visit('a', today, { ...loud, ...ear }));
    const onTwoNotes = chance(
      plain()
        .visit('a', today, ear, clock(today, '21:00'))
        .visit('a', today, loud, clock(today, '21:20')),
    );
    for (const both of [onOneNote, onTwoNotes]) {
      expect(both).toBeGreaterThanOrEqual(Math.min(byEar, byMeter) - 1e-9);
      expect(both).toBeLessThanOrEqual(Math.max(byEar, byMeter) + 1e-9);
    }
  });

  test('stands under why with its own word', () => {
    const season = plain().visit('a', today, loud);
    const reason = whyTonight(season.record(), asked, nest).find(({ kind }) => kind === 'sound')!;
    expect(reason.text).toBe('meter: waterfall by microphone, tonight');
    expect(reason.factor).toBeGreaterThan(2);
  });
});

describe('a rate without a likelihood', () => {
  test('moves a nest when nobody noted a sound, and adds nothing to a word by ear', () => {
    const rate = { scratch_per_min: 60, active_share: 0.1, instrument: 'microphone' };
    expect(chance(plain().visit('a', today, rate))).toBeGreaterThan(chance(plain()));
    const ear = { sound: 'steady', instrument: 'microphone' };
    expect(chance(plain().visit('a', today, { ...ear, ...rate }))).toBe(
      chance(plain().visit('a', today, ear)),
    );
  });
});
