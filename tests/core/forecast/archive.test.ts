import { describe, expect, test } from 'vitest';
import { type Archive, learnArchive } from '../../../src/core/forecast/archive.ts';
import { ForecastMemory } from '../../../src/core/forecast/season-memory.ts';
import { forecastSeason } from '../../../src/core/forecast/tonight.ts';
import type { Night } from '../../../src/core/domain/night.ts';
import { formatNight } from '../../../src/core/domain/night.ts';
import type { SeasonRecord } from '../../../src/core/log/season-record.ts';
import { SeasonBuilder, eveningOf, layNightBefore, night } from '../../builders/season.ts';

/** Days from the first clutch to each of the others, over eleven weeks. */
const layDays = Array.from({ length: 44 }, (_, index) => Math.round(index * 1.75));

/**
 * A finished season: clutches take `early` nights at first and `late` at the end; some never come up,
 * looked at every dawn until long past their time.
 */
function finished(year: number, early: number, late: number, lost = 0): SeasonRecord {
  const season = new SeasonBuilder();
  const first = night(`${year}-04-20`);
  layDays.forEach((days, index) => {
    const id = `${year}-${index}`;
    const laid = (first + days) as Night;
    const share = days / layDays[layDays.length - 1]!;
    const zone = index % 2 === 0 ? 'shade' : 'open';
    season.nest(id, { lay_night: formatNight(laid), zone });
    const wobble = (index % 3) - 1;
    const nights =
      Math.round(early + (late - early) * share) + wobble + (zone === 'shade' ? 2 : -2);
    if (index < lost) {
      for (let age = 40; age < 100; age++) {
        season.visit(id, formatNight((laid + age) as Night), { kind: 'morning', tracks: 0 });
      }
    } else {
      season.watch(id, formatNight((laid + nights) as Night), '20:30', '23:59', 60);
    }
  });
  return season.record();
}

const learn = (records: SeasonRecord[]): Archive => {
  const archive = learnArchive(records, () => new ForecastMemory());
  if (archive === null) throw new Error('nothing learned');
  return archive;
};

describe('finished seasons', () => {
  const archive = learn([finished(2023, 66, 53), finished(2024, 65, 52), finished(2025, 67, 54)]);

  /** Median night of a new season's clutch, as nights from laying, before anything is noted. */
  function medianNights(lay: string, zone: string, with_: Archive | null): number {
    const season = new SeasonBuilder().nest('new', { lay_night: lay, zone });
    const memory = new ForecastMemory({ archive: with_ });
    const { nests } = forecastSeason(season.record(), eveningOf(lay), memory);
    return nests[0]!.medianNight! - night(lay);
  }

  test('teach that early clutches take longer than late ones', () => {
    expect(archive.converged).toBe(true);
    const early = medianNights('2026-04-22', 'open', archive);
    const late = medianNights('2026-07-01', 'open', archive);
    expect(early - late).toBeGreaterThanOrEqual(9);
    expect(Math.abs(early - 64)).toBeLessThanOrEqual(3);
    expect(Math.abs(late - 51)).toBeLessThanOrEqual(3);
    expect(medianNights('2026-04-22', 'open', null)).toBe(55);
  });

  test('teach the habits of zones', () => {
    const shade = medianNights('2026-05-25', 'shade', archive);
    const open = medianNights('2026-05-25', 'open', archive);
    expect(shade - open).toBeGreaterThanOrEqual(2);
  });

  test('teach how widely nests of one beach scatter', () => {
    // These scatter by less than a night about what their zone and date say, not by 4.5.
    expect(archive.spreadFactor).toBeLessThan(0.9);
  });

  test('that hardly differ leave a season level that is better known than a first season’s', () => {
    const season = new SeasonBuilder().nest('new', { lay_night: '2026-05-25', zone: 'open' });
    const asked = eveningOf('2026-05-25');
    const sd = (memory: ForecastMemory): number =>
      forecastSeason(season.record(), asked, memory).level.sd;
    expect(sd(new ForecastMemory({ archive }))).toBeLessThan(0.7 * sd(new ForecastMemory()));
  });

  test('teach the share that never comes up', () => {
    const losing = learn([finished(2024, 60, 55, 16), finished(2025, 60, 55, 16)]);
    const keeping = learn([finished(2024, 60, 55), finished(2025, 60, 55)]);
    const species = 'Caretta caretta';
    expect(losing.never.get(species)!).toBeGreaterThan(0.2);
    expect(keeping.never.get(species)!).toBeLessThan(0.05);
  });
});

test('a season without any nest of known lay night teaches nothing', () => {
  const blank = new SeasonBuilder().nest('a', { lay_night: null });
  blank.visit('a', layNightBefore('2026-07-20', 1), { surface: 'dip' });
  expect(learnArchive([blank.record()], () => new ForecastMemory())).toBeNull();
  expect(learnArchive([], () => new ForecastMemory())).toBeNull();
});
