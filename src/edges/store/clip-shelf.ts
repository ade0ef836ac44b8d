import { type DBSchema, type IDBPDatabase, openDB } from 'idb';

/** A short recording that somebody asked for. */
interface KeptClip {
  readonly id: string;
  readonly nest: string;
  readonly note: string | null;
  readonly at_ms: number;
  readonly seconds: number;
  readonly sound: Uint8Array<ArrayBuffer>;
}

interface Clips extends DBSchema {
  clips: { key: string; value: KeptClip };
}

type Kept = { readonly ok: true } | { readonly ok: false; readonly message: string };

/** Clips in a database of their own in this browser, up to a total size. */
export class BrowserClips {
  readonly #name: string;
  readonly #mostBytes: number;
  #opened: Promise<IDBPDatabase<Clips>> | null = null;

  constructor(mostBytes: number, name = 'firstdark-clips') {
    this.#name = name;
    this.#mostBytes = mostBytes;
  }

  /** Oldest first. Empty where the browser keeps nothing for us. */
  async all(): Promise<readonly KeptClip[]> {
    try {
      const clips = await (await this.#open()).getAll('clips');
      return clips.sort((a, b) => a.at_ms - b.at_ms);
    } catch {
      return [];
    }
  }

  /** Keeps a clip, or the same anew; refuses one for which there is no room. */
  async keep(clip: KeptClip): Promise<Kept> {
    const others = (await this.all()).filter(({ id }) => id !== clip.id);
    const bytes = others.reduce((sum, { sound }) => sum + sound.length, clip.sound.length);
    if (bytes > this.#mostBytes) {
      const most = Math.round(this.#mostBytes / 2 ** 20);
      const message = `Clips may fill ${most} MB on this device, and they do. Remove one first.`;
      return { ok: false, message };
    }
    try {
      await (await this.#open()).put('clips', clip);
      return { ok: true };
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      return { ok: false, message: `The clip was not kept (${why}). The note does not need it.` };
    }
  }

  async drop(id: string): Promise<void> {
    try {
      await (await this.#open()).delete('clips', id);
    } catch {
      // Nothing can be read then either.
    }
  }

  #open(): Promise<IDBPDatabase<Clips>> {
    this.#opened ??= openDB<Clips>(this.#name, 1, {
      upgrade(database) {
        database.createObjectStore('clips', { keyPath: 'id' });
      },
    });
    return this.#opened;
  }
}
