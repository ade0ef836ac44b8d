import { describe, expect, test, vi } from 'vitest';
import { SteppedClock } from '../../../src/app/state/clock.svelte.ts';
import { DeviceSettings } from '../../../src/app/state/device-settings.svelte.ts';
import type { Forecaster } from '../../../src/app/state/forecaster.ts';
import { SeasonState, type SeasonTools } from '../../../src/app/state/season-state.svelte.ts';
import type { Glance } from '../../../src/core/forecast/glance.ts';
import type { LoggedEvent } from '../../../src/core/log/event-log.ts';
import { MemoryLog } from '../../../src/core/log/memory-log.ts';
import { evenForecaster, nestId, notesIn, scratchSeason } from '../note/scratch-season.ts';
import { SeasonBuilder, clock, zone } from '../../builders/season.ts';

/** The invented season with these events, on the evening of 20 July at 19:40. */
function openInvented(
  logged: readonly LoggedEvent[],
  forecaster: Forecaster = evenForecaster(),
  trouble: (subject: string, message: string) => void = () => undefined,
  more: Partial<SeasonTools> = {},
) {
  const time = { now_ms: () => 5_000_000, everyMinute: () => () => undefined };
  const stepped = new SteppedClock(time, clock('2026-07-20', '19:40'));
  const settings = {
    device: 'd',
    author: null,
    experience: null,
    darkSwitch: 'auto',
    cautionsSeen: true,
    language: null,
    measures: 'metric',
    season: 'invented',
    instrument: null,
    lastNest: null,
  } as const;
  let drawn = 0;
  const season = new SeasonState(
    {
      name: 'invented',
      log: new MemoryLog(),
      clock: stepped,
      settings: new DeviceSettings({ save: () => Promise.resolve() }, settings, () => undefined),
      forecaster,
      random: () => Uint8Array.from({ length: 16 }, () => (drawn += 7) % 256),
      fallbackZone: zone,
      trouble,
      ...more,
    },
    logged,
  );
  return { season, stepped };
}

describe('a note', () => {
  test('is stamped with who, when and on which device, and moves the record at once', async () => {
    const { season, log } = await scratchSeason({ now: '2026-08-01T21:10-04:00' });
    const written = await season.note(nestId('W-014'), { surface: 'dip' });
    expect(written.ok).toBe(true);
    const [note] = await notesIn(log);
    expect(note).toMatchObject({
      at: '2026-08-01T21:10-04:00',
      author: 'Orla',
      device: 'test-device',
      details: { kind: 'evening', observer: 'Orla', experience: 'trained', surface: 'dip' },
    });
    expect(season.record.nests.get(nestId('W-014'))?.visits).toHaveLength(1);
  });

  test('at dawn is a morning visit of the night that is ending', async () => {
    const { season } = await scratchSeason({ now: '2026-08-02T06:10-04:00' });
    await season.note(nestId('W-014'), { tracks: 0 });
    const [visit] = season.record.nests.get(nestId('W-014'))?.visits ?? [];
    expect(visit).toMatchObject({ half: 'dawn', night: season.moment.night });
  });

  test('that the device has no room for is not shown as made', async () => {
    const { season, log } = await scratchSeason();
    log.isFull = true;
    const written = await season.note(nestId('W-014'), { surface: 'dip' });
    expect(written).toMatchObject({ ok: false, problem: { kind: 'full' } });
    expect(season.record.nests.get(nestId('W-014'))?.visits).toEqual([]);
    expect(season.undoable).toBeNull();
  });

  test('can be undone for a minute, and stays in the history', async () => {
    const { season, clock: now } = await scratchSeason();
    await season.note(nestId('W-014'), { surface: 'dip' });
    expect(season.undoable?.until_ms).toBe(now.read_ms() + 60_000);
    expect((await season.undo()).ok).toBe(true);
    const nest = season.record.nests.get(nestId('W-014'));
    expect(nest?.visits).toEqual([]);
    expect([...(nest?.notes.values() ?? [])].map(({ withdrawn }) => withdrawn)).toEqual([true]);
    expect((await season.undo()).ok).toBe(false);
  });

  test('with a value that cannot be is refused, and says which', async () => {
    const { season } = await scratchSeason();
    const written = await season.note(nestId('W-014'), { tracks: -3 });
    expect(written).toMatchObject({ ok: false });
    if (!written.ok) expect(written.problem.message).toContain('details.tracks');
  });
});

test('a correction changes what stands and keeps what stood', async () => {
  const { season } = await scratchSeason();
  const written = await season.note(nestId('W-014'), { surface: 'dip', sound: 'quiet' });
  if (!written.ok) throw new Error(written.problem.message);
  await season.correct(written.id, { surface: 'caved', sound: null }, 'wrong nest lamp');
  const nest = season.record.nests.get(nestId('W-014'));
  expect(nest?.visits[0]).toMatchObject({ surface: 'caved', sound: null });
  expect(nest?.notes.get(written.id)?.original.details).toMatchObject({ surface: 'dip' });
});

test('what another tab adds to the log is taken in', async () => {
  const { season, log } = await scratchSeason();
  const elsewhere = new SeasonBuilder().visit('W-014', '2026-07-31', { surface: 'depression' });
  await log.append(elsewhere.events.map((event) => ({ state: 'known', event })));
  await season.refresh();
  expect(season.record.nests.get(nestId('W-014'))?.visits).toHaveLength(1);
});

