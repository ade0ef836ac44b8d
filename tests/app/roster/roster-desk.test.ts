import { describe, expect, test } from 'vitest';
import type { NightText } from '../../../src/core/domain/night.ts';
import type { RosterDesk } from '../../../src/app/state/roster-desk.svelte.ts';
import { rosterDeskOf } from '../../../src/app/state/roster-desk-of.ts';
import { highsSolver } from '../../../src/edges/solver/highs.ts';
import { nestId, scratchSeason } from '../note/scratch-season.ts';

const night = '2026-08-01' as NightText;

/** Three nests far apart, and people who can sit on the first night. */
async function desk(people: readonly string[]): Promise<{
  made: Awaited<ReturnType<typeof scratchSeason>>;
  desk: RosterDesk;
}> {
  const made = await scratchSeason({ people });
  for (const { fact, original } of made.season.record.volunteers) {
    await made.season.correct(original.id, { experience: 'trained' });
    const { volunteer } = fact;
    await made.season.write({ kind: 'availability-given', volunteer, details: { night } });
  }
  const roster = rosterDeskOf(made.season, highsSolver());
  roster.lookAhead(1);
  return { made, desk: roster };
}

const sits = ({ plan }: RosterDesk): string[] =>
  (plan?.posts ?? []).map(({ post, sitters }) => `${post.id}: ${sitters.join(' ')}`);

describe('the roster of a season', () => {
  test('is planned, given out, and then stands in the record for everybody', async () => {
    const { made, desk: roster } = await desk(['Ada', 'Bo']);
    expect(sits(roster)).toEqual([]);
    await roster.replan();
    expect(sits(roster)).toHaveLength(1);
    expect(roster.changes.map(({ sitter, to }) => [sitter, to])).toEqual([
      ['Ada', roster.plan?.posts[0]?.post.id],
      ['Bo', roster.plan?.posts[0]?.post.id],
    ]);
    expect(await roster.publish()).toBe(true);
    expect(roster.changes).toEqual([]);
    expect(made.season.record.published[0]?.fact.details.posts[0]?.sitters).toEqual(['Ada', 'Bo']);
  });

  test('keeps a person where the lead puts them, and lets go of them again', async () => {
    const { made, desk: roster } = await desk(['Ada', 'Bo', 'Cy']);
    await roster.replan();
    const tonight = roster.question!.nights[0]!.night;
    await roster.pin(tonight, 'evening', nestId('W-007'), 'Cy');
    expect(sits(roster)).toEqual([expect.stringMatching(/^W-007: .*Cy/)]);
    await roster.pin(tonight, 'evening', nestId('W-014'), 'Cy');
    expect(made.season.record.pins).toHaveLength(1);
    expect(sits(roster)).toEqual([expect.stringMatching(/^W-014: .*Cy/)]);
    await roster.unpin(roster.pinsAt(tonight, 'evening', () => true).map(({ id }) => id));
    expect(made.season.record.pins).toEqual([]);
    // Nothing speaks for moving anybody.
    expect(sits(roster)).toEqual([expect.stringMatching(/^W-014: .*Cy/)]);
  });

  test('says that it is no longer up to date when somebody cannot come, and plans around it', async () => {
    const { made, desk: roster } = await desk(['Ada', 'Bo', 'Cy']);
    await roster.replan();
    await roster.publish();
    expect(roster.isStale).toBe(false);
    const gone = roster.plan!.posts[0]!.sitters[0]!;
    const details = { night, available: false };
    await made.season.write({ kind: 'availability-given', volunteer: gone, details });
    expect(roster.isStale).toBe(true);
    await roster.replan();
    expect(roster.isStale).toBe(false);
    expect(sits(roster)).toHaveLength(1);
    expect(sits(roster)[0]).not.toContain(gone);
    expect(roster.changes).toHaveLength(2);
  });

  test('makes one post of two nests by the lead’s call', async () => {
    const { desk: roster } = await desk(['Ada', 'Bo']);
    await roster.judgeSight([nestId('W-001'), nestId('W-007')], true);
    expect(roster.question?.posts.map(({ id }) => id)).toEqual(['W-001+W-007', 'W-014']);
    expect(sits(roster)).toEqual(['W-001+W-007: Ada Bo']);
  });

  test('says so when nothing was saved', async () => {
    const { made, desk: roster } = await desk(['Ada', 'Bo']);
    await roster.replan();
    made.log.isFull = true;
    expect(await roster.publish()).toBe(false);
    expect(roster.trouble).toContain('The device is full.');
  });
});
