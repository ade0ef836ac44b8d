import { fixedText } from './locale.ts';

/**
 * A position for people, in degrees north and east, to about a metre: `27.12345, -74.00000`; where
 * the language has a decimal comma `27,12345; -74,00000`. Files keep the point.
 */
export function positionText(latitude_deg: number, longitude_deg: number): string {
  const [north, east] = [fixedText(latitude_deg, 5), fixedText(longitude_deg, 5)];
  return /* @wc-include */ /* @wc-context: position */ `${north}, ${east}`;
}
