import { describe, expect, test } from 'vitest';
import { backtest, fatesIn } from '../../../src/core/forecast/backtest.ts';
import { calendarChance, learnedCalendar } from '../../../src/core/forecast/calendar-rule.ts';
import { ForecastMemory } from '../../../src/core/forecast/season-memory.ts';
import type { Night } from '../../../src/core/domain/night.ts';
import { formatNight } from '../../../src/core/domain/night.ts';
import { SeasonBuilder, clock, night } from '../../builders/season.ts';

const first = night('2026-05-01');
const on = (days: number): string => formatNight((first + days) as Night);

/** Nests laid a night apart; each boils after its own number of nights, watched. */
function season(nights: readonly number[], dipped: boolean): SeasonBuilder {
  const built = new SeasonBuilder().programme({ time_zone: 'America/New_York' });
  nights.forEach((count, index) => {
    const id = `n${index}`;
    built.nest(id, { lay_night: on(index) });
    for (let age = 45; age < count; age++) {
      built.visit(id, on(index + age), { kind: 'morning', tracks: 0, surface: 'smooth' });
    }
    if (dipped) {
      const early = clock(on(index + count), '17:00');
      built.visit(id, on(index + count), { surface: 'caved', sound: 'waterfall' }, early);
    }
    built.watch(id, on(index + count), '20:00', '23:30', 60);
  });
  return built;
}

// No two of them boil on the same night.
const nights = [50, 57, 53, 61, 55, 52, 59, 54, 60, 51];

describe('a season replayed', () => {
  const told = backtest(season(nights, true).record());

  test('counts the boils that the record knows of', () => {
    expect(told.boils).toBe(nights.length);
    expect([...fatesIn(season(nights, true).record(), new ForecastMemory()).values()]).toHaveLength(
      nights.length,
    );
  });

  test('meets every boil that announced itself, which the calendar does not', () => {
    const met = (score: typeof told.ours) =>
      score.metByRank.find(({ pairs }) => pairs === 1)!.share;
    expect(met(told.ours)).toBe(1);
    expect(met(told.calendar)).toBeLessThan(0.5);
    expect(told.ours.logScore).toBeGreaterThan(told.calendar.logScore);
    expect(told.ours.brier).toBeLessThan(told.calendar.brier);
  });

  test('sees nothing of the evening asked about but what was noted before 18:00', () => {
    // The same season with the tell-tale notes made at 20:00: they come too late for that evening.
    const late = new SeasonBuilder().programme({ time_zone: 'America/New_York' });
    nights.forEach((count, index) => {
      late.nest(`n${index}`, { lay_night: on(index) });
      const evening = clock(on(index + count), '20:00');
      late.visit(`n${index}`, on(index + count), { surface: 'caved' }, evening);
      late.watch(`n${index}`, on(index + count), '20:30', '23:30', 60);
    });
    const found = backtest(late.record());
    expect(found.ours.metByRank.find(({ pairs }) => pairs === 1)!.share).toBeLessThan(0.5);
  });

  test('more pairs meet no fewer boils', () => {
    for (const { metByRank } of [told.ours, told.calendar, told.learned]) {
      const shares = metByRank.map(({ share }) => share);
      expect(shares).toEqual([...shares].sort((a, b) => a - b));
    }
  });

  test('every nest and evening stands in one band of the reliability', () => {
    const n = told.reliability.reduce((sum, band) => sum + band.n, 0);
    const boils = told.reliability.reduce((sum, band) => sum + band.n * band.happened, 0);
    expect(boils).toBeCloseTo(nights.length, 9);
    expect(n).toBeGreaterThan(nights.length);
  });

  test('of a season without a boil has nothing to score', () => {
    const empty = backtest(new SeasonBuilder().nest('a').record());
    expect(empty).toMatchObject({ nights: 0, boils: 0, reliability: [] });
  });
});

describe('the calendar rules', () => {
  test('the learned one moves towards the nests that have come up', () => {
    expect(learnedCalendar([]).day).toBe(55);
    expect(learnedCalendar([60, 60, 60, 60]).day).toBeCloseTo((4 * 60 + 2 * 55) / 6, 10);
  });

  test('give a nest of day 55 a chance near one over the nights left to it', () => {
    const [nest] = new SeasonBuilder()
      .nest('a', { lay_night: on(0) })
      .record()
      .nests.values();
    const chance = calendarChance(nest!.nest, (first + 55) as Night, { day: 55, spread: 6 });
    // Half of the nests are left, 6.6 % of all come tonight: .92 x .0664 / (.92 x .533 + .08).
    expect(chance).toBeCloseTo(0.107, 3);
  });
});
