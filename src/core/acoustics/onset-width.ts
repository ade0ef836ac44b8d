import { frameHop } from './analysis-rate.ts';
import { grain, quantileOf, type TextureMeter } from './texture.ts';

/** Grains of 2 ms in one hop of the short frames. */
const inHop = frameHop / grain;
/** Around the onset, grains: its own energy lies here ... */
const ownBefore = 12;
const ownAfter = 60;
/** ... and the sound it stands on here. */
const floorBefore = 60;
/** Less than twice the floor is its flicker. */
const overFloor = 2;
const grain_s = 0.002;

/**
 * Over how much time the energy of a sudden sound is spread, seconds: the square of its sum over the
 * sum of its squares, in grains of 2 ms above 500 Hz. One knock or drop fills two or three grains, the
 * stroke of a claw, which is many knocks, five and more. `frame` is the short frame of the onset.
 */
export function widthOf(texture: TextureMeter, frame: number): number {
  const onset = (frame - 1) * inHop;
  const before = texture.grains(onset - floorBefore, onset - ownBefore);
  const floor = overFloor * quantileOf([...before], 0.5);
  let [sum, squares] = [0, 0];
  for (const power of texture.grains(onset - ownBefore, onset + ownAfter)) {
    const over = Math.max(0, power - floor);
    sum += over;
    squares += over * over;
  }
  return squares === 0 ? 0 : (grain_s * sum * sum) / squares;
}
