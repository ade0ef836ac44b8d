import type { Denominator, InventoryDetails } from '../domain/inventory.ts';

/** The categories of what a permit holder counts in a nest. */
export const categories = [
  'shells',
  'unhatched',
  'pipped_live',
  'pipped_dead',
  'live_in_nest',
  'dead_in_nest',
  'depredated',
] as const;
export type Category = (typeof categories)[number];

/** Those that stand for one egg each; hatchlings in the nest come out of shells that are counted. */
const eggs = ['shells', 'unhatched', 'pipped_live', 'pipped_dead', 'depredated'] as const;

/** A count that does not fit the others, in words for whoever counted. */
export interface CountProblem {
  readonly category: Category | 'clutch';
  readonly message: string;
}

/** What an inventory comes to; null is "not to be said", and `problems` or `unsaid` say why. */
export interface Success {
  /** What success is reckoned from. */
  readonly denominator: Denominator;
  /** Eggs by that denominator; null when it is not known. */
  readonly clutch: number | null;
  /** Eggs accounted for by what was found in the nest. */
  readonly contents: number | null;
  /** Eggs at laying that were not found again; negative = more were found than were laid. */
  readonly missing: number | null;
  /** Shares of the eggs, 0..1. */
  readonly hatch: number | null;
  readonly emergence: number | null;
  /** Categories left blank and taken as none. */
  readonly takenAsNone: readonly Category[];
  readonly problems: readonly CountProblem[];
}

/**
 * Hatching success = S / eggs; emergence success = (S - (L + D)) / eggs, with S shells, L and D live
 * and dead hatchlings still in the nest. Eggs are those counted at laying, or the contents
 * S + UH + pipped + depredated. Sources: Miller 1999 in IUCN/SSC MTSG Publication 4 (from memory),
 * Brost et al. 2015 Endang Species Res 27:53-68.
 *
 * `eggsLaid` is the nest's clutch where the inventory does not carry its own. Which denominator: the one
 * the inventory names; else eggs at laying when the inventory itself gives them; else the contents. A
 * category that was left blank counts as none, except the shells.
 */
export function successOf(details: InventoryDetails, eggsLaid: number | null = null): Success {
  const laid = details.clutch ?? eggsLaid;
  const denominator =
    details.denominator ?? (typeof details.clutch === 'number' ? 'laid' : 'contents');
  const { shells } = details;
  const contents = contentsOf(details);
  const clutch = denominator === 'laid' ? laid : contents;
  const left = (details.live_in_nest ?? 0) + (details.dead_in_nest ?? 0);
  return {
    denominator,
    clutch,
    contents,
    missing: laid === null || contents === null ? null : laid - contents,
    hatch: share(shells ?? null, clutch),
    emergence: share(typeof shells === 'number' ? shells - left : null, clutch),
    takenAsNone: categories.filter(
      (category) => category !== 'shells' && typeof details[category] !== 'number',
    ),
    problems: problemsOf(details, left, contents, denominator, laid),
  };
}

/** Eggs that the contents stand for; null while neither shells nor unhatched eggs were counted. */
function contentsOf(details: InventoryDetails): number | null {
  if (typeof details.shells !== 'number') return null;
  return eggs.reduce((sum, category) => sum + (details[category] ?? 0), 0);
}

/** A share that can be one: null where it would be less than nothing, more than all, or of no eggs. */
function share(part: number | null, of: number | null): number | null {
  if (part === null || of === null || of === 0) return null;
  const value = part / of;
  return value < 0 || value > 1 ? null : value;
}

function problemsOf(
  { shells }: InventoryDetails,
  left: number,
  contents: number | null,
  denominator: Denominator,
  laid: number | null,
): readonly CountProblem[] {
  const problems: CountProblem[] = [];
  if (typeof shells !== 'number') {
    const message = 'The shells were not counted, so no success can be given. 0 means none found.';
    return [{ category: 'shells', message }];
  }
  if (left > shells) {
    const message = `${left} hatchlings were in the nest but only ${shells} shells: each came out of one. Count the shells again, or the hatchlings.`;
    problems.push({ category: 'live_in_nest', message });
  }
  if (contents === 0) {
    const message = 'Nothing was found in the nest: of no eggs there is no success.';
    problems.push({ category: 'shells', message });
  }
  if (denominator === 'laid' && laid === null) {
    const message =
      'The eggs at laying are not known. Give their number, or reckon from the contents.';
    problems.push({ category: 'clutch', message });
  }
  if (laid !== null && contents !== null && contents > laid) {
    const message = `The contents come to ${contents} eggs, more than the ${laid} at laying. Fragments may have been counted twice; check both numbers.`;
    problems.push({ category: 'clutch', message });
  }
  return problems;
}
