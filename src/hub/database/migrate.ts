import { readFile, readdir } from 'node:fs/promises';
import { join } from 'node:path';
import * as z from 'zod/mini';
import type { Database } from './database.ts';
import { rows } from './rows.ts';

const FOLDER = join(import.meta.dirname, '..', 'migrations');

/** Drawn once; every hub that starts on a database takes this lock before it changes its tables. */
const LOCK = 7_311_940_025;

/** The numbered steps that make the tables, in order: `001-record.sql` is step 1. */
async function steps(): Promise<readonly { number: number; name: string }[]> {
  const names = (await readdir(FOLDER)).filter((name) => name.endsWith('.sql')).sort();
  return names.map((name, index) => {
    const number = Number(name.slice(0, 3));
    if (number !== index + 1) throw new Error(`${name} is out of order, wanted ${index + 1}.`);
    return { number, name };
  });
}

/** Brings the tables of a database up to date; several hubs may do so at once. */
export async function migrate(database: Database): Promise<void> {
  const all = await steps();
  await database.transaction(async (sql) => {
    await sql.query('select pg_advisory_xact_lock($1::bigint)', [LOCK]);
    await sql.script(
      `create schema if not exists firstdark;
       create table if not exists firstdark.migration (
         number int primary key, name text not null, applied timestamptz not null default now());`,
    );
    const Done = z.object({ number: z.int() });
    const done = await rows(sql, Done, 'select number from firstdark.migration');
    const newest = Math.max(0, ...done.map(({ number }) => number));
    if (newest > all.length) {
      throw new Error(
        `The database was made by a newer hub (step ${newest}, this one knows ${all.length}). Install that version, or restore the backup made before it.`,
      );
    }
    for (const { number, name } of all.slice(newest)) {
      await sql.script(await readFile(join(FOLDER, name), 'utf8'));
      await sql.query('insert into firstdark.migration (number, name) values ($1, $2)', [
        number,
        name,
      ]);
    }
  });
}
