import type { TableName } from '../../../core/domain/event.ts';
import type { DateOrder } from '../../../core/exchange/mapping/date-order.ts';
import { localeTag } from '../../../core/domain/locale.ts';

/** What a table of ours holds, as it is asked. */
export const tableWords: Readonly<Record<TableName, string>> = {
  nests: 'nests, one a row',
  visits: 'notes of visits and sits',
  conditions: 'sand, air and rain by date',
  volunteers: /* @wc-include */ 'volunteers',
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
  rain_mm: /* @wc-include */ 'rain',
  max_shifts_week: 'most shifts a week',
  seaward_deg: 'direction of the sea',
  shells: 'empty shells',
  counting: 'part or whole counted',
  back_to_back: 'two nights in a row',
  astray: /* @wc-include */ 'astray',
  available: /* @wc-include */ 'available',
  cloud: /* @wc-include */ 'cloud',
  date: /* @wc-include */ 'date',
  dead_in_nest: /* @wc-include */ 'dead in nest',
  denominator: /* @wc-include */ 'denominator',
  depredated: /* @wc-include */ 'depredated',
  disoriented: /* @wc-include */ 'disoriented',
  emergence: /* @wc-include */ 'emergence',
  experience: /* @wc-include */ 'experience',
  fate_unknown: /* @wc-include */ 'fate unknown',
  first_out: /* @wc-include */ 'first out',
  found_alive: /* @wc-include */ 'found alive',
  found_dead: /* @wc-include */ 'found dead',
  from: /* @wc-include */ 'from',
  instrument: /* @wc-include */ 'instrument',
  lamps: /* @wc-include */ 'lamps',
  last_out: /* @wc-include */ 'last out',
  leftmost_deg: /* @wc-include */ 'leftmost, degrees',
  light_source: /* @wc-include */ 'light source',
  live_in_nest: /* @wc-include */ 'live in nest',
  meter_occasional: /* @wc-include */ 'meter occasional',
  meter_quiet: /* @wc-include */ 'meter quiet',
  meter_steady: /* @wc-include */ 'meter steady',
  meter_waterfall: /* @wc-include */ 'meter waterfall',
  modal_deg: /* @wc-include */ 'modal, degrees',
  moon: /* @wc-include */ 'moon',
  night: /* @wc-include */ 'night',
  note: /* @wc-include */ 'note',
  observer: /* @wc-include */ 'observer',
  outcome: /* @wc-include */ 'outcome',
  pipped_dead: /* @wc-include */ 'pipped dead',
  pipped_live: /* @wc-include */ 'pipped live',
  rain: /* @wc-include */ 'rain',
  reached_sea: /* @wc-include */ 'reached sea',
  reached_water: /* @wc-include */ 'reached water',
  relocated: /* @wc-include */ 'relocated',
  rightmost_deg: /* @wc-include */ 'rightmost, degrees',
  role: /* @wc-include */ 'role',
  screened: /* @wc-include */ 'screened',
  sound: /* @wc-include */ 'sound',
  species: /* @wc-include */ 'species',
  surface: /* @wc-include */ 'surface',
  taken: /* @wc-include */ 'taken',
  team: /* @wc-include */ 'team',
  to: /* @wc-include */ 'to',
  track_bearings: /* @wc-include */ 'track bearings',
  tracks_counted: /* @wc-include */ 'tracks counted',
  unhatched: /* @wc-include */ 'unhatched',
  volunteer: /* @wc-include */ 'volunteer',
  way: /* @wc-include */ 'way',
  wind: /* @wc-include */ 'wind',
  zone: /* @wc-include */ 'zone',
  zones: /* @wc-include */ 'zones',
};

/** A column of ours as it is chosen from. */
export function columnText(name: string): string {
  return columnWords[name] ?? name.replaceAll('_', ' ').replace(/ deg$/, ', degrees');
}

const longDate = new Intl.DateTimeFormat(localeTag, { dateStyle: 'long', timeZone: 'UTC' });

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
