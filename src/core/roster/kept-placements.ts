import type { Openings } from './openings.ts';
import type { Post, RosterQuestion } from './roster-question.ts';

/** Somebody's place in the plan before, found again among what a plan can now be made of. */
export interface KeptPlacement {
  readonly opening: number;
  readonly post: Post;
  readonly sitter: number;
}

/** Where the people of the plan before could stay; posts are known again by their nests. */
export function keptPlacements(
  { before, sitters }: RosterQuestion,
  { openings }: Openings,
): readonly KeptPlacement[] {
  return before.flatMap(({ night, watch, nests, sitter }): KeptPlacement[] => {
    const person = sitters.findIndex(({ name }) => name === sitter);
    const index = openings.findIndex(
      ({ shift, posts }) =>
        shift.outlook.night === night &&
        shift.watch === watch &&
        posts.some((post) => post.nests.some((nest) => nests.includes(nest))),
    );
    const post = openings[index]?.posts.find((entry) =>
      entry.nests.some((nest) => nests.includes(nest)),
    );
    return post === undefined || person < 0 ? [] : [{ opening: index, post, sitter: person }];
  });
}
