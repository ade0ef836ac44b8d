import { alongShore_m } from '../domain/along-shore.ts';
import type { Nest, NestId } from '../domain/nest.ts';
import { parseNight } from '../domain/night.ts';
import type { SeasonRecord } from '../log/season-record.ts';
import { postsOf } from './posts.ts';
import type { NightOutlook, Pin, Placement, RosterQuestion } from './roster-question.ts';
import { rulesOf } from './roster-rules.ts';
import { sittersOf } from './sitters.ts';

/**
 * The question that a record and the outlook of some nights put: its rules, people and pins, and the
 * posts of the nests that may still come up. `before` = the plan to stay close to.
 */
export function askRoster(
  record: SeasonRecord,
  nights: readonly NightOutlook[],
  before: readonly Placement[] = [],
): RosterQuestion {
  const rules = rulesOf(record.programme);
  const waiting = new Set(nights[0]?.chances.map(({ nest }) => nest));
  const nests = [...record.nests.values()].flatMap(({ nest }) =>
    waiting.has(nest.id) ? [nest] : [],
  );
  const sights = record.sights.map(({ fact }) => fact.details);
  return {
    rules,
    zone: record.zone,
    nights,
    posts: postsOf(nests, placesOf(nests), rules.post_m, sights, record.programme.zones),
    sitters: sittersOf(
      record,
      nights.map(({ night }) => night),
    ),
    pins: pinsOf(record),
    before,
  };
}

/** Metres along the shore by nest, zone by zone. */
function placesOf(nests: readonly Nest[]): ReadonlyMap<NestId, number> {
  const zones = new Set(nests.map(({ zone }) => zone));
  return new Map(
    [...zones].flatMap((zone) => [...alongShore_m(nests.filter((nest) => nest.zone === zone))]),
  );
}

function pinsOf({ pins }: SeasonRecord): Pin[] {
  return pins.flatMap(({ fact }): Pin[] => {
    const { night: text, watch, at_nest, volunteer } = fact.details;
    const night = parseNight(text);
    return night === null ? [] : [{ night, watch, nest: at_nest, sitter: volunteer ?? null }];
  });
}

/** The plans given out for some nights, person by person. */
export function publishedPlacements(
  { published }: SeasonRecord,
  nights: readonly NightOutlook[],
): readonly Placement[] {
  return published.flatMap(({ fact }) => {
    const night = nights.find((entry) => entry.night === parseNight(fact.details.night))?.night;
    return night === undefined
      ? []
      : fact.details.posts.flatMap(({ watch, nests, sitters }) =>
          sitters.map((sitter): Placement => ({ night, watch, nests, sitter })),
        );
  });
}
