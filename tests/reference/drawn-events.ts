import type { SeasonEvent } from '../../src/core/domain/event.ts';
import type { InstantText } from '../../src/core/domain/instant.ts';
import { type Night, formatNight } from '../../src/core/domain/night.ts';
import { eventIdOfRow } from '../../src/core/log/event-id.ts';
import { fold } from '../../src/core/log/fold.ts';
import type { SeasonRecord } from '../../src/core/log/season-record.ts';
import { zone } from '../builders/season.ts';

/** A time of the day of a night's evening; drawn seasons lie in the months of summer time. */
export function instant(night: Night, time: `T${string}`): InstantText {
  return `${formatNight(night)}${time}-04:00` as InstantText;
}

/** The events of a drawn season. A hundred times faster than reckoning each hour by the time zone. */
export class DrawnEvents {
  readonly #events: SeasonEvent[] = [];

  nest(id: string, laid: Night, details: Record<string, unknown>): void {
    this.#push(instant(laid, 'T23:00'), { kind: 'nest-registered', nest: id, details });
  }

  visit(id: string, day: Night, time: `T${string}`, details: Record<string, unknown>): void {
    this.#push(instant(day, time), {
      kind: 'visit-noted',
      nest: id,
      details: { kind: 'evening', ...details },
    });
  }

  record(): SeasonRecord {
    return fold(this.#events, zone);
  }

  #push(at: InstantText, body: Record<string, unknown>): void {
    const id = eventIdOfRow(Date.parse(at), `${this.#events.length} ${JSON.stringify(body)}`);
    const envelope = { id, schema: 1, at, written: at, author: 'Test', device: 'test' };
    this.#events.push({ ...envelope, ...body } as SeasonEvent);
  }
}
