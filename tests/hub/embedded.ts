import { createHash, randomUUID } from 'node:crypto';
import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { cp, mkdir, mkdtemp, rename, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { EmbeddedDatabase } from '../../src/hub/database/embedded-database.ts';
import { migrate } from '../../src/hub/database/migrate.ts';

const ROOT = resolve(import.meta.dirname, '../..');
const CACHE = join(ROOT, 'node_modules', '.cache', 'firstdark');

/** A folder with an embedded database in it that has the tables and nothing else; `drop` removes it. */
export async function embeddedFolder(): Promise<{ path: string; drop: () => Promise<void> }> {
  const made = await template();
  const path = await mkdtemp(join(tmpdir(), 'firstdark-hub-'));
  await cp(made, join(path, 'database'), { recursive: true });
  return { path, drop: () => rm(path, { recursive: true, force: true }) };
}

/** An embedded database of its own; `drop` closes and removes it. */
export async function embeddedDatabase(): Promise<{
  database: EmbeddedDatabase;
  drop: () => Promise<void>;
}> {
  const folder = await embeddedFolder();
  const database = await EmbeddedDatabase.open(join(folder.path, 'database'));
  return {
    database,
    drop: async () => {
      await database.close();
      await folder.drop();
    },
  };
}

/** Made once for each version of engine and tables, as making takes many seconds. */
async function template(): Promise<string> {
  const path = join(CACHE, `embedded-${fingerprint()}`);
  if (existsSync(path)) return path;
  const fresh = join(CACHE, `embedded-${randomUUID()}`);
  await mkdir(CACHE, { recursive: true });
  const database = await EmbeddedDatabase.open(fresh);
  await migrate(database);
  await database.close();
  // Another test may have been faster; its one is as good.
  await rename(fresh, path).catch(() => rm(fresh, { recursive: true, force: true }));
  return path;
}

function fingerprint(): string {
  const migrations = join(ROOT, 'src', 'hub', 'migrations');
  const hash = createHash('sha256');
  for (const name of readdirSync(migrations).sort())
    hash.update(readFileSync(join(migrations, name)));
  hash.update(readFileSync(join(ROOT, 'node_modules', '@electric-sql', 'pglite', 'package.json')));
  return hash.digest('hex').slice(0, 16);
}
