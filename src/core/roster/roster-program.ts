import type { Night } from '../domain/night.ts';
import { keptPlacements } from './kept-placements.ts';
import { limitsOf } from './limits.ts';
import { type LinearProgram, ProgramBuilder } from './linear-program.ts';
import { type OpeningColumns, addOpening } from './opening-columns.ts';
import type { Openings } from './openings.ts';
import type { RosterQuestion } from './roster-question.ts';

/**
 * What a program is to make the most of. First as many pins as can be kept together; then, with these,
 * the worth of the plan; then, of plans worth about as much that keep as many posts, the one that
 * changes the fewest people and shares the shifts out most evenly. `unmet` = pins not to be kept.
 */
export type Aim =
  | { readonly of: 'pins' }
  | { readonly of: 'worth'; readonly unmet: ReadonlySet<number> }
  | {
      readonly of: 'people';
      readonly unmet: ReadonlySet<number>;
      readonly leastWorth: number;
      readonly leastPosts: number;
    };

export interface RosterProgram {
  readonly program: LinearProgram;
  /** In the order of the openings. */
  readonly openings: readonly OpeningColumns[];
  /** For each pin the column that is 1 when it is not kept; null when there is nothing here to pin. */
  readonly broken: readonly (number | null)[];
  /** For each sitter the columns of the first, second .. shift; empty unless people are the aim. */
  readonly shifts: readonly (readonly number[])[];
}

/** What a further shift counts against a change, for each shift somebody has had already (guess). */
const unevenness = 0.01;

/**
 * The program whose best solution is the best plan. People are not placed one by one: at the posts of
 * one zone in one watch, those of the same experience and hours are interchangeable, so the program
 * chooses which posts are kept from when to when, and which people sit in that zone; who goes to which
 * of its posts follows (`read-solution.ts`). Only those pinned to a post, or to be kept where they
 * were, are placed by name. This is exact, and far smaller than a choice for every person and post.
 */
export function rosterProgram(question: RosterQuestion, found: Openings, aim: Aim): RosterProgram {
  const builder = new ProgramBuilder();
  const stays = aim.of === 'people' ? keptPlacements(question, found) : [];
  const openings = found.openings.map((opening, index) => {
    const names = [...found.pins, ...stays].flatMap(({ opening: at, post, sitter }) =>
      at === index && post !== null && sitter !== null ? [{ post, sitter }] : [],
    );
    return addOpening(builder, question, opening, names);
  });
  const people = question.sitters.map((_, sitter) => nightsOf(sitter, openings));
  addLimits(builder, question, people);
  addMostPosts(builder, question, found, openings);
  const broken = addPins(builder, found, openings, aim);
  const kept = openings.flatMap((columns) => columns.kept);
  let shifts: readonly (readonly number[])[] = [];
  switch (aim.of) {
    case 'pins':
      break;
    case 'worth':
      for (const { column, gain } of kept) builder.addGain(column, gain);
      break;
    case 'people': {
      const worth = kept.map(({ column, gain }) => [column, gain] as const);
      builder.row('worth', worth, '>=', aim.leastWorth);
      builder.row(
        'posts',
        kept.map(({ column }) => [column, 1] as const),
        '>=',
        aim.leastPosts,
      );
      addStaying(builder, question, found, openings, people);
      shifts = addEvenness(builder, question, people);
      break;
    }
  }
  return { program: builder.build(), openings, broken, shifts };
}

/** The columns by which one person sits on each night. */
type PersonNights = ReadonlyMap<Night, readonly number[]>;

function nightsOf(sitter: number, openings: readonly OpeningColumns[]): PersonNights {
  const nights = new Map<Night, number[]>();
  for (const { opening, sits } of openings) {
    opening.hands.forEach((hand, index) => {
      const column = sits[index];
      if (hand.sitter !== sitter || column === undefined) return;
      const { night } = opening.shift.outlook;
      const known = nights.get(night);
      if (known === undefined) nights.set(night, [column]);
      else known.push(column);
    });
  }
  return nights;
}

