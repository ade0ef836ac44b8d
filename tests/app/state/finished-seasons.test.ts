import { describe, expect, test } from 'vitest';
import { RunningClock } from '../../../src/app/state/clock.svelte.ts';
import { DeviceSettings } from '../../../src/app/state/device-settings.svelte.ts';
import { FinishedSeasons, type FinishedSeason } from '../../../src/app/state/finished-seasons.ts';
import { Seasons, type SeasonShelf } from '../../../src/app/state/seasons.svelte.ts';
import { NestDetails } from '../../../src/core/domain/nest.ts';
import { MemoryLog } from '../../../src/core/log/memory-log.ts';
import { SeasonBuilder, clock, zone } from '../../builders/season.ts';
import { evenForecaster, nestId } from '../note/scratch-season.ts';

/** A shelf in memory: one running season, finished ones beside it. */
function shelfOf(failing: { message: string | null } = { message: null }) {
  const finished: FinishedSeason[] = [];
  let running = new MemoryLog();
  const time = { now_ms: () => clock('2026-09-30', '12:00'), everyMinute: () => () => undefined };
  const problem = () =>
    failing.message === null ? null : { kind: 'failed' as const, message: failing.message };
  const eventsOf = async (log: MemoryLog) => {
    const read = await log.read();
    const events = read.ok ? read.events : [];
    return events.flatMap((logged) => (logged.state === 'known' ? [logged.event] : []));
  };
  /** Closing a log in memory would lose it. */
  const held = (log: MemoryLog) => ({
    append: (events: Parameters<MemoryLog['append']>[0]) => log.append(events),
    read: () => log.read(),
    watch: () => log.watch(),
    close: () => Promise.resolve(),
  });
  const shelf: SeasonShelf = {
    open: async () => {
      const read = await running.read();
      const events = read.ok ? read.events : [];
      return { ok: true, log: held(running), events, clock: new RunningClock(time) };
    },
    erase: () => Promise.resolve(null),
    glances: { read: () => null, keep: () => undefined, forget: () => undefined },
    finished: {
      read: () => {
        const why = problem();
        return Promise.resolve(
          why === null ? { ok: true, seasons: [...finished] } : { ok: false, problem: why },
        );
      },
      keep: (_, title, events) => {
        const why = problem();
        if (why === null) finished.push({ id: `earlier ${finished.length}`, title, events });
        return Promise.resolve(why);
      },
      remove: (id) => {
        finished.splice(
          finished.findIndex((season) => season.id === id),
          1,
        );
        return Promise.resolve(null);
      },
      close: async (of, title) => {
        const why = problem();
        if (why !== null) return why;
        finished.push({ id: of, title, events: await eventsOf(running) });
        running = new MemoryLog();
        return null;
      },
    },
  };
  return { shelf, finished };
}

async function opened(failing: { message: string | null } = { message: null }) {
  const { shelf, finished } = shelfOf(failing);
  const settings = new DeviceSettings(
    { save: () => Promise.resolve() },
    {
      device: 'd',
      author: 'Orla',
      experience: null,
      darkSwitch: 'never',
      cautionsSeen: true,
      language: null,
      measures: 'metric',
      season: null,
      instrument: null,
      lastNest: null,
    },
    () => undefined,
  );
  let drawn = 0;
  const asked: (readonly unknown[])[] = [];
  const seasons = new Seasons(shelf, settings, {
    newForecaster: (read) => {
      void read().then(
        (told) => asked.push(told),
        () => undefined,
      );
      return evenForecaster();
    },
    random: () => new Uint8Array(new Uint32Array([0, 0, 0, (drawn += 1)]).buffer),
    fallbackZone: zone,
    trouble: (subject, message) => {
      throw new Error(`${subject}: ${message}`);
    },
  });
  await seasons.switchSeason('own');
  const season = seasons.season!;
  await season.write({
    kind: 'programme-described',
    programme: { name: 'Tern Beach', time_zone: zone, zones: [{ zone: 'West' }], pairs: 4 },
  });
  await season.write({ kind: 'volunteer-enrolled', volunteer: 'Imre', details: {} });
  const laid = NestDetails.parse({ zone: 'West', lay_night: '2026-06-01' });
  await season.registerNest(nestId('W-1'), laid);
  return { seasons, finished, asked };
}

describe('closing a season', () => {
  test('keeps it whole under its title, and the next begins with the programme and its people', async () => {
    const { seasons, finished } = await opened();
    expect(await seasons.startNext('Tern Beach 2026')).toBeNull();
    expect(finished.map(({ title, events }) => [title, events.length])).toEqual([
      ['Tern Beach 2026', 3],
    ]);
    const next = seasons.season!;
    expect(next.record.nests.size).toBe(0);
    expect(next.record.programme).toMatchObject({ name: 'Tern Beach', pairs: 4 });
    expect(next.record.volunteers.map(({ fact }) => fact.volunteer)).toEqual(['Imre']);
    expect(await seasons.finished?.lines()).toMatchObject([
      { title: 'Tern Beach 2026', short: { nests: 1, years: { from: 2026, to: 2026 } } },
    ]);
  });

  test('that fails leaves the season open as it was', async () => {
    const failing: { message: string | null } = { message: null };
    const { seasons } = await opened(failing);
    const before = seasons.season;
    failing.message = 'The store is full.';
    expect(await seasons.startNext('Tern Beach 2026')).toMatchObject({
      message: 'The store is full.',
    });
    expect(seasons.season).toBe(before);
  });
});

test('finished seasons that cannot be read say why, and are asked for again', async () => {
  const failing: { message: string | null } = { message: 'The store is blocked.' };
  const finished = new FinishedSeasons(shelfOf(failing).shelf.finished, 'own', zone);
  await expect(finished.events()).rejects.toThrow('The store is blocked.');
  failing.message = null;
  expect(await finished.lines()).toEqual([]);
});

test('a season brought in as finished teaches from then on, and no more once it is removed', async () => {
  const { seasons, asked } = await opened();
  const { events } = new SeasonBuilder().nest('N-1', { lay_night: '2024-06-01' });
  expect(await seasons.keepFinished('Season 2024', events)).toBeNull();
  expect(seasons.season?.record.nests.size).toBe(1);
  await expect.poll(() => asked.at(-1)).toEqual([{ events, zone }]);
  const [line] = (await seasons.finished?.lines()) ?? [];
  expect(line?.short).toMatchObject({ years: { from: 2024, to: 2024 }, nests: 1, boils: 0 });
  expect(await seasons.removeFinished(line?.id ?? '')).toBeNull();
  await expect.poll(() => asked.at(-1)).toEqual([]);
});
