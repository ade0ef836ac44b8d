import type { OrientationDetails } from '../domain/orientation.ts';
import { type CircularMean, circularMean } from './circular-mean.ts';
import { circularMedian } from './circular-median.ts';
import {
  type Confidence,
  confidence,
  largeSampleConfidence,
  leastTracks,
  manyTracks,
} from './confidence.ts';
import { type Fan, bisector, fanBetween, fanOf } from './fan.ts';
import { type Offset, offsetFrom } from './offset.ts';
import { type Expected, type Rayleigh, gathersAround, rayleigh } from './uniformity.ts';

/** The direction that stands for a whole record, and what it was taken from. */
export interface MainDirection {
  readonly bearing_deg: number;
  /** `mode` as noted on the beach; else the mean of the tracks; else the middle of the fan. */
  readonly from: 'mode' | 'mean' | 'middle of the fan';
}

/** What one record of which way hatchlings went comes to. Null is "not to be said"; `unsaid` says why. */
export interface Orientation {
  /** Tracks whose bearing was taken. */
  readonly n: number;
  readonly mean: CircularMean | null;
  readonly median_deg: number | null;
  readonly rayleigh: Rayleigh | null;
  readonly confidence: Confidence | null;
  readonly fan: Fan | null;
  readonly main: MainDirection | null;
  readonly seaward_deg: number | null;
  readonly offset: Offset | null;
  /** Test of the tracks against the line to the sea. */
  readonly gathersSeaward: Expected | null;
  /** One sentence for each figure that cannot be given. */
  readonly unsaid: readonly string[];
}

/**
 * The figures of one record. `zoneSeaward_deg` is the line to the sea of its stretch of beach, for
 * records that do not name one. The outermost bearings as noted hold for the fan; where they were not
 * noted it is the narrowest that holds every track.
 */
export function orientationOf(
  details: OrientationDetails,
  zoneSeaward_deg: number | null = null,
): Orientation {
  const tracks_deg = details.track_bearings ?? [];
  const mean = circularMean(tracks_deg);
  const fan = fanFrom(details, tracks_deg);
  const main = mainDirection(details.modal_deg ?? null, mean, fan);
  const seaward_deg = details.seaward_deg ?? zoneSeaward_deg;
  return {
    n: tracks_deg.length,
    mean,
    median_deg: circularMedian(tracks_deg),
    rayleigh: mean === null || mean.n < 2 ? null : rayleigh(mean),
    confidence: mean === null ? null : confidenceOf(tracks_deg, mean),
    fan,
    main,
    seaward_deg,
    offset:
      main === null || seaward_deg === null ? null : offsetFrom(seaward_deg, main.bearing_deg),
    gathersSeaward: mean === null || seaward_deg === null ? null : gathersAround(mean, seaward_deg),
    unsaid: unsaid(mean, fan, main, seaward_deg),
  };
}

function confidenceOf(tracks_deg: readonly number[], mean: CircularMean): Confidence {
  return mean.n >= manyTracks ? largeSampleConfidence(tracks_deg, mean) : confidence(mean);
}

function fanFrom(
  { leftmost_deg, rightmost_deg }: OrientationDetails,
  tracks_deg: readonly number[],
): Fan | null {
  const isNoted = typeof leftmost_deg === 'number' && typeof rightmost_deg === 'number';
  return isNoted ? fanBetween(leftmost_deg, rightmost_deg) : fanOf(tracks_deg);
}

function mainDirection(
  modal_deg: number | null,
  mean: CircularMean | null,
  fan: Fan | null,
): MainDirection | null {
  if (modal_deg !== null) return { bearing_deg: modal_deg, from: 'mode' };
  const mean_deg = mean?.mean_deg ?? null;
  if (mean_deg !== null) return { bearing_deg: mean_deg, from: 'mean' };
  // Tracks that cancel have no main direction, however their fan lies.
  if (mean !== null || fan === null) return null;
  return { bearing_deg: bisector(fan), from: 'middle of the fan' };
}

function unsaid(
  mean: CircularMean | null,
  fan: Fan | null,
  main: MainDirection | null,
  seaward_deg: number | null,
): readonly string[] {
  const said: string[] = [];
  if (mean === null) said.push('No bearing of a track was taken, so there is no mean and no test.');
  else if (mean.mean_deg === null) {
    said.push('The tracks cancel each other out: there is no mean direction.');
  } else if (mean.n < 2) said.push('One track tells nothing of spread.');
  else if (mean.n < leastTracks) {
    said.push(
      `Fewer than ${leastTracks} tracks: no confidence about the mean is given; go by the fan.`,
    );
  }
  if (fan === null) said.push('Neither tracks nor outermost bearings: there is no fan.');
  if (main === null && mean === null) said.push('There is no main direction.');
  if (seaward_deg === null) {
    said.push('The line to the sea is not known: give it here or with the zone.');
  }
  return said;
}
