import { decodeQR } from 'qr/decode.js';

/** Pixels as a canvas gives them: four bytes each, red, green, blue, opacity. */
export interface CameraPicture {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8ClampedArray;
}

/**
 * The text of a code (ISO/IEC 18004) in a picture; null when none can be read in it. A code of the
 * dark screen is red on black, inside out for the standard, so its red is turned round first.
 */
export function readCode(picture: CameraPicture): string | null {
  return decoded(picture.data, picture) ?? decoded(redTurnedRound(picture.data), picture);
}

function decoded(
  data: Uint8ClampedArray,
  { width, height }: Pick<CameraPicture, 'width' | 'height'>,
): string | null {
  try {
    return decodeQR({ width, height, data });
  } catch {
    return null;
  }
}

function redTurnedRound(data: Uint8ClampedArray): Uint8ClampedArray {
  const turned = new Uint8ClampedArray(data.length);
  for (let at = 0; at < data.length; at += 4) {
    const grey = 255 - (data[at] ?? 0);
    turned[at] = turned[at + 1] = turned[at + 2] = grey;
    turned[at + 3] = 255;
  }
  return turned;
}
