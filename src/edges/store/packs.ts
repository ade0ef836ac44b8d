import * as z from 'zod/mini';
import type { SeasonEvent } from '../../core/domain/event.ts';
import { checkedText, eventsInText } from '../../core/log/checked-text.ts';
import type { LoggedEvent } from '../../core/log/event-log.ts';
import { rawOf, readEvent } from '../../core/log/upcast.ts';

/** So many events at most lie in one pack: some hundred kilobytes. */
export const LARGEST = 2000;

/** A pack of fewer is put together with others in time. */
const SMALL = 500;

/** So many small ones may wait for that. */
const MANY_SMALL = 40;

/**
 * A second copy of some events of a record, quick to read: a browser takes ten times as long for
 * thousands of small entries as for a few large ones. It can be thrown away at any time.
 */
const Pack = z.object({
  /** How many events it holds. */
  events: z.int().check(z.positive()),
  /** The version of the app that checked them; null = none that can be named. */
  checkedBy: z.nullable(z.string()),
  /** Those that say nothing but what that version reads: `checkedText` as UTF-8. */
  plain: z.instanceof(Uint8Array<ArrayBuffer>),
  /** All others, as they lie in the log. */
  others: z.array(z.unknown()),
});
export type Pack = z.infer<typeof Pack>;

/** Events as packs of `LARGEST` at most, each with the id of its first event. */
export function packsOf(
  logged: readonly (readonly [string, LoggedEvent])[],
  checkedBy: string | null,
): readonly (readonly [string, Pack])[] {
  const packs: (readonly [string, Pack])[] = [];
  for (let from = 0; from < logged.length; from += LARGEST) {
    const part = logged.slice(from, from + LARGEST);
    const [first] = part;
    if (first !== undefined) packs.push([first[0], packOf(part, checkedBy)]);
  }
  return packs;
}

function packOf(part: readonly (readonly [string, LoggedEvent])[], checkedBy: string | null): Pack {
  const plain = part.flatMap(([, entry]) =>
    entry.state === 'known' && entry.raw === undefined ? [entry.event] : [],
  );
  const others = part.flatMap(([, entry]) =>
    entry.state === 'known' && entry.raw === undefined ? [] : [rawOf(entry)],
  );
  const bytes = new TextEncoder().encode(checkedText(plain));
  return { events: part.length, checkedBy, plain: bytes, others };
}

/** The packs of a record that holds `count` events; null when they are not a copy of all of it. */
export function wholePacks(found: readonly unknown[], count: number): readonly Pack[] | null {
  const packs: Pack[] = [];
  let packed = 0;
  for (const value of found) {
    const read = Pack.safeParse(value);
    if (!read.success) return null;
    packs.push(read.data);
    packed += read.data.events;
  }
  return packed === count ? packs : null;
}

/** A pack with its plain events as text; the pack's bytes may be given away after that. */
export interface OpenPack {
  readonly pack: Pack;
  readonly text: string;
  /** Whether this version of the app has checked them. */
  readonly isChecked: boolean;
}

/** Packs opened by the version `by`; by null nothing was checked. */
export function openPacks(packs: readonly Pack[], by: string | null): readonly OpenPack[] {
  const decoder = new TextDecoder();
  return packs.map((pack) => ({
    pack,
    text: decoder.decode(pack.plain),
    isChecked: by !== null && pack.checkedBy === by,
  }));
}

/**
 * The events of packs: `told` those that are plain and checked, in their order, `others` all that had
 * to be checked. Null when a pack is damaged.
 */
export function eventsOfPacks(
  opened: readonly OpenPack[],
): { readonly told: readonly LoggedEvent[]; readonly others: readonly LoggedEvent[] } | null {
  const [told, others]: [LoggedEvent[], LoggedEvent[]] = [[], []];
  for (const { pack, text, isChecked } of opened) {
    const events = eventsIn(text);
    if (events === null || events.length + pack.others.length !== pack.events) return null;
    if (isChecked) for (const event of events) told.push({ state: 'known', event });
    else others.push(...events.map(readEvent));
    others.push(...pack.others.map(readEvent));
  }
  return { told, others };
}

function eventsIn(text: string): readonly SeasonEvent[] | null {
  try {
    return eventsInText(text);
  } catch {
    return null;
  }
}

/**
 * Why reading takes longer than it need: there are no packs of all of a record, or not of this version
 * of the app; or many of them are small.
 */
export type Disorder = 'not of now' | 'scattered';

/** What is wrong with packs for the version `by`; null when they are in order. */
export function disorderOf(packs: readonly Pack[], by: string | null): Disorder | null {
  if (packs.some(({ checkedBy }) => checkedBy !== by)) return 'not of now';
  return packs.filter(({ events }) => events < SMALL).length > MANY_SMALL ? 'scattered' : null;
}

/** The small ones among packs as one, with the keys that it takes the place of; null = too few. */
export function gathered<Key>(
  packs: readonly (readonly [Key, Pack])[],
): { readonly keys: readonly Key[]; readonly pack: Pack } | null {
  const small: (readonly [Key, Pack])[] = [];
  let events = 0;
  for (const entry of packs) {
    const [, pack] = entry;
    const fits = events + pack.events <= LARGEST;
    if (pack.events < SMALL && fits && pack.checkedBy === (small[0]?.[1] ?? pack).checkedBy) {
      small.push(entry);
      events += pack.events;
    }
  }
  const [first] = small;
  if (first === undefined || small.length < 2) return null;
  return {
    keys: small.map(([key]) => key),
    pack: {
      events,
      checkedBy: first[1].checkedBy,
      plain: together(small.map(([, { plain }]) => plain).filter(({ length }) => length > 0)),
      others: small.flatMap(([, { others }]) => others),
    },
  };
}

/** Texts in UTF-8 as one, with commas between. */
function together(parts: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const whole = new Uint8Array(parts.reduce((sum, { length }) => sum + length + 1, 0) - 1);
  let at = 0;
  for (const part of parts) {
    if (at > 0) whole[at - 1] = 0x2c;
    whole.set(part, at);
    at += part.length + 1;
  }
  return whole;
}
