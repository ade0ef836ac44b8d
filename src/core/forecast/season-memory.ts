import { type Night, parseNight } from '../domain/night.ts';
import type { NestId } from '../domain/nest.ts';
import type { NestRecord, SeasonRecord } from '../log/season-record.ts';
import { oddsTimes } from '../numerics/odds.ts';
import type { BeachTemperature } from '../thermal/beach-temperature.ts';
import type { Archive } from './archive.ts';
import { NestWork, priorAt, sharingOf } from './nest-work.ts';
import { candidatesOf } from './candidates.ts';
import { type Central, centralOf } from './central.ts';
import { type Readings, readingsOn } from './check-value.ts';
import { type CueChains, cueChains } from './cue-chains.ts';
import { type CueTables, defaultCueTables } from './cue-tables.ts';
import { type Evidence, gather, logLikelihood } from './evidence.ts';
import type { Moment } from './forecast.ts';
import { neverShare } from './incubation.ts';
import { middleNight, wholeYears_nights } from './lay-calendar.ts';
import { logByLevel } from './nest-odds.ts';
import { SeasonTemperature } from './season-temperature.ts';
import { type SharedEffects, type Sharing, learnEffects } from './shared-effects.ts';
import { writesFindsOnly } from './silence.ts';
import { type Site, sameSite, siteOf } from './site.ts';
import { type Tuning, defaultTuning } from './tuning.ts';

/** With more nests than this, what was gathered of each is not kept at hand. */
const keptNests = 5_000;

interface Remembered {
  readonly work: NestWork;
  /** What the evidence depends on besides the record. */
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
  readonly #works = new Map<NestId, Remembered>();
  #last: {
    readonly record: SeasonRecord;
    readonly moment: Moment;
    readonly works: NestWork[];
  } | null = null;
  #effects: { readonly works: readonly NestWork[]; readonly effects: SharedEffects } | null = null;
  #site: { readonly record: SeasonRecord; readonly site: Site } | null = null;

  readonly archive: Archive | null;
  readonly #temperature = new SeasonTemperature();

  /** `tables` and `tuning` as learned from the record; `archive` = what earlier seasons taught. */
  constructor(
    learned: {
      readonly tables?: CueTables;
      readonly tuning?: Tuning;
      readonly archive?: Archive | null;
    } = {},
  ) {
    this.archive = learned.archive ?? null;
    this.tables = learned.tables ?? defaultCueTables;
    this.tuning = learned.tuning ?? defaultTuning;
    this.chains = cueChains(this.tables, this.tuning);
  }

  /** Factor on the spread of nests about their central durations: as tuned, and as archived. */
  get spreadFactor(): number {
    return this.tuning.spreadFactor * (this.archive?.spreadFactor ?? 1);
  }

  siteOf(record: SeasonRecord): Site {
    const known = this.#site;
    if (known === null || !sameSite(known.record, record)) {
      this.#site = { record, site: siteOf(record) };
      return this.#site.site;
    }
    return known.site;
  }

  /** The work on every nest of a season as of a moment. */
  workOn(record: SeasonRecord, moment: Moment): readonly NestWork[] {
    const last = this.#last;
    if (
      last?.record === record &&
      last.moment.night === moment.night &&
      last.moment.at_ms === moment.at_ms
    ) {
      return last.works;
    }
    const site = this.siteOf(record);
    const latitude_deg = site.place?.latitude_deg ?? null;
    const beach = this.#temperature.before(record, moment.night, latitude_deg);
    const keep = record.nests.size <= keptNests;
    const silent = writesFindsOnly(record, site.boilTracks, moment.at_ms);
    const works = [...record.nests.values()].map((nest) =>
      this.#workOnNest(nest, site, moment, beach, keep, silent),
    );
    this.#last = { record, moment, works };
    return works;
  }

  /** What the nests share; learned anew only when the work on one of them has changed. */
  effectsOf(works: readonly NestWork[]): SharedEffects {
    const known = this.#effects;
    const same =
      known?.works.length === works.length &&
      works.every((work, index) => work === known.works[index]);
    if (known !== null && same) return known.effects;
    const shift_nights = yearShift(works, this.archive);
    const sharing = works.map((work): Sharing => {
      const own = sharingOf(work, work.byLevel, 0);
      return { ...own, laid: own.laid === null ? null : own.laid + shift_nights };
    });
    const effects = learnEffects(sharing, {
      earlier: this.archive?.lasting ?? null,
      before: sameNests(known?.works ?? [], works) ? (known?.effects ?? null) : null,
    });
    this.#effects = { works, effects };
    return effects;
  }

  #workOnNest(
    record: NestRecord,
    site: Site,
    moment: Moment,
    beach: BeachTemperature,
    keep: boolean,
    silent: boolean,
  ): NestWork {
    const candidates = candidatesOf(record, moment.night);
    const inventoried = inventoryNight(record, moment.night);
    const key = [
      site.key,
      candidates.first,
      candidates.count,
      inventoried,
      usableUpTo(record, moment.at_ms),
      silent ? moment.night : '',
    ].join('|');
    const silentUntil = silent ? moment.night : null;
    const central = centralOf(record.nest, beach);
    const known = this.#works.get(record.nest.id);
    const same = known?.work.record === record && known.key === key;
    if (same && sameCentral(known.work.central, central)) return known.work;
    const gatherAnew = (): Evidence =>
      gather(record, candidates, site, this.chains, moment.at_ms, inventoried, silentUntil);
    const evidence = same ? known.work.evidence : gatherAnew();
    const log = same ? known.work.log : logLikelihood(evidence, this.chains);
    const { species } = record.nest;
    const share = this.archive?.never.get(species) ?? neverShare(species);
    const never = oddsTimes(share, this.tuning.neverOdds);
    const prior = priorAt(central, candidates, this.spreadFactor);
    const byLevel = logByLevel(prior, never, log);
    const worked = { record, candidates, log, central, prior, never, byLevel };
    const work = new NestWork(worked, evidence, gatherAnew, keep);
    this.#works.set(record.nest.id, { work, key, readings: same ? known.readings : null });
    return work;
  }

  /** What a look at the nest would be expected to find on the evening of a night. */
  readingsOf(work: NestWork, night: Night): Readings {
    const known = this.#works.get(work.record.nest.id);
    if (known?.work !== work) return readingsOn(night, work.evidence, this.chains);
    if (known.readings?.night !== night) {
      known.readings = { night, of: readingsOn(night, work.evidence, this.chains) };
    }
    return known.readings.of;
  }
}

/** Whether both are of the same nests, whatever was noted of them. */
function sameNests(before: readonly NestWork[], now: readonly NestWork[]): boolean {
  return (
    before.length === now.length &&
    now.every((work, index) => work.record.nest.id === before[index]?.record.nest.id)
  );
}

/** Nights by which lay nights are moved to fall on the same dates of the last archived season. */
function yearShift(works: readonly NestWork[], archive: Archive | null): number {
  const curve = archive?.lasting.layout.curve ?? null;
  const middle = middleNight(works);
  if (curve === null || Number.isNaN(middle)) return 0;
  return wholeYears_nights(middle, curve.firstNight + (curve.count * 7) / 2);
}

function sameCentral(a: Central | null, b: Central | null): boolean {
  if (a === null || b === null) return a === b;
  return a.nights === b.nights && a.spread_nights === b.spread_nights && a.warmer_c === b.warmer_c;
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
