import type { Rain, Visit, Wind } from '../../../core/domain/visit.ts';
import type { NestId } from '../../../core/domain/nest.ts';
import { nightOf } from '../../../core/domain/night.ts';
import type { SeasonRecord } from '../../../core/log/season-record.ts';

/** Minutes for which weather that was noted still counts as that of now. */
const sameEvening_min = 8 * 60;

/** What a person need not say again this evening. */
export interface Remembered {
  readonly wind: Wind | null;
  readonly rain: Rain | null;
}

/**
 * The wind and the rain that this observer noted last, on the same night and within eight hours.
 * They come from the record, so that closing the page forgets nothing.
 */
export function rememberedWeather(
  record: SeasonRecord,
  observer: string | null,
  now_ms: number,
): Remembered {
  const night = nightOf(now_ms, record.zone);
  let [wind, rain]: [Visit | null, Visit | null] = [null, null];
  for (const visit of recentVisits(record, now_ms - sameEvening_min * 60_000, now_ms)) {
    if (visit.observer !== observer || nightOf(visit.at_ms, record.zone) !== night) continue;
    if (visit.wind !== null && visit.at_ms >= (wind?.at_ms ?? 0)) wind = visit;
    if (visit.rain !== null && visit.at_ms >= (rain?.at_ms ?? 0)) rain = visit;
  }
  return { wind: wind?.wind ?? null, rain: rain?.rain ?? null };
}

/** Visits of all nests in a span of time, newest first within each nest. */
export function* recentVisits(
  record: SeasonRecord,
  from_ms: number,
  to_ms: number,
): Generator<Visit> {
  for (const { visits } of record.nests.values()) {
    for (let index = visits.length - 1; index >= 0; index--) {
      const visit = visits[index];
      if (visit === undefined || visit.at_ms < from_ms) break;
      if (visit.at_ms <= to_ms) yield visit;
    }
  }
}

/** When each nest was noted last in the night that an instant belongs to, epoch milliseconds. */
export function notedTonight(record: SeasonRecord, now_ms: number): ReadonlyMap<NestId, number> {
  const night = nightOf(now_ms, record.zone);
  const noted = new Map<NestId, number>();
  for (const visit of recentVisits(record, now_ms - 86_400_000, now_ms)) {
    if (nightOf(visit.at_ms, record.zone) !== night) continue;
    if (visit.at_ms > (noted.get(visit.nest) ?? 0)) noted.set(visit.nest, visit.at_ms);
  }
  return noted;
}
