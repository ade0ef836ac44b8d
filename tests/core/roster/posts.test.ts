import { describe, expect, test } from 'vitest';
import { type Nest, NestId } from '../../../src/core/domain/nest.ts';
import { type Sight, postsOf } from '../../../src/core/roster/posts.ts';

function nest(id: string, shore_m: number | null, zone: string | null = 'south'): Nest {
  return {
    id: NestId.parse(id),
    species: null,
    layNight: null,
    layNightLatest: null,
    zone,
    latitude_deg: null,
    longitude_deg: null,
    shore_m,
    clutch_eggs: null,
    relocated: null,
    screened: null,
    lightExposure: null,
  };
}

function ids(nests: readonly Nest[], sights: readonly Sight[] = []): string[] {
  const along_m = new Map(
    nests.flatMap(({ id, shore_m }) => (shore_m === null ? [] : [[id, shore_m] as const])),
  );
  return postsOf(nests, along_m, 40, sights).map(({ id }) => id);
}

const sight = (a: string, b: string, together: boolean): Sight => ({
  nests: [NestId.parse(a), NestId.parse(b)],
  together,
});

describe('nests that one pair can watch', () => {
  test('are those within 40 m along the shore, from one end of the post to the other', () => {
    expect(ids([nest('C', 70), nest('A', 0), nest('B', 40), nest('D', 111)])).toEqual([
      'A+B',
      'C',
      'D',
    ]);
    expect(ids([nest('A', 0), nest('B', 30), nest('C', 60)])).toEqual(['A+B', 'C']);
  });

  test('are never of two zones', () => {
    expect(ids([nest('A', 0), nest('B', 10, 'north')])).toEqual(['B', 'A']);
  });

  test('are joined by the lead’s call however far apart, directly and through others', () => {
    const nests = [nest('A', 0), nest('B', 100), nest('C', 300)];
    expect(ids(nests, [sight('A', 'B', true), sight('C', 'B', true)])).toEqual(['A+B+C']);
  });

  test('are parted by the lead’s call however near', () => {
    expect(ids([nest('A', 0), nest('B', 10), nest('C', 20)], [sight('A', 'B', false)])).toEqual([
      'A',
      'B+C',
    ]);
  });

  test('are posts of their own when nobody knows where they lie', () => {
    expect(ids([nest('A', null), nest('B', null), nest('C', 5)])).toEqual(['C', 'A', 'B']);
  });

  test('take as long to walk to as the nearest way on to the beach is far', () => {
    const nests = [nest('A', 500)];
    const zones = [{ zone: 'south', access_m: [0, 900] }];
    const [post] = postsOf(nests, new Map([[nests[0]!.id, 500]]), 40, [], zones);
    expect(post?.walk_min).toBe(8);
  });
});