function addLimits(
  builder: ProgramBuilder,
  question: RosterQuestion,
  people: readonly PersonNights[],
): void {
  const nights = question.nights.map(({ night }) => night);
  question.sitters.forEach((sitter, index) => {
    const pinned = pinnedNights(question, sitter.name);
    for (const { nights: within, most, because } of limitsOf(sitter, nights, pinned)) {
      const columns = within.flatMap((night) => people[index]?.get(night) ?? []);
      if (columns.length > most) {
        builder.row(
          because,
          columns.map((column) => [column, 1] as const),
          '<=',
          most,
        );
      }
    }
  });
}

/** The nights on which somebody is placed by hand. */
export function pinnedNights({ pins }: RosterQuestion, name: string): ReadonlySet<Night> {
  return new Set(pins.filter(({ sitter }) => sitter === name).map(({ night }) => night));
}

function addMostPosts(
  builder: ProgramBuilder,
  { rules }: RosterQuestion,
  { shifts }: Openings,
  openings: readonly OpeningColumns[],
): void {
  if (rules.mostPosts === null) return;
  for (const shift of shifts) {
    const kept = openings
      .filter(({ opening }) => opening.shift === shift)
      .flatMap((columns) => columns.kept);
    builder.row(
      'most',
      kept.map(({ column }) => [column, 1] as const),
      '<=',
      rules.mostPosts,
    );
  }
}

function addPins(
  builder: ProgramBuilder,
  { pins }: Openings,
  openings: readonly OpeningColumns[],
  aim: Aim,
): (number | null)[] {
  return pins.map(({ pin, opening, post, sitter }, index) => {
    const columns = opening === null ? undefined : openings[opening];
    if (columns === undefined || post === null || (pin.sitter !== null && sitter === null)) {
      return null;
    }
    const { named, kept, opening: where } = columns;
    const ways =
      pin.sitter === null
        ? kept.filter((choice) => where.posts[choice.post] === post)
        : named.filter(
            (choice) =>
              where.hands[choice.hand]?.sitter === sitter && where.posts[choice.kept.post] === post,
          );
    const broken = builder.choice('u', aim.of === 'pins' ? -1 : 0);
    if (aim.of !== 'pins') builder.fix(broken, aim.unmet.has(index) ? 1 : 0);
    const terms = ways.map(({ column }) => [column, 1] as const);
    builder.row('pin', [...terms, [broken, 1]], '=', 1);
    return broken;
  });
}

/** Whoever is not where the plan before had them counts as one change, whoever joins a night as another. */
function addStaying(
  builder: ProgramBuilder,
  question: RosterQuestion,
  found: Openings,
  openings: readonly OpeningColumns[],
  people: readonly PersonNights[],
): void {
  const { before, sitters } = question;
  for (const { opening, post, sitter } of keptPlacements(question, found)) {
    const columns = openings[opening];
    for (const { column, hand, kept } of columns?.named ?? []) {
      const isSame = columns?.opening.hands[hand]?.sitter === sitter;
      if (isSame && columns.opening.posts[kept.post] === post) builder.addGain(column, 1);
    }
  }
  const planned = new Set(before.map(({ night }) => night));
  const sat = new Set(before.map(({ night, sitter }) => `${night} ${sitter}`));
  people.forEach((nights, index) => {
    for (const [night, columns] of nights) {
      if (!planned.has(night) || sat.has(`${night} ${sitters[index]?.name ?? ''}`)) continue;
      for (const column of columns) builder.addGain(column, -1);
    }
  });
}

/** Each further shift of a person costs more, counting those of the season so far. */
function addEvenness(
  builder: ProgramBuilder,
  { sitters }: RosterQuestion,
  people: readonly PersonNights[],
): (readonly number[])[] {
  const fewest = Math.min(...sitters.map(({ sat }) => sat.length));
  return people.map((nights, index) => {
    const had = (sitters[index]?.sat.length ?? 0) - fewest;
    const shifts = [...nights.keys()].map((_, more) =>
      builder.choice('t', -unevenness * (had + more + 1)),
    );
    const sits = [...nights.values()].flat().map((column) => [column, 1] as const);
    builder.row('shifts', [...sits, ...shifts.map((column) => [column, -1] as const)], '<=', 0);
    return shifts;
  });
}
