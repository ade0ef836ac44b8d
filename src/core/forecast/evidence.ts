import type { Night } from '../domain/night.ts';
import type { Experience, Visit } from '../domain/visit.ts';
import { type ChainEvidence, type Look, chainEvidence } from '../inference/hidden-chain.ts';
import type { NestRecord } from '../log/season-record.ts';
import type { Candidates } from './candidates.ts';
import { type CueChains, halvesPerNight } from './cue-chains.ts';
import { expectedSuccess, hatchlingsOf } from './hatchlings.ts';
import { type Mishaps, mishapsOf } from './mishaps.ts';
import { type Sighting, trackSighting, watchSighting } from './sightings.ts';
import type { Site } from './site.ts';

/** One cue noted on one visit, as the chains read it. */
export interface CueLook {
  readonly visit: Visit;
  readonly look: Look;
}

/** Everything noted of a nest up to a moment, sorted by what it speaks of. */
export interface Evidence {
  readonly candidates: Candidates;
  readonly surface: readonly CueLook[];
  readonly sound: readonly CueLook[];
  readonly sightings: readonly Sighting[];
  readonly mishaps: Mishaps;
  /** The first sighting that says the boil has happened; what was seen later is of no account. */
  readonly boil: Sighting | null;
  /** The night from which an inventory says that nothing more will come. */
  readonly inventoried: Night | null;
}

/** The half night of a visit as the chains count them: evening, then dawn, of each night. */
export function halfOf(visit: Visit): number {
  return visit.night * halvesPerNight + (visit.half === 'dawn' ? 1 : 0);
}

/** Experience that is not said counts as trained. */
export function experienceOf({ experience }: Visit): Experience {
  return experience ?? 'trained';
}

/** Likelihood rows, as in `Look`, of the surface noted on a visit; ones where none was. */
export function surfaceLikelihood(visit: Visit, chains: CueChains): Float64Array {
  const { surface, observer } = visit;
  if (surface === null) return new Float64Array((chains.surface.reach + 2) * 4).fill(1);
  return chains.surfaceLook(surface, experienceOf(visit), observer);
}

/** Likelihood rows, as in `Look`, of the sound noted on a visit; ones where none was. */
export function soundLikelihood(visit: Visit, chains: CueChains): Float64Array {
  const { sound, instrument, observer } = visit;
  if (sound === null) return new Float64Array((chains.sound.reach + 2) * 4).fill(1);
  const windy = visit.wind === 'strong';
  return chains.soundLook(sound, experienceOf(visit), instrument, windy, observer);
}

/** Sorts out what was noted of a nest up to `until_ms`. */
export function gather(
  record: NestRecord,
  candidates: Candidates,
  site: Site,
  chains: CueChains,
  until_ms: number,
  inventoried: Night | null,
): Evidence {
  const visits = record.visits.filter((visit) => visit.at_ms <= until_ms);
  const surface: CueLook[] = [];
  const sound: CueLook[] = [];
  for (const visit of visits) {
    const at = halfOf(visit);
    if (visit.surface !== null) {
      surface.push({ visit, look: { at, likelihood: surfaceLikelihood(visit, chains) } });
    }
    if (visit.sound !== null) {
      sound.push({ visit, look: { at, likelihood: soundLikelihood(visit, chains) } });
    }
  }
  const byTime = (a: CueLook, b: CueLook): number => a.look.at - b.look.at;
  const seen = sightingsOf(visits, record, site, until_ms);
  const boil = seen.find((sighting) => sighting.count === 'many') ?? null;
  return {
    candidates,
    surface: surface.sort(byTime),
    sound: sound.sort(byTime),
    sightings: boil === null ? seen : seen.slice(0, seen.indexOf(boil) + 1),
    mishaps: mishapsOf(visits),
    boil,
    inventoried,
  };
}

/** The watches and dawn looks of each night, in order. */
function sightingsOf(
  visits: readonly Visit[],
  { nest }: NestRecord,
  site: Site,
  until_ms: number,
): Sighting[] {
  const hatchlings = hatchlingsOf(nest, expectedSuccess);
  const byNight = new Map<Night, Visit[]>();
  for (const visit of visits) {
    if (visit.watch === null && visit.tracks === null) continue;
    const list = byNight.get(visit.night);
    if (list === undefined) byNight.set(visit.night, [visit]);
    else list.push(visit);
  }
  const seen: Sighting[] = [];
  for (const [night, list] of [...byNight].sort(([a], [b]) => a - b)) {
    const wet = site.wetDay(night) || list.some(isWetEvening);
    const watch = watchSighting(list, night, site, wet, until_ms);
    const tracks = trackSighting(list, night, site, hatchlings);
    if (watch !== null) seen.push(watch);
    if (tracks !== null) seen.push(tracks);
  }
  return seen;
}

