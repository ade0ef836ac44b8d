import type { NestId } from '../domain/nest.ts';
import type { RootFinder } from './amendment-tree.ts';
import type { AmendingEvent, Amendment, RecordProblem, Standing } from './season-record.ts';

/** What is wrong with the amendments of a fact, in words for the person who keeps the record. */
export function problemsOf({ amendments }: Standing): RecordProblem[] {
  return amendments.flatMap((amendment) => {
    const message = wrongWith(amendment);
    return message === null ? [] : [{ event: amendment.event.id, message }];
  });
}

function wrongWith({ fallen, ignored }: Amendment): string | null {
  if (fallen?.kind === 'unreadable') {
    return `A correction could not be used: ${fallen.message}. What was noted before stands. Correct it again with a value that fits.`;
  }
  if (fallen?.kind === 'corrects a withdrawal') {
    return 'It corrects a withdrawal, which holds no values. To bring the note back, withdraw the withdrawal.';
  }
  if (ignored !== undefined) {
    return `It corrects ${ignored.join(', ')}, which such a note does not have; its other values hold. A newer version may know what that is.`;
  }
  return null;
}

export function duplicateProblem(nest: NestId, event: string): RecordProblem {
  const message = `Nest ${nest} was registered more than once; the first stands. Correct it, or give this one another name.`;
  return { event, message };
}

/** Amendments that speak of no note that is here. */
export function adriftProblems(
  adrift: readonly AmendingEvent[],
  roots: RootFinder,
): readonly RecordProblem[] {
  return adrift.map((event) => ({
    event: event.id,
    message: adriftText(event.kind === 'corrected', roots.rootOf(event).kind === 'ring'),
  }));
}

function adriftText(corrects: boolean, isRing: boolean): string {
  if (isRing) {
    return corrects
      ? 'It corrects a change that in the end speaks of this one again, so it holds for nothing. Correct or withdraw the note itself.'
      : 'It withdraws a change that in the end speaks of this one again, so it holds for nothing. Correct or withdraw the note itself.';
  }
  return corrects
    ? 'It corrects a note that is not here (yet). It will hold when that note arrives.'
    : 'It withdraws a note that is not here (yet). It will hold when that note arrives.';
}
