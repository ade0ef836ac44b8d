import type { TableName } from '../../../core/domain/event.ts';
import type { DateOrder } from '../../../core/exchange/mapping/date-order.ts';

/** What a table of ours holds, as it is asked. */
export const tableWords: Readonly<Record<TableName, string>> = {
  nests: 'nests, one a row',
  visits: 'notes of visits and sits',
  conditions: 'sand, air and rain by date',
  volunteers: 'volunteers',
  availability: 'who can come when',
  orientation: 'which way hatchlings went',
  inventory: 'counts of opened nests',
};

const columnWords: Readonly<Record<string, string>> = {
  nest: 'nest (its number or name)',
  lay_night: 'night it was laid',
  lay_night_latest: 'latest night it may have been laid',
  latitude: 'latitude, north',
  longitude: 'longitude, east',
  shore_m: 'distance along the shore',
  clutch: 'eggs in the clutch',
  light_exposure: 'lamp light, 0 to 3',
  time: 'time of the visit (date, hour or both)',
  kind: 'evening or morning',
  tracks: 'hatchling tracks counted',
  event: 'washover, washout, predation',
  watched_from: 'watched from',
  watched_to: 'watched to',
  emerged: 'hatchlings that came up',
  scratch_per_min: 'scratches a minute',
  active_share: 'share of time active',
  level_db: 'level over the noise, dB',
  sand_c: 'temperature of the sand',
  air_c: 'temperature of the air',
  rain_mm: 'rain',
  max_shifts_week: 'most shifts a week',
  seaward_deg: 'direction of the sea',
  shells: 'empty shells',
  counting: 'part or whole counted',
  back_to_back: 'two nights in a row',
};

/** A column of ours as it is chosen from. */
export function columnText(name: string): string {
  return columnWords[name] ?? name.replaceAll('_', ' ').replace(/ deg$/, ', degrees');
}

const longDate = new Intl.DateTimeFormat('en-GB', { dateStyle: 'long', timeZone: 'UTC' });

/** `3 April 2026` of `2026-04-03`; as it is where it is no date. */
export function dateText(iso: string): string {
  const at_ms = Date.parse(`${iso}T00:00Z`);
  return Number.isNaN(at_ms) ? iso : longDate.format(at_ms);
}

/** How an order of day and month is named where the example cannot be read by it. */
export function orderText(order: DateOrder): string {
  return { 'day first': 'day, month', 'month first': 'month, day', 'year first': 'year, month' }[
    order
  ];
}

/** The date after one, as it is told. */
export function dayAfter(iso: string): string {
  return dateText(new Date(Date.parse(`${iso}T00:00Z`) + 86_400_000).toISOString().slice(0, 10));
}
