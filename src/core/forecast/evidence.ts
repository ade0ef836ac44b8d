import type { Night } from '../domain/night.ts';
import type { Experience, Visit } from '../domain/visit.ts';
import { type ChainEvidence, type Look, chainEvidence } from '../inference/hidden-chain.ts';
import type { NestRecord } from '../log/season-record.ts';
import type { Candidates } from './candidates.ts';
import { type CueChains, halvesPerNight } from './cue-chains.ts';
import { expectedSuccess, hatchlingsOf } from './hatchlings.ts';
import { meterLikelihood } from './meter-likelihood.ts';
import { type Mishaps, mishapsOf } from './mishaps.ts';
import { type Sighting, trackSighting, watchSighting } from './sightings.ts';
import { type Silence, logOfSilence, silenceOn } from './silence.ts';
import type { Site } from './site.ts';

/** One cue noted on one visit, as the chains read it. */
export interface CueLook extends Look {
  readonly visit: Visit;
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
  /** Where finds alone are written down: that no boil was reported so far. */
  readonly silence: Silence | null;
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

/**
 * Likelihood rows, as in `Look`, of the sound noted on a visit, by ear, by meter or both; ones where
 * neither was. Ear and meter of one visit heard the same: each counts half.
 */
export function soundLikelihood(visit: Visit, chains: CueChains): Float64Array {
  const { sound, instrument, observer } = visit;
  const meter = meterLikelihood(visit);
  const byMeter = meter === null ? null : chains.meterLook(meter, instrument);
  if (sound === null) {
    return byMeter ?? new Float64Array((chains.sound.reach + 2) * 4).fill(1);
  }
  const windy = visit.wind === 'strong';
  const byEar = chains.soundLook(sound, experienceOf(visit), instrument, windy, observer);
  return byMeter === null ? byEar : byEar.map((value, cell) => Math.sqrt(value * byMeter[cell]!));
}

/**
 * Sorts out what was noted of a nest up to `until_ms`. `silentUntil` = the evening up to which it
 * tells that no boil was reported; null where mornings that found nothing are written down too.
 */
export function gather(
  record: NestRecord,
  candidates: Candidates,
  site: Site,
  chains: CueChains,
  until_ms: number,
  inventoried: Night | null,
  silentUntil: Night | null = null,
): Evidence {
  const visits = upTo(record.visits, until_ms);
  const surface: CueLook[] = [];
  const sound: CueLook[] = [];
  for (const visit of visits) {
    const at = halfOf(visit);
    if (visit.surface !== null) {
      surface.push({ at, likelihood: surfaceLikelihood(visit, chains), visit });
    }
    if (visit.sound !== null || meterLikelihood(visit) !== null) {
      sound.push({ at, likelihood: soundLikelihood(visit, chains), visit });
    }
  }
  const seen = sightingsOf(visits, record, site, until_ms);
  const boil = seen.find((sighting) => sighting.count === 'many') ?? null;
  return {
    candidates,
    surface: inOrder(surface),
    sound: earAndMeterOnce(inOrder(sound)),
    sightings: boil === null ? seen : seen.slice(0, seen.indexOf(boil) + 1),
    mishaps: mishapsOf(visits),
    boil,
    inventoried,
    silence: silentUntil === null || boil !== null ? null : silenceOn(silentUntil, visits),
  };
}

/** In a half night with notes by ear alone and by meter alone, each counts half: they heard the same. */
function earAndMeterOnce(looks: readonly CueLook[]): readonly CueLook[] {
  if (!looks.some(({ visit }) => visit.sound === null)) return looks;
  return looks.map((look) => {
    const isByEar = look.visit.sound !== null;
    const other = looks.some(
      ({ at, visit }) => at === look.at && (visit.sound !== null) !== isByEar,
    );
    return other ? { ...look, likelihood: look.likelihood.map(Math.sqrt) } : look;
  });
}

/** The visits that are known of by a moment; they come in order of time. */
function upTo(visits: readonly Visit[], until_ms: number): readonly Visit[] {
  const last = visits[visits.length - 1];
  return last === undefined || last.at_ms <= until_ms
    ? visits
    : visits.filter((visit) => visit.at_ms <= until_ms);
}

/** Looks in order of their half nights; nearly always they are. */
function inOrder(looks: CueLook[]): readonly CueLook[] {
  for (let index = 1; index < looks.length; index++) {
    if (looks[index]!.at < looks[index - 1]!.at) return looks.sort((a, b) => a.at - b.at);
  }
  return looks;
}

/** The watches and dawn looks of each night, in order. */
function sightingsOf(
  visits: readonly Visit[],
  { nest }: NestRecord,
  site: Site,
  until_ms: number,
): Sighting[] {
  const hatchlings = hatchlingsOf(nest, expectedSuccess);
  const looked = visits.filter((visit) => visit.watch !== null || visit.tracks !== null);
  if (looked.some(({ night }, index) => index > 0 && night < looked[index - 1]!.night)) {
    looked.sort((a, b) => a.night - b.night);
  }
  const seen: Sighting[] = [];
  for (let from = 0, to = 0; from < looked.length; from = to) {
    const { night } = looked[from]!;
    while (to < looked.length && looked[to]!.night === night) to++;
    const list = from === 0 && to === looked.length ? looked : looked.slice(from, to);
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
  | { readonly channel: 'mishaps' }
  | { readonly channel: 'silence' };

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
    case 'silence':
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

/**
 * As `sumOfParts` of all that was noted. Cues are weighed for the nights that a sighting leaves
 * possible alone; where that is one night they tell nothing, and are left out.
 */
export function logLikelihood(evidence: Evidence, chains: CueChains): Float64Array {
  const log = besidesLog(evidence, null);
  const { count } = evidence.candidates;
  if (wantedNights.length < count) wantedNights = new Uint8Array(2 * count);
  const wanted = wantedNights;
  let possible = log[count] === -Infinity ? 0 : 1;
  for (let c = 0; c < count; c++) {
    wanted[c] = log[c] === -Infinity ? 0 : 1;
    possible += wanted[c]!;
  }
  if (possible < 2) return log;
  addCues(log, evidence.surface, evidence.candidates, chains, 'surface', wanted);
  addCues(log, evidence.sound, evidence.candidates, chains, 'sound', wanted);
  return log;
}

function cueLog(
  evidence: Evidence,
  chains: CueChains,
  channel: 'surface' | 'sound',
  leftOut: number | null,
): Float64Array {
  const log = new Float64Array(evidence.candidates.count + 1);
  const kept = evidence[channel].filter((_, index) => index !== leftOut);
  addCues(log, kept, evidence.candidates, chains, channel, null);
  return log;
}

/** Adds what one channel of cues says, by candidate night, then never, for those `wanted`. */
function addCues(
  log: Float64Array,
  cues: readonly CueLook[],
  candidates: Candidates,
  chains: CueChains,
  channel: 'surface' | 'sound',
  wanted: Uint8Array | null,
): void {
  if (cues.length === 0) return;
  const halves = eventHalves(candidates);
  if (byCue.length < candidates.count) byCue = new Float64Array(2 * candidates.count);
  const options = { wanted, into: byCue };
  const { byCandidate, never } = chainEvidence(chains[channel], cues, halves, options);
  const power = chains.power[channel];
  const { count } = candidates;
  for (let c = 0; c < count; c++) {
    if (wanted === null || wanted[c] === 1) log[c] = log[c]! + power * byCandidate[c]!;
  }
  log[count] = log[count]! + power * never;
}

// Working space, kept between calls.
let byCue = new Float64Array(128);
let wantedNights = new Uint8Array(128);

/** Of sightings, mishaps and the inventory. */
function besidesLog(evidence: Evidence, leftOut: LeftOut | null): Float64Array {
  const { candidates, sightings, mishaps, inventoried, silence } = evidence;
  const { first, count } = candidates;
  const log = new Float64Array(count + 1);
  sightings.forEach((sighting, index) => {
    if (leftOut?.channel === 'sighting' && leftOut.index === index) return;
    addSighting(log, sighting, candidates);
  });
  if (leftOut?.channel !== 'mishaps') {
    log[count] = log[count]! + Math.log(mishaps.neverFactor);
    forbidFrom(log, mishaps.goneFrom, candidates);
  }
  forbidFrom(log, inventoried, candidates);
  if (silence !== null && leftOut?.channel !== 'silence') {
    for (let c = 0; c < count; c++) log[c] = log[c]! + logOfSilence(silence, first + c);
  }
  return log;
}

/**
 * Adds the log-likelihood of a sighting, by candidate night, then never; where it no longer depends
 * on the night, it is taken once.
 */
export function addSighting(
  log: Float64Array,
  sighting: Sighting,
  { first, count }: Candidates,
): void {
  const { evenBeyond, night } = sighting;
  const earlier = Math.log(sighting.likelihood(-evenBeyond));
  const later = Math.log(sighting.likelihood(evenBeyond));
  for (let c = 0; c < count; c++) {
    const after = first + c - night;
    const value =
      after >= evenBeyond
        ? later
        : after <= -evenBeyond
          ? earlier
          : Math.log(sighting.likelihood(after));
    log[c] = log[c]! + value;
  }
  log[count] = log[count]! + Math.log(sighting.likelihoodNever);
}

function forbidFrom(log: Float64Array, night: Night | null, { first, count }: Candidates): void {
  if (night === null) return;
  for (let c = Math.max(0, night - first); c < count; c++) log[c] = -Infinity;
}

/** The candidate nights as half nights, for the chains; not to be written to. */
export function eventHalves({ first, count }: Candidates): Float64Array {
  if (first !== lastHalves.first || count !== lastHalves.count) {
    const halves = new Float64Array(count);
    for (let c = 0; c < count; c++) halves[c] = (first + c) * halvesPerNight;
    lastHalves = { first, count, halves };
  }
  return lastHalves.halves;
}

/** Asked for twice and more of one nest after the other. */
let lastHalves = { first: NaN, count: 0, halves: new Float64Array(0) };

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
  const looks = evidence[channel].filter(({ at }) => at <= half);
  return chainEvidence(chains[channel], looks, eventHalves(evidence.candidates), { horizon: half });
}
