import { type Night, nightBounds } from '../../../core/domain/night.ts';
import type { Place } from '../../../core/sky/place.ts';

/**
 * The moon of a night in words: as it stood when the first hatchling came out, else in the middle of the
 * dark. Null where the programme does not say where the beach is. The ephemeris is large, so it is read
 * when first asked for.
 */
export async function moonOf(
  place: Place | null,
  night: Night,
  zone: string,
  firstOut_ms: number | null,
): Promise<string | null> {
  if (place === null) return null;
  const { moonText } = await import('../../../core/sky/moon-text.ts');
  if (firstOut_ms !== null) {
    const { moonAt } = await import('../../../core/sky/moon.ts');
    return moonText(moonAt(place, firstOut_ms));
  }
  const { darkness } = await import('../../../core/sky/darkness.ts');
  const { from_ms, to_ms } = nightBounds(night, zone);
  return moonText(darkness(place, from_ms, to_ms).moonAtMiddle);
}
