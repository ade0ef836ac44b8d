import type { ForecastMemory } from '../src/core/forecast/season-memory.ts';
import { levelGrid } from '../src/core/forecast/shared-effects.ts';
import type { ChainModel, Look } from '../src/core/inference/hidden-chain.ts';
import { normalNodes } from '../src/core/inference/grid-function.ts';
import { eventHalves } from '../src/core/forecast/evidence.ts';
import { durations } from '../src/core/forecast/incubation.ts';
import { termsPerNest } from '../src/core/forecast/effect-layout.ts';
import type { Coast } from './coast.ts';

/**
 * Floating-point operations that the odds of a coast take, counted from what each nest's notes ask
 * of the loops: additions, multiplications and divisions one each, and one for an exp, a log or a
 * power. Check value and quantiles, a small part, are left out.
 */
export function operationsOf({ record, moment }: Coast, memory: ForecastMemory): number {
  const works = memory.workOn(record, moment);
  const { sweeps, posterior } = memory.effectsOf(works);
  let sum = 0;
  works.forEach(({ evidence, log, candidates, prior }, index) => {
    const possible = log.reduce((count, value) => count + (value === -Infinity ? 0 : 1), 0);
    sum += evidence.sightings.length * candidates.count;
    if (possible > 1) {
      const events = eventHalves(candidates);
      const wanted = (c: number): boolean => log[c] !== -Infinity;
      sum += chainOperations(memory.chains.surface, evidence.surface, events, wanted);
      sum += chainOperations(memory.chains.sound, evidence.sound, events, wanted);
    }
    if (prior === null) return;
    const rows = levelGrid.count + 3;
    sum += rows * (2 * Math.min(possible, durations) + 8) + 2 * candidates.count;
    const spread = (posterior.cavitySd[index] ?? 0) / levelGrid.step;
    const reached = Math.min(rows, Math.ceil(10 * spread) + 4);
    sum += normalNodes.length * 26 + reached * durations * 2 + 6 * candidates.count;
    const sweep = normalNodes.length * 28 + termsPerNest * (termsPerNest * 5 + 4) + 20;
    sum += sweeps * sweep;
  });
  return sum;
}

function chainOperations(
  { states, reach }: ChainModel,
  looks: readonly Look[],
  events: Float64Array,
  wanted: (candidate: number) => boolean,
): number {
  if (looks.length === 0) return 0;
  const relaxed = 3 * states + 1;
  const weighed = 3 * states + 1;
  let sum = looks.length * (relaxed + weighed) + looks.length * (8 * states + 2);
  events.forEach((event, c) => {
    if (!wanted(c)) return;
    const first = looks.findIndex(({ at }) => at > event - reach);
    const inside = looks.filter(({ at }) => at > event - reach && at <= event);
    const last = inside.at(-1);
    if (last !== undefined) {
      const start = first > 0 ? event - reach : (inside[0]?.at ?? event);
      sum += (last.at - start) * 2 * states * states + inside.length * weighed + relaxed;
    }
    sum += 5 * states + 2;
  });
  return sum;
}

/** Operations a second that this machine does in a plain loop: a sum of products over one array. */
export function plainLoop_perSecond(): number {
  const values = Float64Array.from({ length: 4096 }, (_, index) => 1 + index * 1e-9);
  let sum = 0;
  const turns = 40_000;
  let best = 0;
  for (let round = 0; round < 5; round++) {
    const from_ms = performance.now();
    for (let turn = 0; turn < turns; turn++) {
      for (let index = 0; index < values.length; index++) sum += values[index]! * 1.0000001;
    }
    const seconds = (performance.now() - from_ms) / 1000;
    best = Math.max(best, (2 * turns * values.length) / seconds);
  }
  return sum > 0 ? best : 0;
}
