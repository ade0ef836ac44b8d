import { chainEvidence } from '../inference/hidden-chain.ts';
import type { SeasonRecord } from '../log/season-record.ts';
import type { CueChains } from './cue-chains.ts';
import { groupsOf } from './cue-tally.ts';
import { type Evidence, eventHalves, logLikelihood } from './evidence.ts';
import type { Moment } from './forecast.ts';
import { type NestOdds, oddsFrom } from './nest-odds.ts';
import { type NestPrior, priorOver } from './prior.ts';
import type { ForecastMemory } from './season-memory.ts';
import { levelGrid } from './shared-effects.ts';

/** One nest to learn from: what was noted of it, and what all the others say of when it boils. */
export interface LearningNest {
  readonly evidence: Evidence;
  /** Prior share of never, and the factor on its odds that is in it. */
  readonly never: number;
  readonly neverOdds: number;
  /** Weights on the level grid given all other nests. */
  readonly levels: Float64Array;
  /** Prior over the candidate nights. */
  readonly prior: Float64Array;
  readonly priorAt: (spreadFactor: number) => NestPrior | null;
  /** Log-likelihood of all but surface and sound, by candidate night, then never. */
  readonly besides: Float64Array;
}

/**
 * The nests of a season that teach something by a moment: those of which anything was noted, and
 * those of known lay night, since that nothing was seen of them tells too.
 */
export function learningNests(
  record: SeasonRecord,
  until: Moment,
  memory: ForecastMemory,
): LearningNest[] {
  const works = memory.workOn(record, until);
  const effects = memory.effectsOf(works);
  const archived = memory.spreadFactor / memory.tuning.spreadFactor;
  return works.flatMap((work, index) => {
    const { evidence, never, prior } = work;
    const noted = evidence.surface.length + evidence.sound.length + evidence.sightings.length;
    if (noted === 0 && prior === null) return [];
    const levels = new Float64Array(levelGrid.count);
    effects.without(index, levels);
    const besides = logLikelihood({ ...evidence, surface: [], sound: [] }, memory.chains);
    return {
      evidence,
      never,
      neverOdds: memory.tuning.neverOdds,
      levels,
      prior: priorOver(prior, evidence.candidates.count, levels),
      priorAt: (factor) => work.priorAt(factor * archived),
      besides,
    };
  });
}

/** The odds of a nest by other tables than its forecast was made with. */
export function oddsBy(nest: LearningNest, chains: CueChains): NestOdds {
  const { evidence, besides, prior, never } = nest;
  const log = besides.slice();
  const events = eventHalves(evidence.candidates);
  const groups = groupsOf(evidence, chains);
  for (const channel of ['surface', 'sound'] as const) {
    const { at, likelihood } = groups[channel];
    if (at.length === 0) continue;
    const looks = likelihood.map((rows, index) => ({ at: at[index]!, likelihood: rows }));
    const { byCandidate, never: ofNever } = chainEvidence(chains[channel], looks, events);
    const power = chains.power[channel];
    for (let c = 0; c < events.length; c++) log[c] = log[c]! + power * byCandidate[c]!;
    log[events.length] = log[events.length]! + power * ofNever;
  }
  return oddsFrom(evidence.candidates, prior, never, log);
}
