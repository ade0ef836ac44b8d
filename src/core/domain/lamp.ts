import * as z from 'zod/mini';

/** What gives the light, as far as one can tell from the beach. */
export const LampKind = z.enum([
  'street lamp',
  'building',
  'window',
  'porch',
  'pool',
  'sign',
  'vehicle',
  'hand light',
  'fire',
  'glow in the sky',
  'other',
]);
export type LampKind = z.infer<typeof LampKind>;

export const LampColour = z.enum([
  'white',
  'blue-white',
  'yellow',
  'amber',
  'red',
  'green',
  'other',
]);
export type LampColour = z.infer<typeof LampColour>;

/** One source of light near a nest; null is not said. */
export interface Lamp {
  readonly kind: LampKind;
  readonly colour: LampColour | null;
  /** From the nest, degrees clockwise from true north. */
  readonly bearing_deg: number | null;
  /** Where it stands, in words. */
  readonly place: string | null;
}

/**
 * A lamp in one text, `kind/colour/bearing/place`, such as `street lamp/white/215/by the car park`:
 * what is not said stays empty. So a table can hold several, parted by semicolons.
 */
export const LampText = z
  .string()
  .check(
    z.refine(
      (text) => readLamp(text) !== null,
      'a lamp written like street lamp/white/215/by the car park',
    ),
  );

/** The lamp that a text tells of; null when it tells of none. */
export function readLamp(text: string): Lamp | null {
  const [kindText = '', colourText = '', bearingText = '', ...rest] = text.split('/');
  const kind = LampKind.safeParse(kindText.trim());
  const colour = colourText.trim() === '' ? null : LampColour.safeParse(colourText.trim());
  const bearing_deg = bearingText.trim() === '' ? null : Number(bearingText);
  if (!kind.success || colour?.success === false) return null;
  if (bearing_deg !== null && !(bearing_deg >= 0 && bearing_deg <= 360)) return null;
  const place = rest.join('/').trim();
  return {
    kind: kind.data,
    colour: colour?.data ?? null,
    bearing_deg,
    place: place === '' ? null : place,
  };
}

/** The text of a lamp. A semicolon in the words of its place becomes a comma, as it parts lamps. */
export function lampText({ kind, colour, bearing_deg, place }: Lamp): string {
  const parts = [kind, colour ?? '', bearing_deg ?? '', (place ?? '').replaceAll(';', ',')];
  return parts.join('/').replace(/\/+$/, '');
}

/** A lamp as free text of the record: `white street lamp, by the car park`, in the record’s own words. */
export function lampRemark({ kind, colour, place }: Lamp): string {
  const named = colour === null || colour === 'other' ? kind : /* @wc-ignore */ `${colour} ${kind}`;
  return place === null ? named : `${named}, ${place}`;
}
