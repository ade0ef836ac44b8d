import { gainOf, timeAtPost, together } from './gain.ts';
import type { Hand, Opening } from './openings.ts';
import type { PlannedPost } from './plan.ts';
import type { Post, RosterQuestion } from './roster-question.ts';

/** A post kept by some people for as long as all of them are there; null when that is too short. */
export function plannedPost(
  { sitters, rules }: RosterQuestion,
  { shift }: Pick<Opening, 'shift'>,
  post: Post,
  crew: readonly Hand[],
): PlannedPost | null {
  const time = timeAtPost(shift, post, together(crew.map(({ duty }) => duty)));
  if (time === null) return null;
  return {
    night: shift.outlook.night,
    watch: shift.watch,
    post,
    ...time,
    sitters: crew.map(({ sitter }) => sitters[sitter]?.name ?? '').sort(),
    value: gainOf(shift, post, time, rules.goal),
  };
}

/** In order of time, then along the shore as the posts are. */
export function inOrder(question: RosterQuestion, posts: readonly PlannedPost[]): PlannedPost[] {
  const place = new Map(question.posts.map((post, index) => [post.id, index]));
  return [...posts].sort(
    (a, b) =>
      a.night - b.night ||
      question.rules.watches.indexOf(a.watch) - question.rules.watches.indexOf(b.watch) ||
      (place.get(a.post.id) ?? 0) - (place.get(b.post.id) ?? 0),
  );
}
