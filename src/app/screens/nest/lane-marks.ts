import type { Night } from '../../../core/domain/night.ts';
import { type Mishap, Sound, Surface, type Visit, soundSaid } from '../../../core/domain/visit.ts';

/** All that was noted of a nest in one half of one night. */
export interface HalfNight {
  readonly night: Night;
  readonly half: 'evening' | 'dawn';
  /** 0 smooth .. 3 caved: the deepest that was seen; null when nobody looked. */
  readonly depth: number | null;
  /** 0 quiet .. 3 waterfall: the loudest that was heard; null when nobody listened. */
  readonly loudness: number | null;
  /** The most tracks counted; null when nobody looked for them. */
  readonly tracks: number | null;
  /** Hatchlings seen coming up while watching; null when nobody watched. */
  readonly emerged: number | null;
  readonly mishap: Mishap | null;
}

/** A nest's notes gathered by half night, in order of time. */
export function halfNights(visits: readonly Visit[]): readonly HalfNight[] {
  const halves = new Map<string, HalfNight>();
  for (const visit of visits) {
    const { night, half } = visit;
    const key = `${night} ${half}`;
    const held = halves.get(key);
    halves.set(key, {
      night,
      half,
      depth: most(held?.depth, visit.surface && Surface.options.indexOf(visit.surface)),
      loudness: most(held?.loudness, loudnessOf(visit)),
      tracks: most(held?.tracks, visit.tracks),
      emerged: most(held?.emerged, visit.watch === null ? visit.emerged : (visit.emerged ?? 0)),
      mishap: visit.mishap ?? held?.mishap ?? null,
    });
  }
  return [...halves.values()].sort(
    (a, b) => a.night - b.night || (a.half === b.half ? 0 : a.half === 'evening' ? -1 : 1),
  );
}

function most(a: number | null | undefined, b: number | null): number | null {
  if (a === null || a === undefined) return b;
  return b === null ? a : Math.max(a, b);
}

function loudnessOf(visit: Visit): number | null {
  const said = soundSaid(visit);
  return said === null ? null : Sound.options.indexOf(said);
}
