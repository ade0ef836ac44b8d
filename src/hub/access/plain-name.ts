import * as z from 'zod/mini';

/** The name of a person, team or programme: some visible characters on one line, spaces evened out. */
export function plainName(most: number) {
  return z.pipe(
    z.pipe(
      z.string().check(z.maxLength(most * 4)),
      z.transform((text: string) => text.normalize('NFC').replace(/\s+/g, ' ').trim()),
    ),
    z.string().check(
      z.minLength(1, 'a name'),
      z.maxLength(most, `at most ${most} characters`),
      // Control characters, and those that turn the direction of writing or do not show.
      z.regex(/^[^\p{Cc}\p{Cf}\p{Cs}\p{Co}]*$/u, 'a name without hidden characters'),
    ),
  );
}

export const PersonName = plainName(80);
export const TeamName = plainName(60);
export const ProgrammeName = plainName(80);