const isWetEvening = ({ half, rain }: Visit): boolean =>
  half === 'evening' && (rain === 'light' || rain === 'heavy');

/** A note left out of account, to see what it does. */
export type LeftOut =
  | { readonly channel: 'surface' | 'sound' | 'sighting'; readonly index: number }
  | { readonly channel: 'mishaps' };

/** What the log-likelihood is made of: a part for each channel of cues, one for all the rest. */
export interface LogParts {
  readonly surface: Float64Array;
  readonly sound: Float64Array;
  readonly besides: Float64Array;
}

/** The parts of the log-likelihood, each by candidate night, then never. */
export function logParts(evidence: Evidence, chains: CueChains): LogParts {
  return {
    surface: cueLog(evidence, chains, 'surface', null),
    sound: cueLog(evidence, chains, 'sound', null),
    besides: besidesLog(evidence, null),
  };
}

/** The parts as if something had not been noted; only the part it stood in is worked out anew. */
export function partsWithout(
  parts: LogParts,
  evidence: Evidence,
  chains: CueChains,
  leftOut: LeftOut,
): LogParts {
  switch (leftOut.channel) {
    case 'surface':
      return { ...parts, surface: cueLog(evidence, chains, 'surface', leftOut.index) };
    case 'sound':
      return { ...parts, sound: cueLog(evidence, chains, 'sound', leftOut.index) };
    case 'sighting':
    case 'mishaps':
      return { ...parts, besides: besidesLog(evidence, leftOut) };
  }
}

/**
 * Log-likelihood of what was noted under each candidate night, then under never (last element).
 * -Infinity where a sighting rules a night out.
 */
export function sumOfParts({ surface, sound, besides }: LogParts): Float64Array {
  return besides.map((value, c) => value + surface[c]! + sound[c]!);
}

/** As `sumOfParts` of all that was noted. */
export function logLikelihood(evidence: Evidence, chains: CueChains): Float64Array {
  return sumOfParts(logParts(evidence, chains));
}

function cueLog(
  evidence: Evidence,
  chains: CueChains,
  channel: 'surface' | 'sound',
  leftOut: number | null,
): Float64Array {
  const { count } = evidence.candidates;
  const log = new Float64Array(count + 1);
  const kept = evidence[channel].filter((_, index) => index !== leftOut);
  if (kept.length === 0) return log;
  const looks = kept.map(({ look }) => look);
  const { byCandidate, never } = chainEvidence(
    chains[channel],
    looks,
    eventHalves(evidence.candidates),
  );
  const power = chains.power[channel];
  for (let c = 0; c < count; c++) log[c] = power * byCandidate[c]!;
  log[count] = power * never;
  return log;
}

/** Of sightings, mishaps and the inventory. */
function besidesLog(evidence: Evidence, leftOut: LeftOut | null): Float64Array {
  const { candidates, sightings, mishaps, inventoried } = evidence;
  const { first, count } = candidates;
  const log = new Float64Array(count + 1);
  sightings.forEach((sighting, index) => {
    if (leftOut?.channel === 'sighting' && leftOut.index === index) return;
    for (let c = 0; c < count; c++) {
      log[c] = log[c]! + Math.log(sighting.likelihood(first + c - sighting.night));
    }
    log[count] = log[count]! + Math.log(sighting.likelihoodNever);
  });
  if (leftOut?.channel !== 'mishaps') {
    log[count] = log[count]! + Math.log(mishaps.neverFactor);
    forbidFrom(log, mishaps.goneFrom, candidates);
  }
  forbidFrom(log, inventoried, candidates);
  return log;
}

function forbidFrom(log: Float64Array, night: Night | null, { first, count }: Candidates): void {
  if (night === null) return;
  for (let c = Math.max(0, night - first); c < count; c++) log[c] = -Infinity;
}

/** The candidate nights as half nights, for the chains. */
export function eventHalves({ first, count }: Candidates): Float64Array {
  return Float64Array.from({ length: count }, (_, c) => (first + c) * halvesPerNight);
}

/**
 * The states' probabilities on a half night not before the last look, for each candidate night and
 * (last row) for never: what a look made then would find.
 */
export function expectedStates(
  evidence: Evidence,
  chains: CueChains,
  channel: 'surface' | 'sound',
  half: number,
): ChainEvidence {
  const looks = evidence[channel].map(({ look }) => look).filter(({ at }) => at <= half);
  return chainEvidence(chains[channel], looks, eventHalves(evidence.candidates), half);
}
