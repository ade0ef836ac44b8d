import type { Database } from '../database/database.ts';

/** How long what was seen is gathered before it is written, milliseconds. */
const gathering_ms = 5000;

interface Seen {
  readonly at_ms: number;
  /** Events that the device said it has; null when it did not say. */
  readonly readUpTo: number | null;
}

/** Remembers which devices were here, and writes it down for all of them at once. */
export class LastSeen {
  readonly #database: Database;
  readonly #failed: (error: unknown) => void;
  #seen = new Map<string, Seen>();
  #timer: NodeJS.Timeout | null = null;

  constructor(database: Database, failed: (error: unknown) => void) {
    this.#database = database;
    this.#failed = failed;
  }

  note(device: string, at_ms: number, readUpTo: number | null = null): void {
    const before = this.#seen.get(device);
    this.#seen.set(device, { at_ms, readUpTo: readUpTo ?? before?.readUpTo ?? null });
    this.#timer ??= setTimeout(() => void this.write(), gathering_ms);
  }

  /** Writes what was gathered. When that fails it is dropped: it is no record. */
  async write(): Promise<void> {
    if (this.#timer !== null) clearTimeout(this.#timer);
    this.#timer = null;
    if (this.#seen.size === 0) return;
    const seen = [...this.#seen].map(([id, { at_ms, readUpTo }]) => ({
      id,
      at: new Date(at_ms).toISOString(),
      read_up_to: readUpTo,
    }));
    this.#seen = new Map();
    try {
      await this.#database.query(
        `update firstdark.device set last_seen = greatest(device.last_seen, seen.at),
           read_up_to = coalesce(seen.read_up_to, device.read_up_to)
         from json_to_recordset($1::text::json) as seen(id uuid, at timestamptz, read_up_to bigint)
         where device.id = seen.id`,
        [JSON.stringify(seen)],
      );
    } catch (error) {
      this.#failed(error);
    }
  }
}
