import { forecastSeason } from '../../../src/core/forecast/tonight.ts';
import type { SeasonEvent } from '../../../src/core/domain/event.ts';
import { eventIdOfRow } from '../../../src/core/log/event-id.ts';
import { fold } from '../../../src/core/log/fold.ts';
import { SeasonBuilder, eveningOf, zone } from '../../builders/season.ts';

const envelope = (at: string, key: string) => ({
  id: eventIdOfRow(Date.parse(at), key),
  schema: 1 as const,
  at,
  written: at,
  author: 'Test',
  device: 'test',
});

/** A record of which way hatchlings of a nest went on a night. */
export function orientation(nest: string, night: string, details: object): SeasonEvent {
  const at = `${night}T23:30-04:00`;
  const body = { kind: 'orientation-recorded', nest, details: { night, ...details } };
  return { ...envelope(at, `${nest} ${night}`), ...body } as unknown as SeasonEvent;
}

/** An inventory of a nest on a date. */
export function inventory(nest: string, date: string, details: object): SeasonEvent {
  const at = `${date}T09:00-04:00`;
  const body = { kind: 'inventory-recorded', nest, details: { date, ...details } };
  return { ...envelope(at, `${nest} ${date} inventory`), ...body } as unknown as SeasonEvent;
}

/**
 * Eight nests of two zones on the evening of 1 August: met, missed, unseen, lost, never, not told,
 * and two still waiting, one of them long overdue.
 */
export function toldSeason(more: readonly SeasonEvent[] = []) {
  const made = new SeasonBuilder()
    .programme({ time_zone: zone, name: 'Tern Beach', latitude: 30, longitude: -81 })
    .nest('met', { zone: 'North', lay_night: '2026-05-04', clutch: 100 })
    .watch('met', '2026-06-27', '21:00', '23:00', 70)
    .nest('missed', { zone: 'South', lay_night: '2026-05-05', lay_night_latest: '2026-05-07' })
    .visit('missed', '2026-06-30', { kind: 'morning', tracks: 40 })
    .nest('unseen', { zone: 'South', lay_night: '2026-05-08', clutch: 90 })
    .visit('unseen', '2026-06-20', { event: 'washover' })
    .nest('lost', { zone: 'North', lay_night: '2026-05-20' })
    .visit('lost', '2026-06-21', { event: 'washover' })
    .visit('lost', '2026-06-25', { event: 'washout' })
    .nest('never', { zone: 'North', lay_night: '2026-05-10' })
    .nest('untold', { lay_night: '2026-05-11' })
    .nest('young', { zone: 'South', lay_night: '2026-07-20' })
    .nest('overdue', { zone: 'North', lay_night: '2026-05-12' });
  const inventories = [
    inventory('unseen', '2026-07-25', { shells: 60, unhatched: 30 }),
    inventory('never', '2026-07-26', { shells: 0, unhatched: 80 }),
    inventory('untold', '2026-07-27', { unhatched: 80 }),
    inventory('met', '2026-06-30', { shells: 80, unhatched: 20, live_in_nest: 2, dead_in_nest: 8 }),
  ];
  const record = fold([...made.events, ...inventories, ...more], zone);
  const forecast = forecastSeason(record, eveningOf('2026-08-01'));
  return { record, forecast };
}
