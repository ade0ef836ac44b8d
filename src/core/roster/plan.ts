import type { Night } from '../domain/night.ts';
import type { WatchName } from '../domain/roster.ts';
import type { Placement, Post } from './roster-question.ts';

/** One post kept by its crew in one watch. */
export interface PlannedPost {
  readonly night: Night;
  readonly watch: WatchName;
  readonly post: Post;
  /** While all of the crew are there. */
  readonly from_ms: number;
  readonly to_ms: number;
  /** Names, in order. */
  readonly sitters: readonly string[];
  /** Boils met, or hatchlings kept from going astray, to be expected of it. */
  readonly value: number;
}

/** Who sits where, in order of time, then along the shore. */
export interface Plan {
  readonly posts: readonly PlannedPost[];
  /** Sum over the posts. */
  readonly value: number;
}

/** A wish that could not be met, in words. */
export interface Unmet {
  readonly night: Night;
  readonly watch: WatchName;
  /** The post or nest it speaks of; null when it is the night as a whole. */
  readonly post: string | null;
  readonly text: string;
}

/** A plan and how good it is. */
export interface Roster {
  readonly plan: Plan;
  /** No plan that keeps to the rules and pins can be worth more. */
  readonly bound: number;
  /** By which share of its value the best plan may be better; 0 when there is none better. */
  readonly gap: number;
  readonly unmet: readonly Unmet[];
  /** Pins that were kept although the person had said otherwise, in words. */
  readonly notices: readonly Unmet[];
  /** Why the plan is only one made step by step, in words; null when it was solved for. */
  readonly trouble: string | null;
}

/** A plan out of its posts. */
export function planOf(posts: readonly PlannedPost[]): Plan {
  return { posts, value: posts.reduce((sum, { value }) => sum + value, 0) };
}

/** A plan person by person. */
export function placementsOf({ posts }: Plan): readonly Placement[] {
  return posts.flatMap(({ night, watch, post, sitters }) =>
    sitters.map((sitter) => ({ night, watch, nests: post.nests, sitter })),
  );
}
