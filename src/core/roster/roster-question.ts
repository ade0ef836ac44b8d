import type { NestId } from '../domain/nest.ts';
import type { Night } from '../domain/night.ts';
import type { WatchName } from '../domain/roster.ts';
import type { Watch } from '../domain/visit.ts';
import type { RosterRules } from './roster-rules.ts';

/** What a forecast says of one nest on one night. */
export interface NestChance {
  readonly nest: NestId;
  /** Chance that it boils on that night, unconditional: those of several nights may be added up. */
  readonly p: number;
  /** Hatchlings expected to go astray with nobody there, if it boils on that night. */
  readonly atStake: number;
}

/** What is to be expected of one night, from whatever forecast. */
export interface NightOutlook {
  readonly night: Night;
  readonly sunset_ms: number;
  readonly sunrise_ms: number;
  /** Share of boils begun by a moment of the night, 0 at noon to 1 at the next. */
  readonly begunBy: (at_ms: number) => number;
  readonly chances: readonly NestChance[];
}

/** Nests that one crew can watch together. */
export interface Post {
  /** The names of its nests, in order along the shore. */
  readonly id: string;
  readonly nests: readonly NestId[];
  readonly zone: string | null;
  /** From where one comes on to the beach. */
  readonly walk_min: number;
}

/** Somebody who can be placed. */
export interface Sitter {
  readonly name: string;
  /** Trained or lead. */
  readonly experienced: boolean;
  /** Zones the person sits in; empty = any. */
  readonly zones: readonly string[];
  /** Most shifts in any seven nights; null = no limit. */
  readonly mostShiftsWeek: number | null;
  /** Willing to sit two nights in a row. */
  readonly backToBack: boolean;
  /** When the person can be on the beach, by night; infinite ends where nothing was said. */
  readonly free: ReadonlyMap<Night, readonly Watch[]>;
  /** Nights before the plan's first on which the person sat or was to sit. */
  readonly sat: readonly Night[];
}

/** Something settled by hand: a person at a post, or (null) that the post is kept. */
export interface Pin {
  readonly night: Night;
  readonly watch: WatchName;
  readonly nest: NestId;
  readonly sitter: string | null;
}

/** Somebody at a post in one watch. */
export interface Placement {
  readonly night: Night;
  readonly watch: WatchName;
  readonly nests: readonly NestId[];
  readonly sitter: string;
}

/** Everything a plan follows from. */
export interface RosterQuestion {
  readonly rules: RosterRules;
  /** IANA zone of the programme's clocks. */
  readonly zone: string;
  /** Following each other. */
  readonly nights: readonly NightOutlook[];
  readonly posts: readonly Post[];
  readonly sitters: readonly Sitter[];
  readonly pins: readonly Pin[];
  /** The plan to stay close to; empty = none. */
  readonly before: readonly Placement[];
}
