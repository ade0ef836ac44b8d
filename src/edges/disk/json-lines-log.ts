import { unwatchFile, watchFile } from 'node:fs';
import { mkdir, open } from 'node:fs/promises';
import { dirname, resolve } from 'node:path';
import type {
  Appended,
  EventLog,
  LoggedEvent,
  LogProblem,
  Read,
} from '../../core/log/event-log.ts';
import { FileLock, type Locked } from './file-lock.ts';
import { JsonLinesFile } from './json-lines-file.ts';
import { codeOf, problemOfDisk } from './log-problem.ts';

export interface JsonLinesOptions {
  /** Told what was found wrong with the file and put right, in words for the person at the terminal. */
  readonly say?: (message: string) => void;
  /** How long to wait for another program that is writing, milliseconds. */
  readonly patience_ms?: number;
  /** Opens the file for writing; another one stands in for a full disk in tests. */
  readonly open?: typeof open;
}

/**
 * A log in a file of JSON Lines: one event a line, only ever added to. The file and its folder are
 * made by the first append. Opening never fails: what is wrong with the file is told by what asks
 * something of it.
 *
 * An append is one write at the end of the file, under a lock that other processes respect, and is
 * on the disk when it says ok. What a process that was ended left half-written is moved into
 * `<file>.torn` and said. A damaged line further up stays where it is and is read as foreign.
 */
export function openJsonLinesLog(path: string, options: JsonLinesOptions = {}): Promise<EventLog> {
  return Promise.resolve(new JsonLinesLog(resolve(path), options));
}

type Refused = { readonly ok: false; readonly problem: LogProblem };

const CLOSED: LogProblem = {
  kind: 'closed',
  message: 'This record has been closed. Open it again to go on; nothing is lost.',
};

class JsonLinesLog implements EventLog {
  readonly #path: string;
  readonly #patience_ms: number;
  readonly #say: (message: string) => void;
  readonly #file: JsonLinesFile;
  readonly #watchers = new Set<() => void>();
  #queue: Promise<unknown> = Promise.resolve();
  #isClosed = false;

  constructor(path: string, options: JsonLinesOptions) {
    this.#path = path;
    this.#patience_ms = options.patience_ms ?? 10_000;
    this.#say = options.say ?? (() => undefined);
    this.#file = new JsonLinesFile(path, options.open ?? open, this.#say);
  }

  append(events: readonly LoggedEvent[]): Promise<Appended> {
    return this.#inTurn(async (): Promise<Appended> => {
      await mkdir(dirname(this.#path), { recursive: true });
      return this.#locked(async (lock): Promise<Appended> => {
        return { ok: true, added: await this.#file.add(events, lock) };
      });
    });
  }

  read(): Promise<Read> {
    return this.#inTurn(async (): Promise<Read> => {
      const isWhole = await this.#file.readOn();
      if (!isWhole || (await FileLock.isLeft(this.#path))) {
        const mended = await this.#mendIfAllowed();
        if (!mended.ok) return mended;
      }
      return { ok: true, events: [...this.#file.events.values()] };
    });
  }

  watch(changed: () => void): () => void {
    if (this.#watchers.size === 0) {
      watchFile(this.#path, { interval: 250, persistent: false }, this.#look);
    }
    this.#watchers.add(changed);
    return () => {
      this.#watchers.delete(changed);
      if (this.#watchers.size === 0) unwatchFile(this.#path, this.#look);
    };
  }

  async close(): Promise<void> {
    await this.#queue;
    this.#isClosed = true;
    this.#watchers.clear();
    unwatchFile(this.#path, this.#look);
  }

  readonly #look = (): void => {
    void this.#inTurn(async () => {
      const before = this.#file.events.size;
      await this.#file.readOn();
      if (this.#file.events.size !== before) for (const changed of this.#watchers) changed();
      return { ok: true } as const;
    });
  };

  /** One thing at a time, and every failure of the disk as a value. */
  #inTurn<Outcome>(work: () => Promise<Outcome>): Promise<Outcome | Refused> {
    const turn = this.#queue.then(async (): Promise<Outcome | Refused> => {
      if (this.#isClosed) return { ok: false, problem: CLOSED };
      try {
        return await work();
      } catch (error) {
        return { ok: false, problem: problemOfDisk(error, this.#path) };
      }
    });
    this.#queue = turn;
    return turn;
  }

  async #locked<Outcome>(work: (lock: FileLock) => Promise<Outcome>): Promise<Outcome | Refused> {
    const taken: Locked = await FileLock.take(this.#path, this.#patience_ms);
    if (!taken.ok) return { ok: false, problem: { kind: 'blocked', message: taken.message } };
    try {
      await this.#file.mend(taken.cutShort);
      return await work(taken.lock);
    } finally {
      await taken.lock.release();
    }
  }

  /** Where this user may only read, what is whole is read and the rest is left as it is. */
  async #mendIfAllowed(): Promise<{ readonly ok: true } | Refused> {
    try {
      return await this.#locked(() => Promise.resolve({ ok: true } as const));
    } catch (error) {
      if (!['EACCES', 'EPERM', 'EROFS'].includes(codeOf(error) ?? '')) throw error;
      this.#say(
        `The last line of ${this.#path} is not whole and was left out; it may not be mended.`,
      );
      return { ok: true };
    }
  }
}
