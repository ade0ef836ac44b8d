import type { Nest, NestId } from '../domain/nest.ts';
import type { Zone } from '../domain/programme.ts';
import type { Post } from './roster-question.ts';
import { walking_m_per_min } from './roster-rules.ts';

/** The lead's call on two nests, whatever the distance. */
export interface Sight {
  readonly nests: readonly [NestId, NestId];
  readonly together: boolean;
}

/** Nests held together by hand, and the stretch of shore they take up. */
interface Knot {
  readonly nests: readonly Nest[];
  readonly zone: string | null;
  /** Null while no nest of it has a place along the shore. */
  readonly span_m: readonly [number, number] | null;
}

/**
 * Posts out of nests: from one end of a zone to the other, each nest joins the post before it while
 * the whole post stays within `post_m` along the shore. The lead's calls come first: two nests joined
 * by hand are one post however far apart, two parted by hand never are. A nest whose place is not
 * known is a post of its own. `along_m` = metres along the shore from the zone's origin.
 */
export function postsOf(
  nests: readonly Nest[],
  along_m: ReadonlyMap<NestId, number>,
  post_m: number,
  sights: readonly Sight[] = [],
  zones: readonly Zone[] = [],
): readonly Post[] {
  const parted = new Set(sights.filter(({ together }) => !together).map(pairKey));
  const isParted = (a: Knot, b: Knot): boolean =>
    a.nests.some((one) =>
      b.nests.some((other) => parted.has(pairKey({ nests: [one.id, other.id] }))),
    );
  const posts: Knot[] = [];
  for (const knot of knotsOf(nests, along_m, sights).sort(alongTheShore)) {
    const last = posts.at(-1);
    const joined = last === undefined || isParted(last, knot) ? null : within(last, knot, post_m);
    if (joined === null) posts.push(knot);
    else posts[posts.length - 1] = joined;
  }
  return posts.map((knot) => postOf(knot, along_m, zones));
}

/** Nests joined by hand, directly or through others, taken together. */
function knotsOf(
  nests: readonly Nest[],
  along_m: ReadonlyMap<NestId, number>,
  sights: readonly Sight[],
): Knot[] {
  const groups = new Map(nests.map((nest) => [nest.id, [nest]]));
  for (const { nests: pair, together } of sights) {
    const [one, other] = [groups.get(pair[0]), groups.get(pair[1])];
    if (!together || one === undefined || other === undefined || one === other) continue;
    if (one[0]?.zone !== other[0]?.zone) continue;
    one.push(...other);
    for (const { id } of other) groups.set(id, one);
  }
  return [...new Set(groups.values())].map((group) => {
    const places = group.flatMap(({ id }) => along_m.get(id) ?? []);
    const span_m =
      places.length === 0 ? null : ([Math.min(...places), Math.max(...places)] as const);
    return { nests: group, zone: group[0]?.zone ?? null, span_m };
  });
}

/** The two as one post, when they are near enough in one zone; null when not. */
function within(a: Knot, b: Knot, post_m: number): Knot | null {
  if (a.zone !== b.zone || a.span_m === null || b.span_m === null) return null;
  const span_m = [Math.min(a.span_m[0], b.span_m[0]), Math.max(a.span_m[1], b.span_m[1])] as const;
  if (span_m[1] - span_m[0] > post_m) return null;
  return { nests: [...a.nests, ...b.nests], zone: a.zone, span_m };
}

function postOf(
  { nests, zone, span_m }: Knot,
  along_m: ReadonlyMap<NestId, number>,
  zones: readonly Zone[],
): Post {
  const place = (nest: Nest): number => along_m.get(nest.id) ?? 0;
  const ids = [...nests]
    .sort((a, b) => place(a) - place(b) || (a.id < b.id ? -1 : 1))
    .map(({ id }) => id);
  const accesses = zones.find((entry) => entry.zone === zone)?.access_m ?? [];
  const middle_m = span_m === null ? null : (span_m[0] + span_m[1]) / 2;
  const walk_m =
    middle_m === null || accesses.length === 0
      ? 0
      : Math.min(...accesses.map((access_m) => Math.abs(access_m - middle_m)));
  return { id: ids.join('+'), nests: ids, zone, walk_min: Math.round(walk_m / walking_m_per_min) };
}

function alongTheShore(a: Knot, b: Knot): number {
  const [zoneA, zoneB] = [a.zone ?? '', b.zone ?? ''];
  if (zoneA !== zoneB) return zoneA < zoneB ? -1 : 1;
  const [fromA, fromB] = [a.span_m?.[0] ?? Infinity, b.span_m?.[0] ?? Infinity];
  if (fromA !== fromB) return fromA - fromB;
  return (a.nests[0]?.id ?? '') < (b.nests[0]?.id ?? '') ? -1 : 1;
}

function pairKey({ nests }: Pick<Sight, 'nests'>): string {
  return JSON.stringify([...nests].sort());
}
