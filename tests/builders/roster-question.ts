import { NestId } from '../../src/core/domain/nest.ts';
import { type Night, addNights, parseNight } from '../../src/core/domain/night.ts';
import type { Watch } from '../../src/core/domain/visit.ts';
import { type Random, randomStream } from '../../src/core/numerics/random.ts';
import type {
  NightOutlook,
  Pin,
  Post,
  RosterQuestion,
  Sitter,
} from '../../src/core/roster/roster-question.ts';
import { type RosterRules, rulesOf } from '../../src/core/roster/roster-rules.ts';

export const firstNight = parseNight('2026-07-03')!;
const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;

/** An hour of a night in UTC, such as 21.5; 25 is one in the morning. */
export function hour(night: Night, hours: number): number {
  return night * DAY_MS + hours * HOUR_MS;
}

/** Boils begin evenly between 20:00 and 02:00. */
export function outlook(ahead: number, chances: Readonly<Record<string, number>>): NightOutlook {
  const night = addNights(firstNight, ahead);
  const from_ms = hour(night, 20);
  return {
    night,
    sunset_ms: from_ms,
    sunrise_ms: hour(night, 30),
    begunBy: (at_ms) => Math.min(1, Math.max(0, (at_ms - from_ms) / (6 * HOUR_MS))),
    chances: Object.entries(chances).map(([nest, p]) => ({
      nest: NestId.parse(nest),
      p,
      atStake: 10,
    })),
  };
}

export function post(nest: string, zone: string | null = null, walk_min = 0): Post {
  return { id: nest, nests: [NestId.parse(nest)], zone, walk_min };
}

/** Free from and to certain hours on some nights ahead; no hours = all night. */
export function sitter(
  name: string,
  nights: readonly number[],
  rest: Partial<Sitter> & { readonly hours?: readonly [number, number] } = {},
): Sitter {
  const { hours, ...given } = rest;
  const free = new Map<Night, readonly Watch[]>(
    nights.map((ahead) => {
      const night = addNights(firstNight, ahead);
      const window =
        hours === undefined
          ? { from_ms: -Infinity, to_ms: Infinity }
          : { from_ms: hour(night, hours[0]), to_ms: hour(night, hours[1]) };
      return [night, [window]];
    }),
  );
  return {
    name,
    experienced: true,
    zones: [],
    mostShiftsWeek: null,
    backToBack: true,
    free,
    sat: [],
    ...given,
  };
}

export function pin(ahead: number, nest: string, name: string | null): Pin {
  return {
    night: addNights(firstNight, ahead),
    watch: 'evening',
    nest: NestId.parse(nest),
    sitter: name,
  };
}

export function question(
  given: Partial<Omit<RosterQuestion, 'rules'>> & { readonly rules?: Partial<RosterRules> },
): RosterQuestion {
  const { rules, ...rest } = given;
  return {
    rules: { ...rulesOf({}), ...rules },
    zone: 'UTC',
    nights: [],
    posts: [],
    sitters: [],
    pins: [],
    before: [],
    ...rest,
  };
}

export interface DrawOptions {
  readonly seed: number;
  readonly people: number;
  readonly posts: number;
  readonly nights: number;
  readonly zones: number;
  /** Share of nights that people offer. */
  readonly offered: number;
  readonly pins?: number;
}

/** A question drawn by a seed: people of all kinds, some with hours of their own, some with zones. */
export function drawQuestion(options: DrawOptions): RosterQuestion {
  const random = randomStream(options.seed, 'roster');
  const zones = Array.from({ length: options.zones }, (_, index) => `Z${index}`);
  const posts = Array.from({ length: options.posts }, (_, index) =>
    post(`N${index}`, random.choice(zones), random.choice([0, 0, 5, 10])),
  );
  const nights = Array.from({ length: options.nights }, (_, ahead) =>
    outlook(ahead, Object.fromEntries(posts.map(({ id }) => [id, drawChance(random)]))),
  );
  const sitters = Array.from({ length: options.people }, (_, index) => {
    const offered = nights.flatMap((_, ahead) => (random.chance(options.offered) ? [ahead] : []));
    const hours = random.chance(0.5)
      ? ([random.choice([19, 20, 21, 22]), random.choice([23, 24, 25, 26])] as const)
      : null;
    return sitter(`S${String(index).padStart(3, '0')}`, offered, {
      experienced: random.chance(0.5),
      zones: random.chance(0.6) ? [] : [random.choice(zones)],
      mostShiftsWeek: random.chance(0.3) ? null : 1 + random.below(4),
      backToBack: random.chance(0.5),
      sat: Array.from({ length: random.below(3) }, (_, back) =>
        addNights(firstNight, -1 - 2 * back),
      ),
      ...(hours === null ? {} : { hours }),
    });
  });
  const pins = Array.from({ length: options.pins ?? 0 }, () =>
    pin(
      random.below(options.nights),
      random.choice(posts).id,
      random.chance(0.3) ? null : random.choice(sitters).name,
    ),
  );
  return question({ nights, posts, sitters, pins });
}

function drawChance(random: Random): number {
  return random.chance(0.2) ? 0 : Math.round(random.uniform() ** 2 * 600) / 1000;
}
