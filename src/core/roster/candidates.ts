import type { Night } from '../domain/night.ts';
import type { WatchName } from '../domain/roster.ts';
import { limitsOf } from './limits.ts';
import type { Plan } from './plan.ts';
import type { Post, RosterQuestion, Sitter } from './roster-question.ts';

/** Somebody who might sit at a post in one watch, and what speaks for or against it. */
export interface Candidate {
  readonly name: string;
  readonly experienced: boolean;
  /** Shifts of the season so far and of the plan. */
  readonly shifts: number;
  readonly standing:
    'here' | 'free' | 'elsewhere' | 'had a night' | 'no shift left' | 'other zone' | 'not offered';
  /** The post where the person sits on that night, if elsewhere. */
  readonly at: string | null;
}

const order: readonly Candidate['standing'][] = [
  'here',
  'free',
  'elsewhere',
  'had a night',
  'no shift left',
  'other zone',
  'not offered',
];

/** Everybody, for one post of one watch: those who sit there first, then those who could, those with fewest shifts first. */
export function candidatesFor(
  question: RosterQuestion,
  plan: Plan,
  night: Night,
  watch: WatchName,
  post: Post,
): readonly Candidate[] {
  const nights = question.nights.map((outlook) => outlook.night);
  return question.sitters
    .map((sitter): Candidate => {
      const mine = plan.posts.filter(({ sitters }) => sitters.includes(sitter.name));
      const tonight = mine.find((entry) => entry.night === night);
      const isHere = tonight?.post.id === post.id && tonight.watch === watch;
      const others = mine.filter((entry) => entry.night !== night).map((entry) => entry.night);
      return {
        name: sitter.name,
        experienced: sitter.experienced,
        shifts: sitter.sat.length + mine.length,
        standing: isHere
          ? 'here'
          : standingOf(sitter, nights, night, others, post, tonight !== undefined),
        at: isHere ? null : (tonight?.post.id ?? null),
      };
    })
    .sort(
      (a, b) =>
        order.indexOf(a.standing) - order.indexOf(b.standing) ||
        a.shifts - b.shifts ||
        (a.name < b.name ? -1 : 1),
    );
}

function standingOf(
  sitter: Sitter,
  nights: readonly Night[],
  night: Night,
  others: readonly Night[],
  { zone }: Post,
  sitsElsewhere: boolean,
): Candidate['standing'] {
  if ((sitter.free.get(night) ?? []).length === 0) return 'not offered';
  if (zone !== null && sitter.zones.length > 0 && !sitter.zones.includes(zone)) return 'other zone';
  if (sitsElsewhere) return 'elsewhere';
  const reached = limitsOf(sitter, nights, new Set()).find(
    ({ nights: within, most, because }) =>
      because !== 'night' &&
      within.includes(night) &&
      others.filter((one) => within.includes(one)).length >= most,
  );
  if (reached === undefined) return 'free';
  return reached.because === 'rest' ? 'had a night' : 'no shift left';
}
