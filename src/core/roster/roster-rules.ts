import type { Programme } from '../domain/programme.ts';
import type { RosterGoal, WatchName } from '../domain/roster.ts';

/** How sitters are placed. */
export interface RosterRules {
  readonly goal: RosterGoal;
  /** People at one post. */
  readonly crew: number;
  /** How many of them must be trained or lead. */
  readonly experienced: number;
  /** Nests no farther apart along the shore than this are one post, metres. */
  readonly post_m: number;
  readonly watches: readonly WatchName[];
  /** When the evening watch ends, minutes after the midnight with which the date of the night begins. */
  readonly eveningEnds_min: number;
  /** Posts kept at once in one watch at most; null = as many as there are people for. */
  readonly mostPosts: number | null;
}

/** What holds until a programme says otherwise (common practice, no source). */
const defaults: RosterRules = {
  goal: 'boils',
  crew: 2,
  experienced: 1,
  post_m: 40,
  watches: ['evening'],
  eveningEnds_min: 25 * 60,
  mostPosts: null,
};

/** Chance of a boil within a watch from which it is worth keeping (guess). */
export const leastChance = 0.01;
/** Shorter than this nobody is sent out, minutes (guess). */
export const leastWatch_min = 60;
/** Walking along soft sand in the dark, metres a minute (guess). */
export const walking_m_per_min = 50;

/** The rules of a programme. No more experienced people are asked for than sit at a post. */
export function rulesOf({ roster = {} }: Programme): RosterRules {
  const { goal, crew, post_m, watches, evening_ends, most_posts } = roster;
  const people = crew ?? defaults.crew;
  return {
    goal: goal ?? defaults.goal,
    crew: people,
    experienced: Math.min(people, roster.experienced ?? defaults.experienced),
    post_m: post_m ?? defaults.post_m,
    watches: watches === undefined || watches.length === 0 ? defaults.watches : watches,
    eveningEnds_min:
      evening_ends === undefined ? defaults.eveningEnds_min : nightMinute(evening_ends),
    mostPosts: most_posts ?? defaults.mostPosts,
  };
}

/**
 * Minutes of a time of day such as `01:30`, counted from the midnight with which the date of the night
 * begins: before noon it is of the next morning.
 */
export function nightMinute(clock: string): number {
  const [hour = 0, minute = 0] = clock.split(':').map(Number);
  return (hour < 12 ? hour + 24 : hour) * 60 + minute;
}
