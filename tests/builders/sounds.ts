import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import * as z from 'zod/mini';
import { Detector } from '../../src/core/acoustics/detector.ts';
import type { Reading } from '../../src/core/acoustics/reading.ts';
import { readWav } from '../../src/core/acoustics/wav.ts';

export const fixtureFolder = join(import.meta.dirname, '../../audio-fixtures');

const Manifest = z.object({
  files: z.array(
    z.object({
      file: z.string(),
      state: z.string(),
      background: z.string(),
      scratch_per_min: z.nullable(z.number()),
      onsets_s: z.array(z.number()),
    }),
  ),
});

/** The fixtures as the manifest describes them. */
export const fixtures = Manifest.parse(
  JSON.parse(readFileSync(join(fixtureFolder, 'manifest.json'), 'utf8')),
).files;

/** The sound of one fixture. */
export function fixtureSound(file: string): { samples: Float32Array; rate_hz: number } {
  const read = readWav(readFileSync(join(fixtureFolder, file)));
  if (!read.ok) throw new Error(`${file}: ${read.message}`);
  return { samples: read.wav.read(0, read.wav.length), rate_hz: read.wav.rate_hz };
}

/** What the detector makes of a whole sound, handed over in blocks of one size. */
export function heard(samples: Float32Array, rate_hz: number, block = 4096): Reading {
  const detector = new Detector(rate_hz);
  for (let at = 0; at < samples.length; at += block) {
    detector.push(samples.subarray(at, at + block));
  }
  return detector.finish();
}

/** How many of the true onsets have an event within 50 ms of their own, and how many events have none. */
export function matched(
  onsets_s: readonly number[],
  events_s: readonly number[],
): { readonly hits: number; readonly extras: number } {
  const free = [...events_s];
  let hits = 0;
  for (const onset of onsets_s) {
    const near = free.map((event) => Math.abs(event - onset));
    const nearest = near.indexOf(Math.min(...near));
    if (nearest < 0 || near[nearest]! > 0.05) continue;
    free.splice(nearest, 1);
    hits++;
  }
  return { hits, extras: free.length };
}

/** Sounds one after the other. */
export function joined(...parts: readonly Float32Array[]): Float32Array {
  const out = new Float32Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    out.set(part, at);
    at += part.length;
  }
  return out;
}
