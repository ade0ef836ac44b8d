import * as z from 'zod/mini';
import type { Asker } from '../access/asker.ts';
import { asDevice } from '../database/as-device.ts';
import type { Database, Sql } from '../database/database.ts';
import { rows } from '../database/rows.ts';
import { type Outcome, done, turnedAway } from '../turned-away.ts';
import { type Cursor, readCursor, writeCursor } from './cursor.ts';

/** Events on one page, at most, and about how many characters of JSON. */
export const mostOnPage = 1000;
const charactersOnPage = 1_000_000;

/** One event as it is given out. */
export interface PageEvent {
  readonly event: unknown;
  /** Who handed it to the hub, where that was not the device that wrote it. */
  readonly brought_by: string | null;
}

/** A stretch of the record. */
export interface Page {
  readonly events: readonly PageEvent[];
  readonly cursor: string;
  readonly more: boolean;
  /** How many events are left after this page. */
  readonly behind: number;
}

/** A page, and how many events the cursor that was asked with stands for. */
export interface PageRead {
  readonly page: Page;
  readonly readBefore: number;
}

const unknownCursor = turnedAway(
  409,
  'cursor unknown',
  'This hub does not know the place up to which this device has read, as after a restored backup. The device reads from the beginning and offers again what it has.',
);

/** The events after a cursor that a device may read; null: from the beginning. */
export async function readPage(
  database: Database,
  asker: Asker,
  after: string | null,
  limit: number,
): Promise<Outcome<PageRead>> {
  const cursor = after === null ? { programme: asker.programme, teams: {} } : readCursor(after);
  if (cursor?.programme !== asker.programme) return unknownCursor;
  return asDevice(database, asker.id, async (sql) => {
    const teams = await readableTeams(sql, cursor);
    if (!(await isOnRecord(sql, asker.programme, cursor, teams))) return unknownCursor;
    return done(await pageOf(sql, asker.programme, teams, cursor, limit));
  });
}

const ReadableTeam = z.object({ team: z.string(), last: z.number() });
interface TeamToRead extends z.infer<typeof ReadableTeam> {
  readonly after: number;
}

/** The teams of the device, each with its newest place and the one of the cursor. */
async function readableTeams(sql: Sql, cursor: Cursor): Promise<readonly TeamToRead[]> {
  const teams = await rows(
    sql,
    ReadableTeam,
    'select team, last::float8 as last from firstdark.team_sequence order by team',
  );
  return teams.map((team) => ({ ...team, after: cursor.teams[team.team]?.[0] ?? 0 }));
}

/** Whether the events that the cursor names lie where it says. Teams that the device no longer reads do not count. */
async function isOnRecord(
  sql: Sql,
  programme: string,
  cursor: Cursor,
  teams: readonly TeamToRead[],
): Promise<boolean> {
  const read = teams.filter(({ after }) => after > 0);
  if (read.length === 0) return true;
  if (read.some(({ after, last }) => after > last)) return false;
  const places = read.map(({ team, after }) => ({ team, seq: after, id: cursor.teams[team]?.[1] }));
  const There = z.object({ team: z.string() });
  const there = await rows(
    sql,
    There,
    `select event.team from json_to_recordset($2::text::json) as place(team uuid, seq bigint, id text)
       join firstdark.event on event.programme = $1::uuid and event.team = place.team
         and event.seq = place.seq and event.id::text = place.id`,
    [programme, JSON.stringify(places)],
  );
  return there.length === read.length;
}

const EventRow = z.object({
  id: z.string(),
  seq: z.number(),
  brought_by: z.nullable(z.string()),
  body: z.string(),
});

async function pageOf(
  sql: Sql,
  programme: string,
  teams: readonly TeamToRead[],
  cursor: Cursor,
  limit: number,
): Promise<PageRead> {
  const events: PageEvent[] = [];
  const next: Cursor['teams'] = {};
  let characters = 0;
  let behind = 0;
  for (const { team, last, after } of teams) {
    let [place, id] = cursor.teams[team] ?? [0, ''];
    if (last > after && events.length < limit && characters < charactersOnPage) {
      const found = await rows(sql, EventRow, PAGE, [
        programme,
        team,
        after,
        limit - events.length,
        charactersOnPage - characters,
      ]);
      for (const row of found) {
        events.push({ event: JSON.parse(row.body), brought_by: row.brought_by });
        characters += row.body.length;
        [place, id] = [row.seq, row.id];
      }
    }
    if (place > 0) next[team] = [place, id];
    behind += Math.max(0, last - place);
  }
  const readBefore = teams.reduce((sum, { after }) => sum + after, 0);
  const page = {
    events,
    cursor: writeCursor({ programme, teams: next }),
    more: behind > 0,
    behind,
  };
  return { page, readBefore };
}

/** The first event whatever its size, then as many as fit. */
const PAGE = `
  select id, seq, brought_by, body from (
    select id, seq::float8 as seq, case when vouched then null else person end as brought_by, body,
      sum(length(body)) over (order by seq) - length(body) as before
    from (
      select id, seq, vouched, person, body::text as body from firstdark.event
      where programme = $1::uuid and team = $2::uuid and seq > $3::bigint order by seq limit $4::int
    ) as following
  ) as measured
  where before < $5::int order by seq`;
