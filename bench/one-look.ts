import type { NestId } from '../src/core/domain/nest.ts';
import { type Night, asNight, atWallClock } from '../src/core/domain/night.ts';
import type { Visit } from '../src/core/domain/visit.ts';
import type { Fates } from '../src/core/forecast/backtest.ts';
import { aloneSd } from '../src/core/forecast/effect-layout.ts';
import { nestOdds } from '../src/core/forecast/nest-odds.ts';
import { ForecastMemory } from '../src/core/forecast/season-memory.ts';
import { levelGrid } from '../src/core/forecast/shared-effects.ts';
import { chanceOn, outOf } from '../src/core/forecast/tonight.ts';
import { weightsOfNormal } from '../src/core/inference/grid-function.ts';
import type { NestRecord, SeasonRecord } from '../src/core/log/season-record.ts';

/** Log score a nest and evening, and share of boils met by three pairs. */
export interface OneLookScore {
  readonly logScore: number;
  readonly met: number;
}

/**
 * A season replayed with one-look tables: age and species, whether hatchlings or tracks were seen,
 * and the last look at the surface and the last listening alone; nothing shared between nests.
 */
export function oneLookScore(record: SeasonRecord, fates: Fates): OneLookScore {
  const boils = [...fates.values()].filter((night) => night !== null);
  const weights = new Float64Array(levelGrid.count);
  weightsOfNormal(levelGrid, 0, aloneSd, weights);
  let log = 0;
  let scored = 0;
  let met = 0;
  for (let night = Math.min(...boils) - 10; night <= Math.max(...boils); night++) {
    const tonight = asNight(night);
    const moment = { night: tonight, at_ms: atWallClock(night, 18 * 60, record.zone) };
    const memory = new ForecastMemory({ tuning: rawTuning });
    const works = memory.workOn(lastLooks(record, moment.at_ms), moment);
    const chances: { id: NestId; p: number }[] = [];
    for (const work of works) {
      const fate = fates.get(work.record.nest.id);
      if (fate === undefined || outOf(work, tonight) !== null) continue;
      const odds = nestOdds(work.candidates, work.prior, weights, work.never, work.log);
      const p = Math.min(1 - 1e-9, Math.max(1e-9, chanceOn(odds, tonight)));
      log += Math.log(fate === tonight ? p : 1 - p);
      scored++;
      chances.push({ id: work.record.nest.id, p });
    }
    const first = chances.sort((a, b) => b.p - a.p).slice(0, 3);
    met += first.filter(({ id }) => isOn(fates, id, tonight)).length;
  }
  return { logScore: log / Math.max(1, scored), met: met / Math.max(1, boils.length) };
}

const rawTuning = { surfacePower: 1, soundPower: 1, spreadFactor: 1, haste: 1, neverOdds: 1 };

const isOn = (fates: Fates, id: NestId, night: Night): boolean => fates.get(id) === night;

/** The record with only the last surface and the last sound of each nest left. */
function lastLooks(record: SeasonRecord, until_ms: number): SeasonRecord {
  const nests = new Map<NestId, NestRecord>();
  for (const [id, nest] of record.nests) {
    const known = nest.visits.filter(({ at_ms }) => at_ms <= until_ms);
    const surface = known.findLastIndex((visit) => visit.surface !== null);
    const sound = known.findLastIndex((visit) => visit.sound !== null);
    const visits = known.map((visit, index): Visit => ({
      ...visit,
      surface: index === surface ? visit.surface : null,
      sound: index === sound ? visit.sound : null,
    }));
    nests.set(id, { ...nest, visits });
  }
  return { ...record, conditions: [], nests };
}
