import { type Night, parseNight } from '../domain/night.ts';
import type { NestId } from '../domain/nest.ts';
import type { NestRecord, SeasonRecord } from '../log/season-record.ts';
import { type Candidates, candidatesOf, middleLayNight } from './candidates.ts';
import { type Readings, readingsOn } from './check-value.ts';
import { type CueChains, cueChains } from './cue-chains.ts';
import { type CueTables, defaultCueTables } from './cue-tables.ts';
import { type Evidence, gather, logLikelihood } from './evidence.ts';
import type { Moment } from './forecast.ts';
import { incubation, neverShare, spreadAt55 } from './incubation.ts';
import { logByLevel } from './nest-odds.ts';
import { type NestPrior, PriorTables } from './prior.ts';
import { type SharedEffects, learnEffects } from './shared-effects.ts';
import { type Site, siteOf } from './site.ts';
import { type Tuning, defaultTuning } from './tuning.ts';

/** What one nest's record says, worked out once for as long as it does not change. */
export interface NestWork {
  readonly record: NestRecord;
  readonly evidence: Evidence;
  /** Of what was noted, by candidate night, then never. */
  readonly log: Float64Array;
  /** Null when the lay night is not known. */
  readonly prior: NestPrior | null;
  readonly never: number;
  /** What the nest says of the season level. */
  readonly byLevel: Float64Array;
}

interface Remembered {
  readonly work: NestWork;
  readonly key: string;
  readings: { readonly night: Night; readonly of: Readings } | null;
}

/**
 * Remembers the work on each nest between forecasts of one season: a new note costs the work on
 * its own nest only. Use one for each season.
 */
export class ForecastMemory {
  readonly chains: CueChains;
  readonly tables: CueTables;
  readonly tuning: Tuning;
  readonly #priors = new PriorTables();
  readonly #works = new Map<NestId, Remembered>();
  #effects: { readonly works: readonly NestWork[]; readonly effects: SharedEffects } | null = null;
  #site: { readonly record: SeasonRecord; readonly site: Site } | null = null;

  /** `tables` and `tuning` as learned from the record; the defaults unless given. */
  constructor(learned: { readonly tables?: CueTables; readonly tuning?: Tuning } = {}) {
    this.tables = learned.tables ?? defaultCueTables;
    this.tuning = learned.tuning ?? defaultTuning;
    this.chains = cueChains(this.tables, this.tuning);
  }

  siteOf(record: SeasonRecord): Site {
    if (this.#site?.record !== record) this.#site = { record, site: siteOf(record) };
    return this.#site.site;
  }

  /** The work on every nest of a season as of a moment. */
  workOn(record: SeasonRecord, moment: Moment): NestWork[] {
    const site = this.siteOf(record);
    return [...record.nests.values()].map((nest) => this.#workOnNest(nest, site, moment));
  }

  /** What the nests share; learned anew only when the work on one of them has changed. */
  effectsOf(works: readonly NestWork[]): SharedEffects {
    const known = this.#effects;
    const same =
      known?.works.length === works.length &&
      works.every((work, index) => work === known.works[index]);
    if (known !== null && same) return known.effects;
    const effects = learnEffects(
      works.map(({ record: { nest }, evidence, byLevel }) => ({
        species: nest.species,
        zone: nest.zone,
        laid: middleLayNight(evidence.candidates),
        season: 0,
        warmer_c: 0,
        byLevel,
      })),
    );
    this.#effects = { works, effects };
    return effects;
  }

  /**
   * Prior of a nest, as if the spread between nests were so many times its own; null when its lay
   * night is not known.
   */
  priorOf(
    { nest: { species } }: NestRecord,
    { layNights }: Candidates,
    spreadFactor = this.tuning.spreadFactor,
  ): NestPrior | null {
    if (layNights === null) return null;
    const spread_nights = spreadFactor * spreadAt55(species);
    return this.#priors.priorOf(incubation(species).median, spread_nights, layNights);
  }

  #workOnNest(record: NestRecord, site: Site, moment: Moment): NestWork {
    const candidates = candidatesOf(record, moment.night);
    const inventoried = inventoryNight(record, moment.night);
    const key = [
      site.key,
      candidates.first,
      candidates.count,
      inventoried,
      usableUpTo(record, moment.at_ms),
    ].join('|');
    const known = this.#works.get(record.nest.id);
    if (known?.work.record === record && known.key === key) return known.work;
    const evidence = gather(record, candidates, site, this.chains, moment.at_ms, inventoried);
    const log = logLikelihood(evidence, this.chains);
    const never = neverShare(record.nest.species);
    const prior = this.priorOf(record, candidates);
    const byLevel = logByLevel(prior, never, log);
    const work = { record, evidence, log, prior, never, byLevel };
    this.#works.set(record.nest.id, { work, key, readings: null });
    return work;
  }

  /** What a look at the nest would be expected to find on the evening of a night. */
  readingsOf({ record, evidence }: NestWork, night: Night): Readings {
    const known = this.#works.get(record.nest.id);
    if (known?.work.evidence !== evidence) return readingsOn(night, evidence, this.chains);
    if (known.readings?.night !== night) {
      known.readings = { night, of: readingsOn(night, evidence, this.chains) };
    }
    return known.readings.of;
  }
}

/** Tells moments apart that let different notes count: how many visits, and a watch still going on. */
function usableUpTo({ visits }: NestRecord, at_ms: number): string {
  let count = visits.length;
  while (count > 0 && visits[count - 1]!.at_ms > at_ms) count--;
  let ongoing = false;
  for (let index = count - 1; index >= 0 && index >= count - 4; index--) {
    ongoing ||= (visits[index]!.watch?.to_ms ?? 0) > at_ms;
  }
  return ongoing ? `${count}@${at_ms}` : String(count);
}

/** The first inventory up to a night; what is counted out of the sand comes up no more. */
function inventoryNight({ inventories }: NestRecord, until: Night): Night | null {
  let first: Night | null = null;
  for (const { fact } of inventories) {
    const night = parseNight(fact.details.date);
    if (night !== null && night <= until && (first === null || night < first)) first = night;
  }
  return first;
}
