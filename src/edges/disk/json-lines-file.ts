import { appendFile, type FileHandle, open } from 'node:fs/promises';
import { dirname } from 'node:path';
import { type LoggedEvent, idOf } from '../../core/log/event-log.ts';
import type { CutShort, FileLock } from './file-lock.ts';
import { eventOfLine, lineOf } from './json-lines.ts';
import { linesOf } from './line-reader.ts';
import { codeOf } from './log-problem.ts';

/** What is known of a file of JSON Lines so far, and the ways to read on, to add and to mend it. */
export class JsonLinesFile {
  readonly events = new Map<string, LoggedEvent>();
  readonly #path: string;
  readonly #open: typeof open;
  readonly #say: (message: string) => void;
  /** How far the file has been read, bytes, and which file that was. */
  #readTo = 0;
  #which = '';

  constructor(path: string, opens: typeof open, say: (message: string) => void) {
    this.#path = path;
    this.#open = opens;
    this.#say = say;
  }

  /** Reads what has been added since. False when the last line has no end (yet). */
  async readOn(): Promise<boolean> {
    const file = await open(this.#path, 'r').catch((error: unknown) => {
      if (codeOf(error) === 'ENOENT') return null;
      throw error;
    });
    if (file === null) {
      this.#startAfresh('');
      return true;
    }
    try {
      const { dev, ino, size } = await file.stat();
      const which = `${dev}:${ino}`;
      if (which !== this.#which || size < this.#readTo) this.#startAfresh(which);
      for await (const { text, end } of linesOf(file, this.#readTo, size)) {
        this.#take(eventOfLine(text));
        this.#readTo = end;
      }
      return this.#readTo === size;
    } finally {
      await file.close();
    }
  }

  /** Under the lock: adds those events that are not there, all or none, on the disk when it returns. */
  async add(events: readonly LoggedEvent[], lock: FileLock): Promise<number> {
    const fresh = new Map<string, LoggedEvent>();
    for (const event of events) if (!this.events.has(idOf(event))) fresh.set(idOf(event), event);
    if (fresh.size === 0) return 0;
    const bytes = Buffer.from([...fresh.values()].map(lineOf).join(''));
    const from = this.#readTo;
    const to = from + bytes.length;
    if (fresh.size > 1) await lock.announce({ from, to });
    const file = await this.#open(this.#path, 'a');
    try {
      await writeOrUndo(file, bytes, from);
      if (from === 0) await syncFolder(dirname(this.#path));
      const { dev, ino } = await file.stat();
      this.#which = `${dev}:${ino}`;
    } finally {
      await file.close();
    }
    for (const event of fresh.values()) this.#take(event);
    this.#readTo = to;
    return fresh.size;
  }

  /** Under the lock: puts right what a process that was ended left at the end of the file. */
  async mend(cutShort: CutShort | null): Promise<void> {
    const isWhole = await this.readOn();
    if (cutShort === null && isWhole) return;
    const file = await this.#open(this.#path, 'r+').catch((error: unknown) => {
      if (codeOf(error) === 'ENOENT') return null;
      throw error;
    });
    if (file === null) return;
    try {
      const { size } = await file.stat();
      const isCut = cutShort !== null && cutShort.from < size && size < cutShort.to;
      if (isCut) await this.#setAside(file, cutShort.from, size);
      else if (!isWhole) await this.#finishOrSetAside(file, size);
    } finally {
      await file.close();
    }
    await this.readOn();
  }

  /** A last line that can be read lacks nothing but its end. */
  async #finishOrSetAside(file: FileHandle, size: number): Promise<void> {
    const last = Buffer.alloc(size - this.#readTo);
    await file.read(last, 0, last.length, this.#readTo);
    if (eventOfLine(last.toString('utf8'))?.state !== 'known') {
      await this.#setAside(file, this.#readTo, size);
      return;
    }
    await file.write('\n', size);
    await file.sync();
  }

  async #setAside(file: FileHandle, from: number, to: number): Promise<void> {
    const torn = Buffer.alloc(to - from);
    await file.read(torn, 0, torn.length, from);
    await appendFile(`${this.#path}.torn`, Buffer.concat([torn, Buffer.from('\n')]), {
      flush: true,
    });
    await file.truncate(from);
    await file.sync();
    if (this.#readTo > from) this.#startAfresh('');
    this.#say(
      `The end of ${this.#path} was half written when its program was ended (${to - from} bytes). It had not been reported as saved. It was moved to ${this.#path}.torn; all before it is whole.`,
    );
  }

  #take(event: LoggedEvent | null): void {
    if (event !== null && !this.events.has(idOf(event))) this.events.set(idOf(event), event);
  }

  #startAfresh(which: string): void {
    this.events.clear();
    this.#readTo = 0;
    this.#which = which;
  }
}

/** All bytes at the end of the file and on the disk; or the file as long as it was before, and a throw. */
async function writeOrUndo(file: FileHandle, bytes: Buffer, from: number): Promise<void> {
  try {
    for (let done = 0; done < bytes.length;) {
      done += (await file.write(bytes, done, bytes.length - done)).bytesWritten;
    }
    await file.sync();
  } catch (error) {
    await file.truncate(from).catch(() => undefined);
    await file.sync().catch(() => undefined);
    throw error;
  }
}

/** Puts the name of a new file on the disk; systems that cannot do so for a folder need it not. */
async function syncFolder(folder: string): Promise<void> {
  const handle = await open(folder, 'r').catch(() => null);
  await handle?.sync().catch(() => undefined);
  await handle?.close();
}
