import { describe, expect, test } from 'vitest';
import { ForecastMemory } from '../../../src/core/forecast/season-memory.ts';
import { writesFindsOnly } from '../../../src/core/forecast/silence.ts';
import { forecastSeason } from '../../../src/core/forecast/tonight.ts';
import { whyTonight } from '../../../src/core/forecast/why.ts';
import type { NestId } from '../../../src/core/domain/nest.ts';
import type { Night } from '../../../src/core/domain/night.ts';
import { formatNight } from '../../../src/core/domain/night.ts';
import { SeasonBuilder, eveningOf, layNightBefore, night } from '../../builders/season.ts';

const today = '2026-07-30';
const waiting = 'waiting' as NestId;

/** Ten nests that came up, their tracks counted; one of 60 nights without a note. */
function season(blanks: boolean): SeasonBuilder {
  const built = new SeasonBuilder();
  for (let nest = 0; nest < 10; nest++) {
    const name = `n${nest}`;
    built.nest(name, { lay_night: layNightBefore(today, 75 - nest) });
    const boil = layNightBefore(today, 20 - nest);
    built.visit(name, boil, { kind: 'morning', tracks: 60 });
    if (!blanks) continue;
    for (let back = 1; back <= 3; back++) {
      const earlier = formatNight((night(boil) - back) as Night);
      built.visit(name, earlier, { kind: 'morning', tracks: 0 });
    }
  }
  return built.nest(waiting, { lay_night: layNightBefore(today, 60) });
}

const waitingTonight = (blanks: boolean) =>
  forecastSeason(season(blanks).record(), eveningOf(today)).nests.find(
    ({ record }) => record.nest.id === waiting,
  );

describe('a beach where finds alone are written down', () => {
  test('is told by its record', () => {
    const { at_ms } = eveningOf(today);
    expect(writesFindsOnly(season(false).record(), 10, at_ms)).toBe(true);
    expect(writesFindsOnly(season(true).record(), 10, at_ms)).toBe(false);
    expect(writesFindsOnly(new SeasonBuilder().record(), 10, at_ms)).toBe(false);
  });

  test('that nothing was reported says that a nest has not come up yet', () => {
    const told = waitingTonight(false)!;
    const untold = waitingTonight(true)!;
    expect(told.pAlready).toBeLessThan(untold.pAlready / 3);
    expect(told.pTonight).toBeGreaterThan(untold.pTonight);
    const sum = told.distribution.reduce((all, { p }) => all + p, told.pAlready + told.pNever);
    expect(sum).toBeCloseTo(1, 9);
  });

  test('is among the reasons', () => {
    const reasons = whyTonight(season(false).record(), eveningOf(today), waiting);
    const silence = reasons.find(({ text }) => text.startsWith('no boil reported'));
    expect(silence!.factor).toBeGreaterThan(1);
  });

  test('an evening later the silence is one night longer', () => {
    const memory = new ForecastMemory();
    const record = season(false).record();
    const first = forecastSeason(record, eveningOf(today), memory);
    const next = forecastSeason(record, eveningOf('2026-07-31'), memory);
    const plain = forecastSeason(record, eveningOf('2026-07-31'));
    expect(next.nests[0]!.pTonight).toBeCloseTo(plain.nests[0]!.pTonight, 6);
    expect(next.nests[0]!.pAlready).not.toBe(first.nests[0]!.pAlready);
  });
});
