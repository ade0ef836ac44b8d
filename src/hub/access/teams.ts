import * as z from 'zod/mini';
import type { Sql } from '../database/database.ts';
import { firstRow, rows } from '../database/rows.ts';
import { type Outcome, done, turnedAway } from '../turned-away.ts';
import type { Team } from './asker.ts';

/** The team that every device of a programme belongs to. */
export const EVERYONE = 'everyone';

const TeamRow = z.object({ id: z.string(), name: z.string(), is_everyone: z.boolean() });

/** All teams of a programme, that for everyone first, the others by name. */
export function teamsOf(sql: Sql, programme: string): Promise<z.infer<typeof TeamRow>[]> {
  return rows(
    sql,
    TeamRow,
    `select id, name, is_everyone from firstdark.team where programme = $1::uuid
     order by is_everyone desc, lower(name)`,
    [programme],
  );
}

/** Adds a team; one of that name must not be there. */
export async function addTeam(sql: Sql, programme: string, name: string): Promise<Outcome<Team>> {
  const all = await teamsOf(sql, programme);
  if (all.some((team) => isSameName(team.name, name))) {
    return turnedAway(409, 'team exists', `There is a team ${name} already. Use that one.`);
  }
  const Made = z.object({ id: z.string() });
  const made = await firstRow(sql, Made, 'select firstdark.add_team($1::uuid, $2) as id', [
    programme,
    name,
  ]);
  if (made === null) throw new Error('add_team gave no id');
  return done({ id: made.id, name });
}

/** The named teams, in the order asked for, without `everyone`; `missing` says what to do with one that is not there. */
export async function namedTeams(
  sql: Sql,
  programme: string,
  names: readonly string[],
  missing: 'refuse' | 'add',
): Promise<Outcome<readonly Team[]>> {
  const all = await teamsOf(sql, programme);
  const chosen = new Map<string, Team>();
  for (const name of names) {
    let found: Team | undefined = all.find((team) => isSameName(team.name, name));
    if (found === undefined) {
      if (missing === 'refuse') {
        const known = all.map((team) => team.name).join(', ');
        return turnedAway(
          404,
          'team unknown',
          `There is no team ${name}. There are: ${known}. Add it first, or choose one of these.`,
        );
      }
      const added = await addTeam(sql, programme, name);
      if (!added.ok) return added;
      found = added.value;
    }
    if (!isSameName(found.name, EVERYONE)) chosen.set(found.id, found);
  }
  return done([...chosen.values()]);
}

export function isSameName(a: string, b: string): boolean {
  return a.toLowerCase() === b.toLowerCase();
}
