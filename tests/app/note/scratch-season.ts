import { configure } from '@testing-library/svelte';
import type { SeasonEvent } from '../../../src/core/domain/event.ts';
import { parseInstant } from '../../../src/core/domain/instant.ts';
import type { Measures } from '../../../src/core/domain/measures.ts';
import { NestId, type NestDetails } from '../../../src/core/domain/nest.ts';
import { asNight } from '../../../src/core/domain/night.ts';
import type { VisitDetails } from '../../../src/core/domain/visit.ts';
import type { NestForecast, NestOut, SeasonForecast } from '../../../src/core/forecast/forecast.ts';
import type { Glance } from '../../../src/core/forecast/glance.ts';
import type { Appended, EventLog, LoggedEvent } from '../../../src/core/log/event-log.ts';
import { MemoryLog } from '../../../src/core/log/memory-log.ts';
import type { App } from '../../../src/app/state/app.ts';
import { appKey, seasonKey } from '../../../src/app/state/context.ts';
import { DayOrDark } from '../../../src/app/state/day-or-dark.svelte.ts';
import { DeviceSettings, type Settings } from '../../../src/app/state/device-settings.svelte.ts';
import type { Forecaster } from '../../../src/app/state/forecaster.ts';
import { Notices } from '../../../src/app/state/notices.svelte.ts';
import { Router } from '../../../src/app/state/router.svelte.ts';
import { SeasonState } from '../../../src/app/state/season-state.svelte.ts';
import { HandClock } from './hand-clock.svelte.ts';

// A busy machine is slow to draw; a test that waits for nothing still fails, only later.
configure({ asyncUtilTimeout: 8000 });

export const zone = 'America/New_York';

/** Epoch milliseconds of a text with offset that is known to be one. */
export function instant_ms(text: string): number {
  const at_ms = parseInstant(text);
  if (at_ms === null) throw new Error(`${text} is not an instant`);
  return at_ms;
}

/** A nest's name in a test. */
export const nestId = (name: string): NestId => NestId.parse(name);

/** A memory log that can be told to be full. */
export class FillableLog implements EventLog {
  readonly #log = new MemoryLog();
  isFull = false;
  append(events: readonly LoggedEvent[]): Promise<Appended> {
    if (!this.isFull) return this.#log.append(events);
    const message = 'The device is full. Free some space, then try again; nothing saved is lost.';
    return Promise.resolve({ ok: false, problem: { kind: 'full', message } });
  }
  read() {
    return this.#log.read();
  }
  watch() {
    return this.#log.watch();
  }
  close() {
    return this.#log.close();
  }
  /** Every event in the log. */
  async events(): Promise<readonly SeasonEvent[]> {
    const read = await this.read();
    if (!read.ok) throw new Error(read.problem.message);
    return read.events.flatMap((logged) => (logged.state === 'known' ? [logged.event] : []));
  }
}

/** A forecast in which every nest that is not `out` has the same modest odds. */
export function evenForecaster(out: Readonly<Record<string, NestOut['reason']>> = {}): Forecaster {
  return {
    forecast(record, moment) {
      const nests: NestForecast[] = [];
      const over: NestOut[] = [];
      for (const held of record.nests.values()) {
        const reason = out[held.nest.id];
        if (reason !== undefined) {
          over.push({ record: held, reason, night: asNight(moment.night - 2) });
          continue;
        }
        nests.push({
          record: held,
          rank: nests.length + 1,
          pTonight: 0.2,
          pNext3: 0.5,
          pAlready: 0.1,
          pNever: 0.1,
          distribution: [0.2, 0.2, 0.1, 0.1, 0.1, 0.1].map((p, index) => ({
            night: asNight(moment.night + index),
            p,
          })),
          medianNight: asNight(moment.night + 1),
          lowNight: moment.night,
          highNight: asNight(moment.night + 5),
          checkValue: 0.01,
          atStake: 3,
          age: null,
        });
      }
      const level = {
        mean: 0,
        sd: 0.03,
        days: 0,
        emerged: 0,
        waiting: nests.length,
        converged: true,
      };
      const season: SeasonForecast = { moment, level, moonlight: 0.5, nests, out: over };
      return Promise.resolve(season);
    },
    why: (record, _moment, nest) =>
      Promise.resolve(
        (record.nests.get(nest)?.visits ?? []).map((visit) => ({
          kind: 'surface' as const,
          visit: visit.id,
          text: `${visit.surface ?? 'nothing'} noted`,
          factor: 2,
        })),
      ),
    restOfNight: () => Promise.resolve({ pRest: 0, byHour: [] }),
  };
}

