import { afterEach, describe, expect, test, vi } from 'vitest';
import { Sharing } from '../../../src/app/state/sharing.svelte.ts';
import type { HubLine, Member, SharingTools } from '../../../src/app/state/sharing-tools.ts';
import { reachInFull, reachInShort } from '../../../src/app/screens/devices/reach-text.ts';
import type { HubProblem } from '../../../src/core/replication/hub.ts';
import { MemoryReplicaShelf } from '../../../src/core/replication/replica-shelf.ts';
import { SimulatedHub } from '../../builders/simulated-hub.ts';
import { nestId, scratchSeason } from '../note/scratch-season.ts';

const member: Member = {
  address: 'https://hub.example/',
  programme: { id: 'p', name: 'Anyshore' },
  person: 'Orla',
  device: 'test-device',
  role: 'sitter',
  teams: [],
};

/** A season that is shared by a hub whose line can be cut. */
async function shared(options: { isMember?: boolean } = {}) {
  const hub = new SimulatedHub();
  const world = {
    weather: 'good' as 'good' | 'lost',
    isSeen: true,
    isMember: options.isMember ?? true,
    problem: null as HubProblem | null,
    back: (): void => undefined,
    gone: (): void => undefined,
    news: (): void => undefined,
    lines: 0,
  };
  const reached = hub.asReachedBy(member, () => world.weather);
  const unasked = () => Promise.reject(new Error('not asked for here'));
  const line: HubLine = {
    send: (batch) =>
      world.problem === null
        ? reached.send(batch)
        : Promise.resolve({ ok: false, problem: world.problem }),
    after: (cursor) =>
      world.problem === null
        ? reached.after(cursor)
        : Promise.resolve({ ok: false, problem: world.problem }),
    changes: (changed, signal) => {
      world.lines += 1;
      world.news = changed;
      return new Promise((ended) => {
        signal.addEventListener('abort', () => {
          world.lines -= 1;
          ended(null);
        });
      });
    },
    devices: unasked,
    revoke: unasked,
    teams: unasked,
    invite: unasked,
  };
  const shelf = new MemoryReplicaShelf();
  const tools: SharingTools = {
    place: () => Promise.resolve(world.isMember ? { member, line, shelf } : null),
    join: (_, person) => {
      world.isMember = true;
      return Promise.resolve({ ok: true, member: { ...member, person } });
    },
    leave: () => {
      world.isMember = false;
      return Promise.resolve();
    },
    alone: (work) => work(),
    onReception: (back, gone) => {
      world.back = back;
      world.gone = gone;
      return () => undefined;
    },
    isSeen: () => world.isSeen,
    now_ms: () => Date.now(),
    luck: () => 0.5,
  };
  const { season, settings } = await scratchSeason({ now: '2026-08-01T21:10-04:00' });
  const sharing = new Sharing(tools, settings);
  const stop = sharing.follow(season);
  return { hub, world, season, settings, sharing, stop, shelf };
}

const toSay = (sharing: Sharing): string => reachInShort(sharing.reach, sharing.waiting);
const upToDate = (sharing: Sharing) =>
  vi.waitFor(() => {
    expect(sharing.reach.state).toBe('up to date');
  });

afterEach(() => {
  vi.useRealTimers();
});

