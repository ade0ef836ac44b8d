import { expect, test } from 'vitest';
import { inventedEvents, momentToShow } from '../../../src/app/wiring/invented-events.ts';
import { formatInstant } from '../../../src/core/domain/instant.ts';
import type { LoggedEvent } from '../../../src/core/log/event-log.ts';
import { SeasonBuilder } from '../../builders/season.ts';

test('the invented season opens at 19:40, or when somebody noted something in it last', () => {
  const events = inventedEvents();
  const opens_ms = momentToShow(events);
  expect(formatInstant(opens_ms, 'America/New_York')).toMatch(/T19:40/);

  const later_ms = opens_ms + 95 * 60_000;
  const noted: readonly LoggedEvent[] = new SeasonBuilder()
    .visit('W-001', '2026-07-20', { surface: 'dip' })
    .events.map((event) => ({
      state: 'known',
      event: { ...event, written: formatInstant(later_ms, 'America/New_York') },
    }));
  expect(momentToShow([...events, ...noted])).toBe(later_ms);
});
