import type { Openings } from './openings.ts';
import type { RosterQuestion } from './roster-question.ts';

type Zone = string | null;

/**
 * A question cut into ones that have nothing to do with each other: zones that share people stay
 * together. The best plans of the parts are the best plan of the whole, and their bounds add up.
 */
export function separateParts(
  question: RosterQuestion,
  { openings }: Openings,
): readonly RosterQuestion[] {
  const groups = new Map<Zone, Set<Zone>>();
  const join = (zones: Iterable<Zone>): void => {
    const all = new Set([...zones].flatMap((zone) => [zone, ...(groups.get(zone) ?? [])]));
    for (const zone of all) groups.set(zone, all);
  };
  const zonesOf = new Map<number, Set<Zone>>();
  for (const { posts, hands } of openings) {
    const zone = posts[0]?.zone ?? null;
    join([zone]);
    for (const { sitter } of hands) {
      zonesOf.set(sitter, (zonesOf.get(sitter) ?? new Set()).add(zone));
    }
  }
  // A limit on the posts of a watch is one of all zones together.
  if (question.rules.mostPosts !== null) join(groups.keys());
  for (const zones of zonesOf.values()) join(zones);
  const parts = new Set(groups.values());
  return [...parts].map((zones) => {
    const people = new Set(
      [...zonesOf].flatMap(([sitter, own]) =>
        [...own].some((zone) => zones.has(zone)) ? sitter : [],
      ),
    );
    return partOf(question, zones, (sitter) => people.has(sitter) || !zonesOf.has(sitter));
  });
}

/** One or some zones with their people; whoever can sit nowhere is kept, for the plan before. */
function partOf(
  question: RosterQuestion,
  zones: ReadonlySet<Zone>,
  isOne: (sitter: number) => boolean,
): RosterQuestion {
  const posts = question.posts.filter(({ zone }) => zones.has(zone));
  const isHere = (nests: readonly string[]): boolean =>
    posts.some((post) => post.nests.some((nest) => nests.includes(nest)));
  return {
    ...question,
    posts,
    sitters: question.sitters.filter((_, sitter) => isOne(sitter)),
    pins: question.pins.filter(({ nest }) => isHere([nest])),
    before: question.before.filter(({ nests }) => isHere(nests)),
  };
}