export interface ScratchOptions {
  readonly now?: string;
  readonly author?: string | null;
  readonly dark?: boolean;
  readonly measures?: Measures;
  readonly nests?: Readonly<Record<string, NestDetails>>;
  readonly people?: readonly string[];
  readonly out?: Readonly<Record<string, NestOut['reason']>>;
  /** How the odds stood when the season was last open. */
  readonly glance?: Glance;
  /** Whether the odds are still to be worked out. */
  readonly isYoung?: boolean;
}

/** A season in memory with a few nests along one zone, and the app around it. */
export async function scratchSeason(options: ScratchOptions = {}) {
  const log = new FillableLog();
  const clock = new HandClock(instant_ms(options.now ?? '2026-08-01T21:10-04:00'));
  const loaded: Settings = {
    device: 'test-device',
    author: options.author === undefined ? 'Orla' : options.author,
    experience: 'trained',
    darkSwitch: options.dark === false ? 'never' : 'always',
    cautionsSeen: true,
    language: null,
    measures: options.measures ?? 'metric',
    season: 'own',
    instrument: null,
    lastNest: null,
  };
  const settings = new DeviceSettings({ save: () => Promise.resolve() }, loaded, () => undefined);
  let drawn = 0;
  const glances: Glance[] = [];
  const season = new SeasonState(
    {
      name: 'own',
      log,
      clock,
      settings,
      forecaster: evenForecaster(options.out),
      random: () => new Uint8Array(new Uint32Array([0, 0, 0, (drawn += 1)]).buffer),
      fallbackZone: zone,
      glance: options.glance ?? null,
      glances: { keep: (glance) => void glances.push(glance) },
      trouble: (subject, message) => {
        throw new Error(`${subject}: ${message}`);
      },
    },
    [],
  );
  const nests = options.nests ?? {
    'W-001': { shore_m: 100, lay_night: null },
    'W-014': { shore_m: 300 },
    'W-007': { shore_m: 200 },
  };
  for (const [name, details] of Object.entries(nests)) {
    await season.registerNest(nestId(name), { zone: 'West', ...details });
  }
  for (const volunteer of options.people ?? []) {
    await season.write({ kind: 'volunteer-enrolled', volunteer, details: {} });
  }
  if (options.isYoung !== true) await season.reckon();
  let hash = '';
  const router = new Router({
    hash: () => hash,
    go: (to) => {
      hash = to;
    },
    watch: () => () => undefined,
  });
  const dayOrDark = new DayOrDark(settings, () => true);
  const app: Pick<App, 'router' | 'settings' | 'dayOrDark' | 'notices' | 'clock'> = {
    clock,
    router,
    settings,
    dayOrDark,
    notices: new Notices(),
  };
  const context = new Map<symbol, unknown>([
    [appKey, app],
    [seasonKey, season],
  ]);
  return { season, log, clock, settings, router, context, glances };
}

/** The notes in a log, corrections and withdrawals left out. */
export async function notesIn(log: FillableLog) {
  return (await log.events()).filter((event) => event.kind === 'visit-noted');
}

/** A note made some minutes before now. */
export async function noteBefore(
  made: Awaited<ReturnType<typeof scratchSeason>>,
  nest: string,
  minutes: number,
  details: VisitDetails,
) {
  const written = await made.season.note(
    nestId(nest),
    details,
    made.clock.read_ms() - minutes * 60_000,
  );
  if (!written.ok) throw new Error(written.problem.message);
  await made.season.reckon();
  return written.id;
}
