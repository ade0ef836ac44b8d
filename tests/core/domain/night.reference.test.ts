import { Temporal } from 'temporal-polyfill';
import { describe, expect, test } from 'vitest';
import {
  asNight,
  atWallClock,
  formatNight,
  nightBounds,
  nightOf,
} from '../../../src/core/domain/night.ts';

// Truth: the clocks of the zone as Node's own ICU tells them (Intl), which shares no code with
// what is tested, and the lengths of days by Temporal. Zones that change their clocks by an hour and
// by half an hour, on both halves of the Earth, and one that does not.
const zones = ['America/New_York', 'Europe/Athens', 'Australia/Lord_Howe', 'Australia/Brisbane'];
const HOUR_MS = 3_600_000;

function clockOf(zone: string): (at_ms: number) => { date: string; hour: number } {
  const clock = new Intl.DateTimeFormat('en-CA', {
    timeZone: zone,
    hourCycle: 'h23',
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
    hour: '2-digit',
  });
  return (at_ms) => {
    const parts = new Map(clock.formatToParts(at_ms).map(({ type, value }) => [type, value]));
    const date = `${parts.get('year')}-${parts.get('month')}-${parts.get('day')}`;
    return { date, hour: Number(parts.get('hour')) };
  };
}

describe.each(zones)('nights in %s', (zone) => {
  const read = clockOf(zone);

  test('run from noon to noon on its clocks, every half hour of two years', () => {
    for (let at_ms = Date.UTC(2026, 0, 1); at_ms < Date.UTC(2028, 0, 1); at_ms += HOUR_MS / 2) {
      const { date, hour } = read(at_ms);
      const evening = Date.parse(`${date}T00:00Z`) - (hour < 12 ? 24 * HOUR_MS : 0);
      const expected = new Date(evening).toISOString().slice(0, 10);
      const found = formatNight(nightOf(at_ms, zone));
      if (found !== expected) expect({ at: new Date(at_ms), found }).toEqual({ expected });
    }
  });

  test('are as long as Temporal says, a clock change included', () => {
    const lengths = new Set<number>();
    for (let day = 20_454; day < 20_820; day++) {
      const { from_ms, to_ms } = nightBounds(asNight(day), zone);
      const noon = Temporal.PlainDate.from(formatNight(asNight(day))).toZonedDateTime({
        timeZone: zone,
        plainTime: '12:00',
      });
      expect(from_ms).toBe(noon.epochMilliseconds);
      expect(to_ms).toBe(noon.add({ days: 1 }).epochMilliseconds);
      lengths.add((to_ms - from_ms) / HOUR_MS);
    }
    const change_h = { 'Australia/Lord_Howe': 0.5, 'Australia/Brisbane': 0 }[zone] ?? 1;
    expect([...lengths].sort()).toEqual([...new Set([24 - change_h, 24, 24 + change_h])]);
  });

  test('hold every instant between their bounds and none beside', () => {
    const night = asNight(20_654);
    const { from_ms, to_ms } = nightBounds(night, zone);
    expect(
      [from_ms - 1, from_ms, to_ms - 1, to_ms].map((at_ms) => nightOf(at_ms, zone) - night),
    ).toEqual([-1, 0, 0, 1]);
    expect(read(atWallClock(night, 130, zone)).hour).toBe(2);
  });
});

// From the contract of the tables: a sighting at 02:10 on 21 July belongs to the night of 20 July.
test('02:10 on 21 July belongs to the night of 20 July', () => {
  const at_ms = Date.parse('2026-07-21T02:10-04:00');
  expect(formatNight(nightOf(at_ms, 'America/New_York'))).toBe('2026-07-20');
});
