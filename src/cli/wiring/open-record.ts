import type { SeasonEvent } from '../../core/domain/event.ts';
import { type EventLog, knownOf } from '../../core/log/event-log.ts';
import { fold } from '../../core/log/fold.ts';
import type { SeasonRecord } from '../../core/log/season-record.ts';
import { openJsonLinesLog } from '../../edges/disk/json-lines-log.ts';

export type RecordRead =
  | { readonly ok: true; readonly record: SeasonRecord }
  | { readonly ok: false; readonly message: string };

/** The record that a log on disk holds; an empty one when there is no such file yet. */
export async function readRecord(path: string, zone: string): Promise<RecordRead> {
  return withLog(path, async (log) => {
    const read = await log.read();
    if (!read.ok) return { ok: false, message: read.problem.message };
    return { ok: true, record: fold(knownOf(read.events), zone) };
  });
}

export type EventsAppended =
  { readonly ok: true; readonly added: number } | { readonly ok: false; readonly message: string };

/** Adds events to a log on disk; those that are there already add nothing. */
export async function appendEvents(
  path: string,
  events: readonly SeasonEvent[],
): Promise<EventsAppended> {
  return withLog(path, async (log) => {
    const appended = await log.append(events.map((event) => ({ state: 'known', event })));
    if (!appended.ok) return { ok: false, message: appended.problem.message };
    return { ok: true, added: appended.added };
  });
}

async function withLog<T>(path: string, use: (log: EventLog) => Promise<T>): Promise<T> {
  const log = await openJsonLinesLog(path);
  try {
    return await use(log);
  } finally {
    await log.close();
  }
}
