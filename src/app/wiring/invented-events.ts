import type { SeasonEvent } from '../../core/domain/event.ts';
import { parseInstant } from '../../core/domain/instant.ts';
import { type Night, asNight, nightOf } from '../../core/domain/night.ts';
import { writeCsv } from '../../core/exchange/csv/write-csv.ts';
import { readSeasonFolder } from '../../core/exchange/season-folder/read-season-folder.ts';
import { inventSeason } from '../../core/invented-season/invented-season.ts';
import type { LoggedEvent } from '../../core/log/event-log.ts';
import { busiestNight } from './busiest-night.ts';

/** The season to look around in; the same on every device. */
const nests = 120;
const seed = 4;

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
    author: 'invented',
    device: 'invented',
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

/** The evening on which most is going on, by what was noted, and the zone of its clocks. */
export function eveningToShow(events: readonly LoggedEvent[]): { night: Night; zone: string } {
  const known = events.flatMap((entry) => (entry.state === 'known' ? [entry.event] : []));
  const zone = known.flatMap(zoneOf)[0] ?? 'UTC';
  const boils = known.filter(isBoil).map((event) => nightOf(parseInstant(event.at) ?? 0, zone));
  return { night: busiestNight(boils) ?? asNight(0), zone };
}

function zoneOf(event: SeasonEvent): string[] {
  return event.kind === 'programme-described' ? [event.programme.time_zone ?? 'UTC'] : [];
}

function isBoil(event: SeasonEvent): boolean {
  if (event.kind !== 'visit-noted') return false;
  return (event.details.tracks ?? 0) >= 10 || (event.details.emerged ?? 0) >= 10;
}