describe('a season that is shared', () => {
  test('goes to the hub when it is opened, and a note soon after it was made', async () => {
    const { hub, season, sharing, stop } = await shared();
    await upToDate(sharing);
    const before = hub.rows.length;
    await season.note(nestId('W-014'), { surface: 'dip' });
    sharing.nudge();
    expect(sharing.waiting).toBe(1);
    await vi.waitFor(() => {
      expect(hub.rows).toHaveLength(before + 1);
      expect(toSay(sharing)).toBe('Up to date');
    });
    stop();
  });

  test('takes in what others noted when the hub tells of news', async () => {
    const { hub, world, season, sharing, stop } = await shared();
    await upToDate(sharing);
    const other = await scratchSeason({ now: '2026-08-01T21:12-04:00' });
    await other.season.note(nestId('W-014'), { sound: 'steady' });
    const read = await other.season.readAll();
    if (!read.ok) throw new Error(read.problem.message);
    for (const logged of read.events) hub.rows.push({ logged, sentBy: 'Ben' });
    world.news();
    await vi.waitFor(() => {
      const visits = season.record.nests.get(nestId('W-014'))?.visits ?? [];
      expect(visits.map(({ sound }) => sound)).toContain('steady');
    });
    stop();
  });

  test('says what waits while there is no reception, and sends it when there is again', async () => {
    const { hub, world, season, sharing, stop } = await shared();
    await upToDate(sharing);
    const before = hub.rows.length;
    world.weather = 'lost';
    await season.note(nestId('W-014'), { surface: 'dip' });
    sharing.nudge();
    await vi.waitFor(() => {
      expect(sharing.reach.state).toBe('waiting');
    });
    expect(toSay(sharing)).toBe('1 waiting');
    expect(reachInFull(sharing.reach, sharing.waiting, 0)).toContain(
      '1 entry of this device waits',
    );
    world.weather = 'good';
    world.back();
    await upToDate(sharing);
    expect(hub.rows).toHaveLength(before + 1);
    expect(sharing.waiting).toBe(0);
    stop();
  });

  test('waits longer after each failure, and asks nothing while nobody sees the page', async () => {
    const { world, sharing, stop } = await shared();
    await upToDate(sharing);
    vi.useFakeTimers();
    world.weather = 'lost';
    const waits: number[] = [];
    for (let failure = 0; failure < 4; failure++) {
      await sharing.exchange();
      const { reach } = sharing;
      if (reach.state !== 'waiting') throw new Error(reach.state);
      waits.push(reach.next_ms - Date.now());
    }
    expect(waits).toEqual([1500, 3000, 6000, 12000]);
    world.isSeen = false;
    world.weather = 'good';
    await vi.advanceTimersByTimeAsync(600_000);
    expect(sharing.reach.state).toBe('waiting');
    stop();
  });

  test('keeps no line open while nobody sees the page', async () => {
    const { world, sharing, stop } = await shared();
    await upToDate(sharing);
    await vi.waitFor(() => {
      expect(world.lines).toBe(1);
    });
    world.gone();
    expect(world.lines).toBe(0);
    world.back();
    await vi.waitFor(() => {
      expect(world.lines).toBe(1);
    });
    stop();
  });

  test('one that was revoked says so, keeps the record and asks no more', async () => {
    const { world, season, sharing, stop } = await shared();
    await upToDate(sharing);
    const nests = season.record.nests.size;
    world.problem = { kind: 'shut out', message: 'A lead has revoked this device.' };
    await sharing.exchange();
    expect(toSay(sharing)).toBe('Shut out');
    expect(reachInFull(sharing.reach, 0, 0)).toBe(
      'A lead has revoked this device. What is on this device stays here.',
    );
    world.problem = null;
    await sharing.exchange();
    expect(sharing.reach.state).toBe('shut out');
    expect(season.record.nests.size).toBe(nests);
    stop();
  });

  test('joining brings what is on record and the name; leaving keeps the record', async () => {
    const { hub, season, settings, sharing, stop } = await shared({ isMember: false });
    expect(toSay(sharing)).toBe('This device only');
    expect(await sharing.join('fdi1_x', 'Orla B.')).toMatchObject({ ok: true });
    await upToDate(sharing);
    expect(hub.rows.length).toBe(season.record.events.size);
    expect(settings.now.author).toBe('Orla B.');
    await sharing.leave();
    expect(sharing.reach.state).toBe('alone');
    expect(sharing.member).toBeNull();
    expect(season.record.events.size).toBeGreaterThan(0);
    stop();
  });

  test('what the hub refuses is told, and offered again when asked', async () => {
    const { hub, season, sharing, stop } = await shared();
    await upToDate(sharing);
    hub.refuse = () => ({ reason: 'A reader writes nothing.', again: false });
    await season.note(nestId('W-014'), { surface: 'dip' });
    await sharing.exchange();
    expect(sharing.refused.map(({ reason }) => reason)).toEqual(['A reader writes nothing.']);
    expect(reachInFull(sharing.reach, 0, 1)).toContain('did not take 1');
    hub.refuse = () => null;
    await sharing.offerAgain();
    expect(sharing.refused).toEqual([]);
    stop();
  });
});

test('a long catch-up counts', () => {
  const progress = { phase: 'receiving', done: 1240, of: 3000 } as const;
  expect(reachInShort({ state: 'catching up', progress }, 0)).toBe('1,240 of 3,000');
  expect(reachInFull({ state: 'catching up', progress }, 0, 0)).toBe(
    'Catching up: 1,240 of 3,000 received.',
  );
});
