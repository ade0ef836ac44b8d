import { parseInstant } from '../domain/instant.ts';
import { parseNight } from '../domain/night.ts';
import type { SeasonRecord } from '../log/season-record.ts';
import { inOrder } from './crew.ts';
import { type Plan, type PlannedPost, planOf } from './plan.ts';
import type { RosterQuestion } from './roster-question.ts';

/** What was given out for the nights of a question, as a plan; with the posts as they were then. */
export function publishedPlan({ published }: SeasonRecord, question: RosterQuestion): Plan {
  const nights = new Set<number>(question.nights.map(({ night }) => night));
  const posts = published.flatMap(({ fact }): PlannedPost[] => {
    const night = parseNight(fact.details.night);
    if (night === null || !nights.has(night)) return [];
    return fact.details.posts.map(({ nests, watch, from, to, sitters, value }) => {
      const id = nests.join('+');
      const known = question.posts.find((post) => post.id === id);
      return {
        night,
        watch,
        post: known ?? { id, nests, zone: null, walk_min: 0 },
        from_ms: parseInstant(from) ?? 0,
        to_ms: parseInstant(to) ?? 0,
        sitters,
        value: value ?? 0,
      };
    });
  });
  return planOf(inOrder(question, posts));
}
