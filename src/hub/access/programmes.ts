import * as z from 'zod/mini';
import type { Database, Sql } from '../database/database.ts';
import { firstRow, rows } from '../database/rows.ts';
import { type Outcome, done, turnedAway } from '../turned-away.ts';
import { isSameName } from './teams.ts';

const ProgrammeRow = z.object({
  id: z.string(),
  name: z.string(),
  /** Devices that are not revoked, and those of them that lead. */
  devices: z.number(),
  leads: z.number(),
});
/** A programme of a hub, as whoever runs the hub sees it. */
export type ProgrammeRow = z.infer<typeof ProgrammeRow>;

/** All programmes of a hub, the oldest first. */
export function programmesOf(sql: Sql): Promise<ProgrammeRow[]> {
  return rows(
    sql,
    ProgrammeRow,
    `select programme.id, programme.name, count(device.id)::float8 as devices,
       (count(device.id) filter (where device.role = 'lead'))::float8 as leads
     from firstdark.programme
       left join firstdark.device on device.programme = programme.id and device.revoked is null
     group by programme.id order by programme.made, programme.id`,
  );
}

/** Opens a programme on a hub. */
export function addProgramme(database: Database, name: string): Promise<Outcome<ProgrammeRow>> {
  const Made = z.object({ id: z.string() });
  return database.transaction(async (sql) => {
    if ((await programmesOf(sql)).some((programme) => isSameName(programme.name, name))) {
      return turnedAway(409, 'programme exists', `There is a programme ${name} already.`);
    }
    const made = await firstRow(sql, Made, 'select firstdark.add_programme($1) as id', [name]);
    if (made === null) throw new Error('add_programme gave no id');
    return done({ id: made.id, name, devices: 0, leads: 0 });
  });
}

/** The programme of a name; without a name the only one there is. */
export async function programmeNamed(
  sql: Sql,
  name: string | null,
): Promise<Outcome<ProgrammeRow>> {
  const all = await programmesOf(sql);
  const names = all.map((programme) => programme.name).join(', ');
  if (name === null) {
    const [only] = all;
    if (only !== undefined && all.length === 1) return done(only);
    return turnedAway(
      400,
      'which programme',
      all.length === 0
        ? 'There is no programme on this hub yet. Open one first.'
        : `There are several programmes on this hub (${names}). Say which one.`,
    );
  }
  const found = all.find((programme) => isSameName(programme.name, name));
  if (found !== undefined) return done(found);
  return turnedAway(
    404,
    'programme unknown',
    `There is no programme ${name}. There are: ${names}.`,
  );
}
