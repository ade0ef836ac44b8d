import { lampKindWord, lampWords } from '../domain/code-words.ts';
import { LampKind, readLamp } from '../domain/lamp.ts';
import { type Night, parseNight } from '../domain/night.ts';
import { siteOf } from '../forecast/site.ts';
import type { NestRecord, SeasonRecord } from '../log/season-record.ts';
import { type SeasonWindow, isWithin, placedOf } from './season-window.ts';
import { type ShareInterval, shareInterval } from './share-interval.ts';

/** One record of which way hatchlings went, as far as it tells how many went astray. */
export interface Astray {
  readonly nest: string;
  readonly night: Night;
  readonly zone: string | null;
  /** Kinds and colours of the lamps noted, such as `white street lamp`; else what was written. */
  readonly lamps: readonly string[];
  readonly moon: string;
  /** Hatchlings or tracks counted, and how many of them went astray; null = not said. */
  readonly counted: number | null;
  readonly astray: number | null;
}

/** Records of one group. The share is over the records that say both numbers. */
export interface AstrayGroup {
  readonly of: string;
  readonly records: number;
  /** Records in which at least one went astray. */
  readonly withAstray: number;
  readonly counted: number;
  readonly astray: number;
  readonly share: ShareInterval | null;
}

/** Moonlight in the hours of emergence from which a night is called moonlit, and bright (guess). */
const moonlitFrom = 0.1;
const brightFrom = 0.5;

/** Every record of a season's orientations in a window, in order of nights. */
export function astrayOf(record: SeasonRecord, window: SeasonWindow): readonly Astray[] {
  const moonOn = moonWords(record);
  return [...record.nests.values()]
    .flatMap((nest) => ofNest(nest, moonOn))
    .filter(({ placed }) => isWithin(window, placed))
    .map(({ one }) => one)
    .sort((a, b) => a.night - b.night || (a.nest < b.nest ? -1 : 1));
}

function ofNest(record: NestRecord, moonOn: (night: Night, noted: string | null) => string) {
  return record.orientations.flatMap(({ fact: { details } }) => {
    const night = parseNight(details.night);
    if (night === null) return [];
    const zone = details.zone ?? record.nest.zone;
    const one: Astray = {
      nest: record.nest.id,
      night,
      zone,
      lamps: lampsOf(details.lamps ?? [], details.light_source ?? null),
      moon: moonOn(night, details.moon ?? null),
      counted: details.tracks_counted ?? null,
      astray: details.disoriented ?? null,
    };
    return [{ one, placed: { ...placedOf(record.nest, night), zone } }];
  });
}

/** Each kind once, whatever its place: two street lamps of one colour are one group. */
function lampsOf(texts: readonly string[], written: string | null): readonly string[] {
  const named = texts.flatMap((text) => {
    const lamp = readLamp(text);
    return lamp === null ? [] : [lampWords({ ...lamp, place: null })];
  });
  if (named.length > 0) return [...new Set(named)];
  const kind = LampKind.safeParse(written?.trim());
  if (kind.success) return [lampKindWord[kind.data]];
  return [written === null || written.trim() === '' ? 'no lamp noted' : written.trim()];
}

/** Moonlight as the sky had it where the place is known; else what was noted. */
function moonWords(record: SeasonRecord): (night: Night, noted: string | null) => string {
  const site = siteOf(record);
  return (night, noted) => {
    if (site.place === null) return noted ?? 'not known';
    const light = site.moonlight(night);
    if (light < moonlitFrom) return /* @wc-context: moon */ /* @wc-include */ 'dark';
    return light < brightFrom ? 'some moonlight' : 'bright moon';
  };
}

/** By zone, by lamp (a record counts under each of its lamps), and by moon. */
export function disorientationBy(
  records: readonly Astray[],
  what: 'zone' | 'lamp' | 'moon',
): readonly AstrayGroup[] {
  const groups = new Map<string, Astray[]>();
  for (const one of records) {
    for (const key of keysOf(one, what)) groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  return [...groups]
    .map(([of, ones]) => groupOf(of, ones))
    .sort((a, b) => b.astray - a.astray || (a.of < b.of ? -1 : 1));
}

function keysOf({ zone, lamps, moon }: Astray, what: 'zone' | 'lamp' | 'moon'): readonly string[] {
  switch (what) {
    case 'zone':
      return [zone ?? 'no zone'];
    case 'lamp':
      return lamps;
    case 'moon':
      return [moon];
  }
}

function groupOf(of: string, ones: readonly Astray[]): AstrayGroup {
  let [counted, astray] = [0, 0];
  for (const one of ones) {
    if (one.counted === null || one.astray === null) continue;
    counted += Math.max(one.counted, one.astray);
    astray += one.astray;
  }
  return {
    of,
    records: ones.length,
    withAstray: ones.filter((one) => (one.astray ?? 0) > 0).length,
    counted,
    astray,
    share: shareInterval(astray, counted),
  };
}
