import { addNights, type Night } from '../domain/night.ts';
import type { SeasonRecord } from '../log/season-record.ts';
import type { NestForecast, SeasonForecast } from './forecast.ts';

/** So many nights from the forecast's own on: a record is looked at again within them, or is old. */
const NIGHTS = 3;

/** So many nests a night, the likeliest first: nobody watches more before the rest is there. */
const NESTS = 20;

/** What a forecast says in short, to be shown at once the next time, while the record is opened. */
export interface Glance {
  /** When the odds stood so, epoch milliseconds. */
  readonly at_ms: number;
  /** IANA zone of the record. */
  readonly zone: string;
  /** Name of the programme; null when it has none. */
  readonly programme: string | null;
  readonly nights: readonly GlanceNight[];
}

export interface GlanceNight {
  readonly night: Night;
  /** The likeliest first. */
  readonly nests: readonly GlanceNest[];
}

export interface GlanceNest {
  readonly nest: string;
  readonly zone: string | null;
  /** Probability that it boils that night, as seen at `at_ms`. */
  readonly p: number;
}

/** A forecast of a record in short: the likeliest nests of its night and of those after. */
export function glanceOf(forecast: SeasonForecast, { zone, programme }: SeasonRecord): Glance {
  const { night, at_ms } = forecast.moment;
  const nights = Array.from({ length: NIGHTS }, (_, ahead) => addNights(night, ahead));
  const nests = [...forecast.nests].sort((a, b) => b.pNext3 - a.pNext3);
  return {
    at_ms,
    zone,
    programme: programme.name ?? null,
    nights: nights.map((one) => ({ night: one, nests: likeliest(nests, one) })),
  };
}

/**
 * The likeliest nests of one of the next three nights. `nests` come by their chance over all three,
 * which none of a single night exceeds, so that most need not be looked at.
 */
function likeliest(nests: readonly NestForecast[], night: Night): readonly GlanceNest[] {
  let found: readonly GlanceNest[] = [];
  for (const nest of nests) {
    if ((found[NESTS - 1]?.p ?? -1) >= nest.pNext3) break;
    const { id, zone } = nest.record.nest;
    const p = nest.distribution.find((chance) => chance.night === night)?.p ?? 0;
    found = [...found, { nest: id, zone, p }].sort((a, b) => b.p - a.p).slice(0, NESTS);
  }
  return found;
}

/** The part of a glance that speaks of a night; null when none does. */
export function glanceAt({ nights }: Glance, night: Night): GlanceNight | null {
  return nights.find((one) => one.night === night) ?? null;
}
