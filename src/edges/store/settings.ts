import { v4 } from 'uuid';
import * as z from 'zod/mini';
import { Measures } from '../../core/domain/measures.ts';
import { Experience, Instrument } from '../../core/domain/visit.ts';

/** One text under one name, as localStorage keeps it. */
export type TextShelf = Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>;

const shape = {
  /** Stamped on every event, so that two devices can be told apart. */
  device: z.string().check(z.minLength(1)),
  author: z.nullable(z.string().check(z.minLength(1))),
  experience: z.nullable(Experience),
  /** When the dark screen shows: by the sun, or by one's own choice. */
  darkSwitch: z.enum(['auto', 'always', 'never']),
  cautionsSeen: z.boolean(),
  /** Null: as the system wishes. */
  language: z.nullable(z.enum(['en', 'es'])),
  measures: Measures,
  /** The season that was open last; null before the first choice. */
  season: z.nullable(z.enum(['own', 'invented'])),
  /** What the last note was made with. */
  instrument: z.nullable(Instrument),
  lastNest: z.nullable(z.string()),
};
const StoredSettings = z.object(shape);

/** What one device remembers of the person who carries it; nothing of it is in the record. */
export type StoredSettings = Readonly<z.infer<typeof StoredSettings>>;

const Anything = z.record(z.string(), z.unknown());
const SHELF_NAME = 'firstdark settings';

/** The settings of a device, as text on a shelf that can be read before the first paint. */
export class SettingsShelf {
  readonly #shelf: TextShelf | null;
  readonly #newDevice: () => string;

  /** Without a shelf (site data are forbidden) the defaults are given and nothing can be saved. */
  constructor(shelf: TextShelf | null = pageShelf(), newDevice: () => string = v4) {
    this.#shelf = shelf;
    this.#newDevice = newDevice;
  }

  /**
   * What is kept, each value by itself: one that is missing or damaged gives its default and spoils
   * no other. A device without a name is given one, which is kept at once.
   */
  read(): StoredSettings {
    const kept = Anything.safeParse(this.#stored());
    const settings = withDefaults(kept.success ? kept.data : {}, this.#newDevice);
    if (!kept.success || kept.data['device'] !== settings.device) this.#keep(settings);
    return settings;
  }

  load(): Promise<StoredSettings> {
    return Promise.resolve(this.read());
  }

  /** Rejects with a message for the person when they could not be kept. */
  save(settings: StoredSettings): Promise<void> {
    return this.#keep(settings) ? Promise.resolve() : Promise.reject(new Error(NOT_KEPT));
  }

  #stored(): unknown {
    try {
      return JSON.parse(this.#shelf?.getItem(SHELF_NAME) ?? 'null');
    } catch {
      return null;
    }
  }

  #keep(settings: StoredSettings): boolean {
    try {
      this.#shelf?.setItem(SHELF_NAME, JSON.stringify(settings));
      return this.#shelf !== null;
    } catch {
      return false;
    }
  }
}

const NOT_KEPT =
  'Your choice holds until this page is closed, but could not be kept on this device. Free some space, or allow this site to keep data.';

function withDefaults(
  kept: Readonly<Record<string, unknown>>,
  newDevice: () => string,
): StoredSettings {
  const defaults: StoredSettings = {
    device: newDevice(),
    author: null,
    experience: null,
    darkSwitch: 'auto',
    cautionsSeen: false,
    language: null,
    measures: 'metric',
    season: null,
    instrument: null,
    lastNest: null,
  };
  const good = Object.entries(shape).filter(([name, one]) => one.safeParse(kept[name]).success);
  const named = Object.fromEntries(good.map(([name]) => [name, kept[name]]));
  return StoredSettings.parse({ ...defaults, ...named });
}

/** The shelf of this page; null where asking for it is refused. */
export function pageShelf(): TextShelf | null {
  try {
    return typeof localStorage === 'undefined' ? null : localStorage;
  } catch {
    return null;
  }
}
