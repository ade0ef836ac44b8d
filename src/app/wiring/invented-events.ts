import { type Night, atWallClock, parseNight } from '../../core/domain/night.ts';
import { writeCsv } from '../../core/exchange/csv/write-csv.ts';
import { readSeasonFolder } from '../../core/exchange/season-folder/read-season-folder.ts';
import { inventSeason } from '../../core/invented-season/invented-season.ts';
import type { LoggedEvent } from '../../core/log/event-log.ts';
import { busiestNight } from './busiest-night.ts';

/** The season to look around in; the same on every device. */
const nests = 120;
const seed = 4;

/** The invented season as a log holds it, its zone, and the evening on which most is going on. */
export function inventedEvents(): {
  readonly events: readonly LoggedEvent[];
  readonly zone: string;
  readonly evening: Night | null;
} {
  const { programme, tables, truth } = inventSeason({ nests, seed });
  const bytes = new TextEncoder();
  const files = new Map(
    tables.map(({ file, columns, rows }) => [
      file,
      bytes.encode(writeCsv([columns, ...rows], '\n')),
    ]),
  );
  files.set('programme.json', bytes.encode(JSON.stringify(programme)));
  const evening = busiestNight(truth.flatMap(({ night }) => night ?? []));
  const read = readSeasonFolder(files, {
    zone: programme.time_zone,
    author: 'invented',
    device: 'invented',
    now_ms: atWallClock(evening ?? parseNight('2026-09-01') ?? 0, 0, programme.time_zone),
  });
  const events = read.events.map((event) => ({ state: 'known', event }) as const);
  return { events, zone: programme.time_zone, evening };
}
