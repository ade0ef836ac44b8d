import type { SeasonEvent } from '../../core/domain/event.ts';
import { parseInstant } from '../../core/domain/instant.ts';
import { asNight, nightOf } from '../../core/domain/night.ts';
import { writeCsv } from '../../core/exchange/csv/write-csv.ts';
import { readSeasonFolder } from '../../core/exchange/season-folder/read-season-folder.ts';
import { inventSeason } from '../../core/invented-season/invented-season.ts';
import { knownOf, type LoggedEvent } from '../../core/log/event-log.ts';
import { eveningOf } from '../state/evening.ts';
import { busiestNight } from './busiest-night.ts';

/** The season to look around in; the same on every device. */
const nests = 120;
const seed = 4;
const inventor = 'invented';

/** The invented season as a log holds it, read from its tables like any other. */
export function inventedEvents(): readonly LoggedEvent[] {
  const { programme, tables } = inventSeason({ nests, seed });
  const utf8 = new TextEncoder();
  const files = new Map(
    tables.map(({ file, columns, rows }) => [
      file,
      utf8.encode(writeCsv([columns, ...rows], '\n')),
    ]),
  );
  files.set('programme.json', utf8.encode(JSON.stringify(programme)));
  const read = readSeasonFolder(files, {
    zone: programme.time_zone,
    author: inventor,
    device: inventor,
    now_ms: Infinity,
  });
  return withPermitHolder(read.events).map((event) => ({ state: 'known', event }));
}

/** The first of the invented leads holds the permit, so that inventories can be looked at. */
function withPermitHolder(events: readonly SeasonEvent[]): readonly SeasonEvent[] {
  const holder = events.find(
    (event) => event.kind === 'volunteer-enrolled' && event.details.experience === 'lead',
  );
  return events.map((event) =>
    event === holder && event.kind === 'volunteer-enrolled'
      ? { ...event, details: { ...event.details, role: 'permit holder' } }
      : event,
  );
}

/**
 * When the clock of the invented season begins, epoch milliseconds: on the evening on which most is
 * going on, or when somebody wrote something down in it last, which would be hidden before.
 */
export function momentToShow(events: readonly LoggedEvent[]): number {
  const known = knownOf(events);
  const zone = known.flatMap(zoneOf)[0] ?? 'UTC';
  const boils = known.filter(isBoil).map((event) => nightOf(parseInstant(event.at) ?? 0, zone));
  return known
    .filter(({ device }) => device !== inventor)
    .map(({ written }) => parseInstant(written) ?? 0)
    .reduce((last, at) => Math.max(last, at), eveningOf(busiestNight(boils) ?? asNight(0), zone));
}

function zoneOf(event: SeasonEvent): string[] {
  return event.kind === 'programme-described' ? [event.programme.time_zone ?? 'UTC'] : [];
}

function isBoil(event: SeasonEvent): boolean {
  if (event.kind !== 'visit-noted') return false;
  return (event.details.tracks ?? 0) >= 10 || (event.details.emerged ?? 0) >= 10;
}
