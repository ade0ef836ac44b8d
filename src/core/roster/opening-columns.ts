import type { Watch } from '../domain/visit.ts';
import { gainOf, holds, timeAtPost } from './gain.ts';
import { type HandClass, dutiesFor, handClasses } from './hand-classes.ts';
import type { ProgramBuilder, Row } from './linear-program.ts';
import type { Opening } from './openings.ts';
import type { Post, RosterQuestion } from './roster-question.ts';

/** The choice to keep a post from and to certain times. */
export interface KeptChoice {
  readonly column: number;
  /** Index among the posts of the opening. */
  readonly post: number;
  readonly duty: Watch;
  /** What it is worth. */
  readonly gain: number;
}

/** The choice to have one person, by name, at a post that is kept from and to certain times. */
export interface NamedChoice {
  readonly column: number;
  readonly hand: number;
  readonly kept: KeptChoice;
}

/** How many of a class serve at the posts that are kept from and to certain times. */
export interface Serving {
  readonly column: number;
  readonly handClass: HandClass;
  readonly duty: Watch;
}

/** How many experienced people a post needs beside those who are there by name. */
export interface Wanting {
  readonly column: number;
  readonly kept: KeptChoice;
}

/** Where the columns of one opening are. */
export interface OpeningColumns {
  readonly opening: Opening;
  readonly kept: readonly KeptChoice[];
  /** For each hand, whether the person sits here. */
  readonly sits: readonly number[];
  readonly named: readonly NamedChoice[];
  readonly serving: readonly Serving[];
  readonly wanting: readonly Wanting[];
}

/** Somebody who is to be placed at one post by name. */
export interface Named {
  readonly post: Post;
  readonly sitter: number;
}

type Terms = Row['terms'];
const each = (entries: readonly { readonly column: number }[], factor = 1): Terms =>
  entries.map(({ column }) => [column, factor] as const);

/** Adds what can be chosen in one opening, and what must hold within it. Kept posts gain nothing yet. */
export function addOpening(
  builder: ProgramBuilder,
  question: RosterQuestion,
  opening: Opening,
  names: readonly Named[],
): OpeningColumns {
  const classes = handClasses(question, opening);
  const duties = dutiesFor(classes, question);
  const kept = duties.flatMap((duty) =>
    opening.posts.flatMap((_, post): KeptChoice[] => {
      const gain = worthOf(question, opening, post, duty);
      return gain === null ? [] : [{ column: builder.choice('y'), post, duty, gain }];
    }),
  );
  for (const post of opening.posts.keys()) {
    builder.row('once', each(kept.filter((choice) => choice.post === post)), '<=', 1);
  }
  const sits = opening.hands.map(() => builder.choice('z'));
  const named = addNames(builder, opening, kept, sits, names);
  const serving = addServing(builder, classes, kept, sits, named);
  const wanting = addCrews(builder, question, opening, { kept, named, serving });
  return { opening, kept, sits, named, serving, wanting };
}

/** What a post is worth when its crew is on the beach for a stretch of time; null: nobody is sent for it. */
function worthOf(
  { rules }: RosterQuestion,
  { shift, posts }: Opening,
  post: number,
  duty: Watch,
): number | null {
  const kept = posts[post];
  const time = kept === undefined ? null : timeAtPost(shift, kept, duty);
  return kept === undefined || time === null ? null : gainOf(shift, kept, time, rules.goal);
}

function addNames(
  builder: ProgramBuilder,
  { posts, hands }: Opening,
  kept: readonly KeptChoice[],
  sits: readonly number[],
  names: readonly Named[],
): NamedChoice[] {
  const seen = new Set<string>();
  const named = names.flatMap(({ post, sitter }): NamedChoice[] => {
    const hand = hands.findIndex((entry) => entry.sitter === sitter);
    const duty = hands[hand]?.duty;
    const at = posts.indexOf(post);
    if (duty === undefined || at < 0 || seen.has(`${hand} ${at}`)) return [];
    seen.add(`${hand} ${at}`);
    return kept
      .filter((choice) => choice.post === at && holds(duty, choice.duty))
      .map((choice) => ({ column: builder.choice('k'), hand, kept: choice }));
  });
  for (const { column, kept: choice } of named) {
    builder.row('there', [...each([{ column }]), ...each([choice], -1)], '<=', 0);
  }
  for (const hand of new Set(named.map((choice) => choice.hand))) {
    const places = named.filter((choice) => choice.hand === hand);
    builder.row('sits', [...each(places), [sits[hand] ?? 0, -1]], '<=', 0);
  }
  return named;
}

/** People serve where they sit: no more of a class than sit in the opening, less those there by name. */
function addServing(
  builder: ProgramBuilder,
  classes: readonly HandClass[],
  kept: readonly KeptChoice[],
  sits: readonly number[],
  named: readonly NamedChoice[],
): Serving[] {
  const duties = [...new Set(kept.map(({ duty }) => duty))];
  return classes.flatMap((handClass) => {
    const serving = duties
      .filter((duty) => holds(handClass.duty, duty))
      .map((duty) => ({ column: builder.count('f'), handClass, duty }));
    const byName = named.filter(({ hand }) => handClass.hands.includes(hand));
    const here = handClass.hands.map((hand) => [sits[hand] ?? 0, -1] as const);
    builder.row('class', [...each(serving), ...each(byName), ...here], '<=', 0);
    return serving;
  });
}

/** Every kept post has its crew for as long as it is kept, with as many experienced as are asked for. */
function addCrews(
  builder: ProgramBuilder,
  question: RosterQuestion,
  opening: Opening,
  { kept, named, serving }: Pick<OpeningColumns, 'kept' | 'named' | 'serving'>,
): Wanting[] {
  const { crew, experienced } = question.rules;
  const isExperienced = ({ hand }: NamedChoice): boolean =>
    question.sitters[opening.hands[hand]?.sitter ?? -1]?.experienced ?? false;
  const wanting: Wanting[] = [];
  for (const duty of new Set(kept.map((choice) => choice.duty))) {
    const posts = kept.filter((choice) => choice.duty === duty);
    const here = serving.filter((entry) => entry.duty === duty);
    const byName = named.filter((entry) => entry.kept.duty === duty);
    builder.row('crew', [...each(here), ...each(byName), ...each(posts, -crew)], '=', 0);
    if (experienced === 0) continue;
    const needs: (readonly [number, number])[] = [];
    for (const choice of posts) {
      const mine = byName.filter((entry) => entry.kept === choice);
      if (mine.length === 0) {
        needs.push([choice.column, -experienced]);
        continue;
      }
      // Experienced people at one post do not help another: what each still needs is its own.
      const column = builder.count('d');
      const skilled = mine.filter(isExperienced);
      builder.row(
        'need',
        [[choice.column, experienced], ...each(skilled, -1), [column, -1]],
        '<=',
        0,
      );
      wanting.push({ column, kept: choice });
      needs.push([column, -1]);
    }
    const skilled = here.filter(({ handClass }) => handClass.experienced);
    builder.row('skilled', [...each(skilled), ...needs], '>=', 0);
  }
  for (const choice of kept) {
    const mine = named.filter((entry) => entry.kept === choice);
    const others = mine.filter((entry) => !isExperienced(entry));
    if (mine.length > crew) builder.row('full', [...each(mine), [choice.column, -crew]], '<=', 0);
    if (others.length > crew - experienced) {
      builder.row('unskilled', [...each(others), [choice.column, experienced - crew]], '<=', 0);
    }
  }
  return wanting;
}
