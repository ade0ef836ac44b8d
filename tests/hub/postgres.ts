import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import { appendFileSync, chownSync, existsSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import postgres from 'postgres';

const PLACE = '/usr/lib/postgresql';

/** Where the programs of a PostgreSQL server are; installs Debian's when run as root and there is none. */
function programs(): string {
  const found = findPrograms();
  if (found !== null) return found;
  if (process.getuid?.() === 0 && existsSync('/usr/bin/apt-get')) {
    const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
    execFileSync('apt-get', ['update', '-qq'], { env, stdio: 'inherit' });
    const install = ['install', '-y', '-qq', '--no-install-recommends', 'postgresql'];
    execFileSync('apt-get', install, { env, stdio: 'inherit' });
    const installed = findPrograms();
    if (installed !== null) return installed;
  }
  throw new Error(
    'These tests need a PostgreSQL server, 15 or later. On Debian: sudo apt-get install postgresql.',
  );
}

function findPrograms(): string | null {
  if (!existsSync(PLACE)) return null;
  const newest = readdirSync(PLACE)
    .filter((version) => Number(version) >= 15 && existsSync(join(PLACE, version, 'bin', 'initdb')))
    .sort((a, b) => Number(b) - Number(a))[0];
  return newest === undefined ? null : join(PLACE, newest, 'bin');
}

/** The account that a server may run as: it refuses to run as root. */
function account(): { uid: number; gid: number } | null {
  if (process.getuid?.() !== 0) return null;
  const idOf = (flag: string): number =>
    Number(execFileSync('id', [flag, 'postgres'], { encoding: 'utf8' }));
  return { uid: idOf('-u'), gid: idOf('-g') };
}

function runAs(name: string, args: readonly string[]): void {
  execFileSync(join(programs(), name), args, { ...account(), stdio: 'pipe', cwd: tmpdir() });
}

/** A port that nobody listens on. */
export async function freePort(): Promise<number> {
  const server = createServer();
  await new Promise<void>((ready) => server.listen(0, '127.0.0.1', ready));
  const address = server.address();
  await new Promise((closed) => server.close(closed));
  if (address === null || typeof address === 'string') throw new Error('no port');
  return address.port;
}

/** A PostgreSQL server of a test's own. */
export class PostgresServer {
  readonly port: number;
  readonly #folder: string;
  #process: ChildProcess | null = null;

  private constructor(folder: string, port: number) {
    this.#folder = folder;
    this.port = port;
  }

  /** Starts an empty server. `settings` are lines of postgresql.conf. */
  static async start(settings: readonly string[] = []): Promise<PostgresServer> {
    const server = new PostgresServer(newFolder(), await freePort());
    runAs('initdb', ['-D', server.#data, '-U', 'hub', '-A', 'trust', '-E', 'UTF8', '--no-sync']);
    server.#write('postgresql.auto.conf', settings);
    await server.run();
    return server;
  }

  /** Starts a standby that follows this server under a name, with settings of its own. */
  async standby(name: string, settings: readonly string[]): Promise<PostgresServer> {
    const standby = new PostgresServer(newFolder(), await freePort());
    const from = `host=127.0.0.1 port=${this.port} user=hub application_name=${name}`;
    runAs('pg_basebackup', ['-D', standby.#data, '-d', from, '-R', '-X', 'stream', '-c', 'fast']);
    standby.#write('postgresql.auto.conf', settings);
    await standby.run();
    return standby;
  }

  /** The address of a database on these servers, the one that takes writes being looked for. */
  static url(servers: readonly PostgresServer[], database = 'postgres', user = 'hub'): string {
    return `postgres://${user}@${servers.map(({ port }) => `127.0.0.1:${port}`).join(',')}/${database}`;
  }

  url(database = 'postgres', user = 'hub'): string {
    return PostgresServer.url([this], database, user);
  }

  /** Runs statements as the server's own account. */
  async sql(text: string): Promise<readonly unknown[]> {
    const sql = postgres(this.url(), { max: 1, onnotice: () => undefined });
    try {
      return await sql.unsafe(text);
    } finally {
      await sql.end();
    }
  }

  /** Starts the server process and waits until it answers. */
  async run(): Promise<void> {
    const args = ['-D', this.#data, '-p', String(this.port), '-k', '', '-h', '127.0.0.1'];
    this.#process = spawn(join(programs(), 'postgres'), args, {
      ...account(),
      stdio: 'ignore',
      cwd: tmpdir(),
    });
    for (let tries = 0; ; tries++) {
      try {
        await this.sql('select 1');
        return;
      } catch (error) {
        if (tries > 300 || this.#process.exitCode !== null) throw error;
        await pause(100);
      }
    }
  }

  /** Makes a standby the primary. */
  promote(): void {
    runAs('pg_ctl', ['promote', '-w', '-D', this.#data]);
  }

  /** Ends every process of the server at once, as a power cut would. */
  async kill(): Promise<void> {
    const child = this.#process;
    if (child?.pid === undefined || child.exitCode !== null) return;
    const ended = new Promise((settle) => child.once('exit', settle));
    const parts = childrenOf(child.pid);
    child.kill('SIGKILL');
    for (const pid of parts) {
      try {
        process.kill(pid, 'SIGKILL');
      } catch {
        // It went with the first one.
      }
    }
    await ended;
    this.#process = null;
  }

  async drop(): Promise<void> {
    await this.kill();
    rmSync(this.#folder, { recursive: true, force: true });
  }

  get #data(): string {
    return join(this.#folder, 'data');
  }

  #write(name: string, lines: readonly string[]): void {
    const path = join(this.#data, name);
    appendFileSync(path, `${lines.join('\n')}\n`);
    const owner = account();
    if (owner !== null) chownSync(path, owner.uid, owner.gid);
  }
}

function newFolder(): string {
  programs();
  const folder = mkdtempSync(join(tmpdir(), 'firstdark-postgres-'));
  const owner = account();
  if (owner !== null) chownSync(folder, owner.uid, owner.gid);
  return folder;
}

function childrenOf(pid: number): readonly number[] {
  try {
    const listed = execFileSync('pgrep', ['-P', String(pid)], { encoding: 'utf8' });
    return listed.trim().split('\n').map(Number);
  } catch {
    return [];
  }
}
