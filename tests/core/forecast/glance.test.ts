import { expect, test } from 'vitest';
import { addNights } from '../../../src/core/domain/night.ts';
import { glanceAt, glanceOf } from '../../../src/core/forecast/glance.ts';
import { forecastSeason } from '../../../src/core/forecast/tonight.ts';
import { SeasonBuilder, clock, eveningOf, layNightBefore, zone } from '../../builders/season.ts';

const today = '2026-07-20';
const tomorrow = '2026-07-21';
const evening = eveningOf(today);

/** Nests laid 40 to 64 nights ago, named by their age; one of them dips. */
function season(): SeasonBuilder {
  const made = new SeasonBuilder();
  for (let age = 40; age < 65; age++) {
    made.nest(`W-${age}`, { zone: 'West', lay_night: layNightBefore(today, age) });
  }
  return made.visit('W-47', today, { surface: 'depression' }, clock(today, '17:00'));
}

const record = season().record();
const forecast = forecastSeason(record, evening);
const glance = glanceOf(forecast, record);

test('a glance of tonight is the top of the ranking, with the same chances', () => {
  expect(glanceAt(glance, evening.night)?.nests).toEqual(
    forecast.nests
      .slice(0, 20)
      .map(({ record: { nest }, pTonight }) => ({ nest: nest.id, zone: 'West', p: pTonight })),
  );
  expect(glance).toMatchObject({ at_ms: evening.at_ms, zone, programme: null });
});

test('a glance of tomorrow says what the forecast of tomorrow says when nothing is noted till then', () => {
  const later = forecastSeason(record, eveningOf(tomorrow));
  const kept = glanceAt(glance, addNights(evening.night, 1))?.nests ?? [];
  expect(kept).toHaveLength(20);
  const level = (id: string) => later.nests.find((nest) => nest.record.nest.id === id)?.pTonight;
  for (const { nest, p } of kept) expect(Math.abs((level(nest) ?? 0) - p)).toBeLessThan(0.01);
  const falling = kept.map(({ p }) => p);
  expect(falling).toEqual([...falling].sort((a, b) => b - a));
});

test('of a night that lies further off than three, or has gone by, a glance says nothing', () => {
  expect(glanceAt(glance, addNights(evening.night, 2))).not.toBeNull();
  expect(glanceAt(glance, addNights(evening.night, 3))).toBeNull();
  expect(glanceAt(glance, addNights(evening.night, -1))).toBeNull();
});
