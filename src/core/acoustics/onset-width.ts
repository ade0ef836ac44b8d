import { frameHop } from './analysis-rate.ts';
import { grain, quantileOf, type TextureMeter } from './texture.ts';

/** Grains of 2 ms in one hop of the short frames. */
const inHop = frameHop / grain;
/** Around the onset, grains: its own energy lies here ... */
const ownBefore = 12;
const ownAfter = 60;
/** ... with all that rings on, here ... */
const ringsAfter = 90;
/** ... and the sound it stands on here. */
const floorBefore = 60;
/** Less than twice the floor is its flicker. */
const overFloor = 2;
const grain_s = 0.002;
/** A sound has begun with this share of its energy; one blow is over within three grains. */
const begun = 0.05;
const blow = 3;

/** How the energy of a sudden sound lies in time, above 500 Hz in grains of 2 ms. */
export interface OnsetWidth {
  /**
   * Over how much time it is spread, seconds: the square of its sum over the sum of its squares. One
   * knock or drop fills two or three grains, the stroke of a claw, which is many knocks, five and more.
   */
  readonly width_s: number;
  /** Share that comes within the first 6 ms: most of a thing that is struck once. */
  readonly struck: number;
}

/** `frame` is the short frame of the onset. */
export function widthOf(texture: TextureMeter, frame: number): OnsetWidth {
  const onset = (frame - 1) * inHop;
  const before = texture.grains(onset - floorBefore, onset - ownBefore);
  const floor = overFloor * quantileOf([...before], 0.5);
  const over = texture
    .grains(onset - ownBefore, onset + ringsAfter)
    .map((power) => Math.max(0, power - floor));
  let [sum, squares] = [0, 0];
  for (const power of over.subarray(0, ownBefore + ownAfter)) {
    sum += power;
    squares += power * power;
  }
  return { width_s: squares === 0 ? 0 : (grain_s * sum * sum) / squares, struck: struckOnce(over) };
}

function struckOnce(over: Float64Array): number {
  const whole = over.reduce((sum, power) => sum + power, 0);
  if (whole === 0) return 1;
  let first = 0;
  for (let sum = over[0]!; sum < begun * whole; sum += over[first]!) first++;
  return over.subarray(first, first + blow).reduce((sum, power) => sum + power, 0) / whole;
}
