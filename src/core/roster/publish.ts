import { formatInstant } from '../domain/instant.ts';
import { type Night, formatNight } from '../domain/night.ts';
import type { PublishedNight } from '../domain/roster.ts';
import type { Plan } from './plan.ts';

/** A plan night by night as it is given out; nights on which nobody sits are there with no posts. */
export function publishedNights(
  { posts }: Plan,
  nights: readonly Night[],
  zone: string,
): readonly PublishedNight[] {
  return nights.map((night) => ({
    night: formatNight(night),
    posts: posts
      .filter((entry) => entry.night === night)
      .map(({ watch, post, from_ms, to_ms, sitters, value }) => ({
        watch,
        nests: [...post.nests],
        from: formatInstant(wholeMinute(from_ms), zone),
        to: formatInstant(wholeMinute(to_ms), zone),
        sitters: [...sitters],
        value,
      })),
  }));
}

function wholeMinute(at_ms: number): number {
  return Math.round(at_ms / 60_000) * 60_000;
}
