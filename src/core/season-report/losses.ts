import { Mishap } from '../domain/visit.ts';
import type { NestOutcome, Outcome } from './nest-outcome.ts';

/** What became of the nests that one cause struck. A nest struck by two stands under both. */
export interface Loss {
  /** Null = nothing was noted that would explain it. */
  readonly cause: Mishap | null;
  readonly struck: number;
  /** Taken by the sea, or no shell found in it. */
  readonly lost: number;
  readonly cameUp: number;
  /** Neither: still waiting, or inventoried without a count of shells. */
  readonly open: number;
}

/** Losses by cause, in the order in which causes are noted; causes that struck nobody are left out. */
export function lossesOf(outcomes: readonly NestOutcome[]): readonly Loss[] {
  const struckBy = Mishap.options.map((cause) => ({
    cause,
    of: outcomes.filter(({ nest }) => nest.visits.some(({ mishap }) => mishap === cause)),
  }));
  const unexplained = outcomes.filter(
    ({ nest, outcome }) =>
      endOf(outcome) === 'lost' && nest.visits.every(({ mishap }) => mishap === null),
  );
  return [...struckBy, { cause: null, of: unexplained }].flatMap(({ cause, of }) => {
    const count = (end: End): number => of.filter(({ outcome }) => endOf(outcome) === end).length;
    const [lost, cameUp, open] = [count('lost'), count('came up'), count('open')];
    return of.length === 0 ? [] : [{ cause, struck: of.length, lost, cameUp, open }];
  });
}

type End = 'lost' | 'came up' | 'open';

function endOf({ kind }: Outcome): End {
  switch (kind) {
    case 'met':
    case 'missed':
    case 'unseen':
      return 'came up';
    case 'lost':
    case 'never':
      return 'lost';
    case 'not told':
    case 'waiting':
      return 'open';
  }
}