test('a note made while the odds are being worked out is worked in before they rest', async () => {
  const asked: (() => void)[] = [];
  const even = evenForecaster();
  const slow: Forecaster = {
    ...even,
    async forecast(record, moment) {
      await new Promise<void>((resolve) => asked.push(resolve));
      return even.forecast(record, moment);
    },
  };
  const nest = new SeasonBuilder().nest('W-1', { lay_night: '2026-06-01' });
  const { season } = openInvented(
    nest.events.map((event) => ({ state: 'known', event })),
    slow,
  );
  const resting = season.reckon();
  await season.note(nestId('W-1'), { surface: 'dip' });
  await season.reckon();
  expect(asked).toHaveLength(1);
  asked[0]?.();
  await vi.waitFor(() => {
    expect(asked).toHaveLength(2);
  });
  asked[1]?.();
  await resting;
  expect(season.forecast?.nests[0]?.record.visits).toHaveLength(1);
  expect(season.working).toBe(false);
});

describe('the invented season', () => {
  const made = new SeasonBuilder()
    .nest('W-1', { lay_night: '2026-06-01' })
    .visit('W-1', '2026-07-19', { surface: 'smooth' })
    .visit('W-1', '2026-07-20', { surface: 'dip' })
    .visit('W-1', '2026-07-21', { surface: 'caved' })
    .nest('W-2', { lay_night: '2026-07-25' });
  const logged: readonly LoggedEvent[] = made.events.map((event) => ({ state: 'known', event }));

  test('knows nothing of what comes later, until the clock is moved on', () => {
    const { season, stepped } = openInvented(logged);
    const seen = () => season.record.nests.get(nestId('W-1'))?.visits.map(({ surface }) => surface);
    expect(seen()).toEqual(['smooth']);
    stepped.set(clock('2026-07-22', '19:40'));
    season.showUntilNow();
    expect(seen()).toEqual(['smooth', 'dip', 'caved']);
    expect(season.record.nests.has(nestId('W-2'))).toBe(false);
    stepped.set(clock('2026-07-19', '19:40'));
    season.showUntilNow();
    expect(seen()).toEqual([]);
  });

  test('takes notes at its own hour', async () => {
    const { season } = openInvented(logged);
    await season.note(nestId('W-1'), { surface: 'depression' });
    const visits = season.record.nests.get(nestId('W-1'))?.visits ?? [];
    expect(visits.at(-1)?.at_ms).toBe(clock('2026-07-20', '19:40'));
  });
});

test('better odds take the place of the quick ones once they are there', async () => {
  const even = evenForecaster();
  let learn: (isBetter: boolean) => void = () => undefined;
  let asked = 0;
  const learning: Forecaster = {
    ...even,
    forecast(record, moment) {
      asked++;
      return even.forecast(record, moment);
    },
    improve: () => new Promise((resolve) => (learn = resolve)),
  };
  const { season } = openInvented([], learning);
  await season.reckon();
  expect(asked).toBe(1);
  expect(season.working).toBe(false);
  learn(true);
  await vi.waitFor(() => {
    expect(asked).toBe(2);
  });
  await vi.waitFor(() => {
    expect(season.working).toBe(false);
  });
  learn(false);
  await season.reckon();
  expect(asked).toBe(3);
});

test('when cues cannot be learned the quick odds stay, and it is said', async () => {
  const failing = { ...evenForecaster(), improve: () => Promise.reject(new Error('No room.')) };
  const told: string[] = [];
  const { season } = openInvented([], failing, (_, message) => told.push(message));
  await season.reckon();
  await vi.waitFor(() => {
    expect(told.join()).toContain('No room.');
  });
  expect(season.forecast).not.toBeNull();
});

describe('the odds in short', () => {
  test('are kept for the next opening with every note, and not with every minute', async () => {
    const { season, clock: watch, glances } = await scratchSeason();
    expect(glances).toHaveLength(1);
    watch.pass(60_000);
    await season.reckon();
    expect(glances).toHaveLength(1);
    await season.note(nestId('W-014'), { surface: 'dip' });
    await season.reckon();
    expect(glances).toHaveLength(2);
    expect(glances[1]).toMatchObject({ at_ms: watch.read_ms(), zone });
    expect(glances[1]?.nights[0]?.nests).toContainEqual({ nest: 'W-014', zone: 'West', p: 0.2 });
    watch.pass(24 * 3_600_000);
    await season.reckon();
    expect(glances).toHaveLength(3);
  });

  test('are kept again when what was learned makes them better', async () => {
    let isLearned = false;
    const kept: Glance[] = [];
    const { season } = openInvented(
      [],
      {
        ...evenForecaster(),
        improve: () => Promise.resolve(!isLearned && (isLearned = true)),
      },
      undefined,
      { name: 'own', glances: { keep: (glance) => void kept.push(glance) } },
    );
    await season.reckon();
    await vi.waitFor(() => expect(kept).toHaveLength(2));
  });

  test('of the invented season are not kept', async () => {
    const kept: Glance[] = [];
    const glances = { keep: (glance: Glance) => void kept.push(glance) };
    const { season } = openInvented([], undefined, undefined, { name: 'invented', glances });
    await season.reckon();
    expect(kept).toEqual([]);
  });
});
