import type { SeasonEvent } from '../../src/core/domain/event.ts';
import type { InstantText } from '../../src/core/domain/instant.ts';
import { formatInstant } from '../../src/core/domain/instant.ts';
import type { NestDetails } from '../../src/core/domain/nest.ts';
import { type Night, atWallClock, formatNight, parseNight } from '../../src/core/domain/night.ts';
import type { Programme } from '../../src/core/domain/programme.ts';
import type { VisitDetails } from '../../src/core/domain/visit.ts';
import { eventIdOfRow } from '../../src/core/log/event-id.ts';
import { fold } from '../../src/core/log/fold.ts';
import type { SeasonRecord } from '../../src/core/log/season-record.ts';
import type { Moment } from '../../src/core/forecast/forecast.ts';

export const zone = 'America/New_York';

/** The night of a date; throws on one that does not exist. */
export function night(text: string): Night {
  const found = parseNight(text);
  if (found === null) throw new Error(`No such night: ${text}`);
  return found;
}

/** An instant on the clocks of the test season, such as `clock('2026-07-20', '21:10')`. */
export function clock(date: string, time: string, dayLater = 0): number {
  const [hour, minute] = time.split(':').map(Number) as [number, number];
  return atWallClock(night(date) + dayLater, hour * 60 + minute, zone);
}

/** The usual moment of asking: 18:00 on the evening of a night. */
export function eveningOf(date: string, time = '18:00'): Moment {
  return { night: night(date), at_ms: clock(date, time) };
}

/** Builds a season's events one line at a time. */
export class SeasonBuilder {
  readonly events: SeasonEvent[] = [];

  programme(programme: Programme): this {
    const at = formatInstant(clock('2026-01-01', '12:00'), zone);
    this.#push(at, { kind: 'programme-described', programme });
    return this;
  }

  nest(id: string, details: Partial<Record<keyof NestDetails, unknown>> = {}): this {
    const layNight = typeof details.lay_night === 'string' ? details.lay_night : '2026-05-01';
    const at = formatInstant(clock(layNight, '23:00'), zone);
    this.#push(at, {
      kind: 'nest-registered',
      nest: id,
      details: { species: 'Caretta caretta', ...details },
    });
    return this;
  }

  /** An evening note at 21:00, or a dawn one at 06:30 of the next morning, unless `at_ms` says. */
  visit(
    id: string,
    date: string,
    details: Partial<Record<keyof VisitDetails, unknown>>,
    at_ms?: number,
  ): this {
    const dawn = details.kind === 'morning';
    const when = at_ms ?? (dawn ? clock(date, '06:30', 1) : clock(date, '21:00'));
    this.#push(formatInstant(when, zone), {
      kind: 'visit-noted',
      nest: id,
      details: { kind: 'evening', experience: 'trained', ...details },
    });
    return this;
  }

  /** A watch from one clock time to another of one night; times past midnight as 24:00 and more. */
  watch(id: string, date: string, from: string, to: string, emerged: number): this {
    return this.visit(
      id,
      date,
      {
        watched_from: formatInstant(clock(date, from), zone),
        watched_to: formatInstant(clock(date, to), zone),
        emerged,
      },
      clock(date, from),
    );
  }

  record(): SeasonRecord {
    return fold(this.events, zone);
  }

  #push(at: InstantText, body: Record<string, unknown>): void {
    const id = eventIdOfRow(Date.parse(at), `${this.events.length} ${JSON.stringify(body)}`);
    const envelope = { id, schema: 1, at, written: at, author: 'Test', device: 'test' };
    this.events.push({ ...envelope, ...body } as SeasonEvent);
  }
}

/** A loggerhead laid so many nights before a date. */
export function layNightBefore(date: string, nights: number): string {
  return formatNight((night(date) - nights) as Night);
}
