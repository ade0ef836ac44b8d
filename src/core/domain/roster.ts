import * as z from 'zod/mini';
import { InstantText } from './instant.ts';
import { NestId } from './nest.ts';
import { NightText } from './night.ts';
import { Clock } from './volunteer.ts';

const Name = z.string().check(z.minLength(1));

/** The two watches of a night: from dusk on, and from where that ends to dawn. */
export const WatchName = z.enum(['evening', 'late']);
export type WatchName = z.infer<typeof WatchName>;

/** What is looked for most of: boils met, or hatchlings that would go astray with nobody there. */
export const RosterGoal = z.enum(['boils', 'hatchlings']);
export type RosterGoal = z.infer<typeof RosterGoal>;

/** How a programme places its sitters; what is missing follows from the defaults of `core/roster`. */
export const RosterSettings = z.looseObject({
  goal: z.optional(RosterGoal),
  /** People at one post, and how many of them must be trained or lead. */
  crew: z.optional(z.int().check(z.gte(1), z.lte(6))),
  experienced: z.optional(z.int().check(z.gte(0), z.lte(6))),
  /** Nests no farther apart along the shore than this are one post, metres. */
  post_m: z.optional(z.number().check(z.nonnegative(), z.lte(1000))),
  watches: z.optional(z.array(WatchName)),
  /** When the evening watch ends and the late one begins, on the programme's clocks. */
  evening_ends: z.optional(Clock),
  /** Posts kept at once in one watch at most. */
  most_posts: z.optional(z.nullable(z.int().check(z.positive()))),
});
export type RosterSettings = z.infer<typeof RosterSettings>;

/** One weekday on which somebody can sit as a rule; 1 = Monday .. 7 = Sunday, by the evening's date. */
export const WeekdayFree = z.object({
  weekday: z.int().check(z.gte(1), z.lte(7)),
  from: z.nullish(Clock),
  to: z.nullish(Clock),
});
export type WeekdayFree = z.infer<typeof WeekdayFree>;

/** The weekdays on which somebody can sit as a rule; single nights given otherwise come before it. */
export const WeeklyPatternDetails = z.object({
  days: z.array(WeekdayFree),
  /** First and last night on which the pattern holds; missing = without end. */
  first_night: z.nullish(NightText),
  last_night: z.nullish(NightText),
});
export type WeeklyPatternDetails = z.infer<typeof WeeklyPatternDetails>;

/** The lead's call on two nests: whether one pair can watch both, whatever the distance. */
export const SightDetails = z.object({
  nests: z.tuple([NestId, NestId]),
  together: z.boolean(),
});
export type SightDetails = z.infer<typeof SightDetails>;

/**
 * What the lead has settled by hand for a watch: that somebody sits at the post of a nest or, without
 * a name, that the post is kept whoever sits there.
 */
export const PinDetails = z.object({
  night: NightText,
  watch: WatchName,
  at_nest: NestId,
  volunteer: z.nullish(Name),
});
export type PinDetails = z.infer<typeof PinDetails>;

/** One post of a plan that was given out. */
export const PublishedPost = z.object({
  watch: WatchName,
  nests: z.array(NestId).check(z.minLength(1)),
  from: InstantText,
  to: InstantText,
  sitters: z.array(Name),
  /** What the plan expected of it, in boils met or in hatchlings at stake. */
  value: z.nullish(z.number()),
});
export type PublishedPost = z.infer<typeof PublishedPost>;

/** Who sits where on one night, as it was given out; what was given out last for a night counts. */
export const PublishedNight = z.object({
  night: NightText,
  posts: z.array(PublishedPost),
});
export type PublishedNight = z.infer<typeof PublishedNight>;
