import { describe, expect, test } from 'vitest';
import { hourOfEmergence } from '../../../src/core/forecast/hour-of-emergence.ts';
import { restOfNight } from '../../../src/core/forecast/rest-of-night.ts';
import { forecastSeason } from '../../../src/core/forecast/tonight.ts';
import type { NestId } from '../../../src/core/domain/nest.ts';
import { SeasonBuilder, clock, eveningOf, layNightBefore } from '../../builders/season.ts';

const today = '2026-07-20';
const nest = 'a' as NestId;
const due = () => new SeasonBuilder().nest('a', { lay_night: layNightBefore(today, 55) });
const HOUR_MS = 3_600_000;

describe('the hour of emergence', () => {
  const sunset_ms = clock(today, '20:00');
  const dusk = { sunset_ms, sunrise_ms: sunset_ms + 10.5 * HOUR_MS };
  const begun = hourOfEmergence(dusk, false);

  test('has the shares of the table, hour by hour after sunset', () => {
    const shares = [0.1, 0.18, 0.17, 0.14, 0.11, 0.09, 0.06, 0.05];
    shares.forEach((share, hour) => {
      const from_ms = sunset_ms + hour * HOUR_MS;
      expect(begun(from_ms + HOUR_MS) - begun(from_ms)).toBeCloseTo(share, 10);
    });
    expect(begun(sunset_ms)).toBeCloseTo(0.05, 10);
    expect(begun(dusk.sunrise_ms)).toBeCloseTo(1, 10);
  });

  test('comes earlier after a wet afternoon', () => {
    const wet = hourOfEmergence(dusk, true);
    expect(wet(sunset_ms + HOUR_MS)).toBeCloseTo(0.3 / 1.15, 10);
  });
});

describe('stay or go', () => {
  test('at noon the rest of the night is the whole of it', () => {
    const record = due().record();
    const moment = eveningOf(today, '12:00');
    const rest = restOfNight(record, moment, nest);
    expect(rest?.pRest).toBeCloseTo(forecastSeason(record, moment).nests[0]!.pTonight, 10);
  });

  test('falls as the night goes on and nothing comes', () => {
    const record = due().record();
    const chances = ['20:00', '21:30', '23:00', '25:00', '28:00'].map(
      (time) => restOfNight(record, eveningOf(today, time), nest)?.pRest ?? NaN,
    );
    for (let index = 1; index < chances.length; index++) {
      expect(chances[index]!).toBeLessThan(chances[index - 1]!);
    }
  });

  test('is what the odds of tonight are after that watch has been noted', () => {
    // Two ways to the same number: the watch noted as evidence, or counted by the clock. What the
    // note adds is the silence of stragglers, which is small.
    const at = eveningOf(today, '22:30');
    const noted = due().watch('a', today, '12:00', '22:30', 0).record();
    const viaEvidence = forecastSeason(noted, at).nests[0]!.pTonight;
    const byClock = restOfNight(due().record(), at, nest)!.pRest;
    expect(Math.abs(viaEvidence - byClock)).toBeLessThan(0.004);
    expect(restOfNight(noted, at, nest)!.pRest).toBeCloseTo(byClock, 10);
  });

  test('the hours to sunrise add up to the rest of the night', () => {
    const rest = restOfNight(due().record(), eveningOf(today, '22:10'), nest)!;
    const sum = rest.byHour.reduce((total, hour) => total + hour.p, 0);
    expect(sum).toBeCloseTo(rest.pRest, 10);
    expect(rest.byHour[0]).toMatchObject({ from_ms: clock(today, '22:10') });
  });

  test('is nothing for a nest that boiled, and null for one that is not there', () => {
    const boiled = due().watch('a', today, '20:30', '21:30', 50).record();
    expect(restOfNight(boiled, eveningOf(today, '22:00'), nest)?.pRest).toBe(0);
    expect(restOfNight(boiled, eveningOf(today), 'z' as NestId)).toBeNull();
  });
});
