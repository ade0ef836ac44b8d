import type { Database } from '../database/database.ts';
import { CHANNEL, readTold, tellNewEvents } from './tell.ts';

/** An open line to a device that wants to hear of changes. */
export interface Line {
  readonly device: string;
  readonly programme: string;
  reads(team: string): boolean;
  changed(): void;
  /** Ends it: the device was shut out, or the hub goes down. */
  end(): void;
}

/** New events are told after this long, all those of a team since then at once, milliseconds. */
const gathering_ms = 10;

/** Takes news from the hub processes of one database to the open lines of this one. */
export class ChangeFeed {
  readonly #database: Database;
  readonly #failed: (error: unknown) => void;
  readonly #lines = new Set<Line>();
  readonly #toTell = new Map<string, { readonly programme: string; readonly team: string }>();
  #timer: NodeJS.Timeout | null = null;
  #telling: Promise<unknown> = Promise.resolve();

  /** `failed` is told when news could not be passed on: devices then hear it when they next ask. */
  constructor(database: Database, failed: (error: unknown) => void) {
    this.#database = database;
    this.#failed = failed;
  }

  start(): Promise<void> {
    return this.#database.listen(
      CHANNEL,
      (payload) => this.#hear(payload),
      () => {
        for (const line of this.#lines) line.changed();
      },
    );
  }

  get lines(): number {
    return this.#lines.size;
  }

  /** Adds a line; gives the way to take it out again. */
  add(line: Line): () => void {
    this.#lines.add(line);
    return () => this.#lines.delete(line);
  }

  /** A team has new events, committed. */
  newEvents(programme: string, team: string): void {
    this.#toTell.set(team, { programme, team });
    this.#timer ??= setTimeout(() => this.#tell(), gathering_ms);
  }

  /** Tells what is left and ends all lines. */
  async close(): Promise<void> {
    if (this.#timer !== null) clearTimeout(this.#timer);
    this.#tell();
    await this.#telling;
    for (const line of [...this.#lines]) line.end();
    this.#lines.clear();
  }

  #tell(): void {
    this.#timer = null;
    const news = [...this.#toTell.values()];
    this.#toTell.clear();
    this.#telling = Promise.all(
      news.map(({ programme, team }) => tellNewEvents(this.#database, programme, team)),
    ).catch(this.#failed);
  }

  #hear(payload: string): void {
    const told = readTold(payload);
    if (told === null) return;
    for (const line of [...this.#lines]) {
      if ('revoked' in told) {
        if (line.device === told.revoked) line.end();
      } else if (line.programme === told.programme && line.reads(told.team)) {
        line.changed();
      }
    }
  }
}
