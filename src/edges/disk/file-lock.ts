import { randomUUID } from 'node:crypto';
import { open, readFile, stat, unlink } from 'node:fs/promises';
import { hostname } from 'node:os';
import { setTimeout as pause } from 'node:timers/promises';
import * as z from 'zod/mini';
import { codeOf } from './log-problem.ts';

const Holder = z.object({
  pid: z.int(),
  host: z.string(),
  token: z.string(),
  /** Size of the file before and after what the holder writes, bytes. */
  from: z.optional(z.int()),
  to: z.optional(z.int()),
});
type Holder = z.infer<typeof Holder>;

/** What somebody was writing when their process ended, told by the lock they left. */
export interface CutShort {
  /** Size of the file before they wrote and as it was to be after, bytes. */
  readonly from: number;
  readonly to: number;
}

export type Locked =
  | { readonly ok: true; readonly lock: FileLock; readonly cutShort: CutShort | null }
  | { readonly ok: false; readonly message: string };

/** A lock that says nothing of its holder takes a moment to write; after this long it was left, milliseconds. */
const LEFT_MS = 10_000;

/** The locks that this process holds. */
const held = new Set<string>();

/**
 * The right to write to a file, told to other processes by a file beside it, `<file>.lock`. One that
 * was left by a process which has ended is taken over.
 */
export class FileLock {
  readonly #path: string;
  readonly #holder: Holder;

  private constructor(path: string, holder: Holder) {
    this.#path = path;
    this.#holder = holder;
  }

  /** Waits for the lock, at most `patience_ms`; then says who holds it. Throws when it cannot be made. */
  static async take(file: string, patience_ms: number): Promise<Locked> {
    const path = `${file}.lock`;
    const holder: Holder = { pid: process.pid, host: hostname(), token: randomUUID() };
    const until_ms = performance.now() + patience_ms;
    let cutShort: CutShort | null = null;
    for (;;) {
      held.add(holder.token);
      if (await createWith(path, JSON.stringify(holder))) {
        return { ok: true, lock: new FileLock(path, holder), cutShort };
      }
      held.delete(holder.token);
      const other = await read(path);
      const isLeft = other === null ? (await age_ms(path)) > LEFT_MS : hasEnded(other);
      if (isLeft) cutShort = (await takeOver(path, other)) ?? cutShort;
      else if (performance.now() > until_ms)
        return { ok: false, message: heldBy(other, file, path) };
      else await pause(5 + Math.floor(performance.now() % 10));
    }
  }

  /** Whether a process that has ended left its lock on a file. */
  static async isLeft(file: string): Promise<boolean> {
    const other = await read(`${file}.lock`);
    return other !== null && hasEnded(other);
  }

  /** Notes what is about to be written, so that it can be undone if this process ends half-way. */
  async announce({ from, to }: CutShort): Promise<void> {
    const handle = await open(this.#path, 'r+');
    try {
      // Longer than what is there, so that it leaves nothing of it.
      await handle.write(JSON.stringify({ ...this.#holder, from, to }), 0);
      await handle.sync();
    } finally {
      await handle.close();
    }
  }

  async release(): Promise<void> {
    held.delete(this.#holder.token);
    await unlink(this.#path).catch(() => undefined);
  }
}

async function createWith(path: string, text: string): Promise<boolean> {
  try {
    const handle = await open(path, 'wx');
    try {
      await handle.write(text);
    } finally {
      await handle.close();
    }
    return true;
  } catch (error) {
    if (codeOf(error) === 'EEXIST') return false;
    throw error;
  }
}

/** Who holds the lock; null when it is gone, or is just being written. */
async function read(path: string): Promise<Holder | null> {
  try {
    const parsed: unknown = JSON.parse(await readFile(path, 'utf8'));
    const holder = Holder.safeParse(parsed);
    return holder.success ? holder.data : null;
  } catch {
    return null;
  }
}

/** Of another computer nobody here can tell; of this one, whether the process still runs. */
function hasEnded({ pid, host, token }: Holder): boolean {
  if (host !== hostname()) return false;
  if (pid === process.pid) return !held.has(token);
  try {
    process.kill(pid, 0);
    return false;
  } catch (error) {
    return codeOf(error) === 'ESRCH';
  }
}

/** Milliseconds since a file was written; 0 when it is gone. */
async function age_ms(path: string): Promise<number> {
  const found = await stat(path).catch(() => null);
  return found === null ? 0 : Date.now() - found.mtimeMs;
}

/** Takes away a lock whose holder has ended; one process at a time, so that no new one is taken away. */
async function takeOver(path: string, gone: Holder | null): Promise<CutShort | null> {
  const breaking = `${path}.taking-over`;
  if (!(await createWith(breaking, String(process.pid)))) {
    if ((await age_ms(breaking)) > LEFT_MS) await unlink(breaking).catch(() => undefined);
    await pause(10);
    return null;
  }
  try {
    const now = await read(path);
    if (now?.token !== gone?.token) return null;
    await unlink(path).catch(() => undefined);
    if (now?.from === undefined || now.to === undefined) return null;
    return { from: now.from, to: now.to };
  } finally {
    await unlink(breaking).catch(() => undefined);
  }
}

function heldBy(holder: Holder | null, file: string, path: string): string {
  const who = holder === null ? 'Another program' : `Process ${holder.pid} on ${holder.host}`;
  return `${who} is writing to ${file}. Nothing of this was written. Wait until it is done and do it again; if it has ended, delete ${path}.`;
}
