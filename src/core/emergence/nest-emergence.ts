import { type Night, nightOf } from '../domain/night.ts';
import { parseInstant } from '../domain/instant.ts';
import type { NestRecord } from '../log/season-record.ts';
import { type BoilCount, countIn } from './boil-count.ts';
import { type EmergenceTotal, boilNight, emergenceTotals } from './emergence-total.ts';

/** What is on record of what came up at one nest. */
export interface NestEmergence {
  /** By night, the boil before stragglers. */
  readonly totals: readonly EmergenceTotal[];
  /** Night of the boil: as counted in a sit, else by the first dawn with that many tracks. */
  readonly boil: Night | null;
  readonly boilBy: 'sit' | 'tracks' | null;
  /** Most tracks counted on the dawn of the boil; null when none were counted then. */
  readonly boilTracks: number | null;
  /** Last night on which any hatchling, or the track of one, was seen. */
  readonly lastSeen: Night | null;
}

/**
 * What came up at a nest, from its notes. `zone` = the programme's IANA zone; `boilTracks` = from how many
 * hatchlings or tracks the beach takes the boil to have happened.
 */
export function emergenceAt(record: NestRecord, zone: string, boilTracks: number): NestEmergence {
  const totals = emergenceTotals(countsOf(record, zone, boilTracks));
  const dawns = record.visits.filter(({ tracks }) => tracks !== null && tracks > 0);
  const sitBoil = boilNight(totals);
  const trackBoil = earliest(
    dawns.filter(({ tracks }) => (tracks ?? 0) >= boilTracks).map(({ night }) => night),
  );
  const isByTracks = trackBoil !== null && (sitBoil === null || trackBoil < sitBoil);
  const boil = isByTracks ? trackBoil : sitBoil;
  const seen = [...totals.map(({ night }) => night), ...dawns.map(({ night }) => night)];
  const ofBoil = dawns.filter(({ night }) => night === boil).map(({ tracks }) => tracks ?? 0);
  return {
    totals,
    boil,
    boilBy: boil === null ? null : isByTracks ? 'tracks' : 'sit',
    boilTracks: ofBoil.length === 0 ? null : Math.max(...ofBoil),
    lastSeen: seen.reduce<Night | null>(
      (last, one) => (last === null || one > last ? one : last),
      null,
    ),
  };
}

/** Every count in a nest's notes that stand. */
export function countsOf(
  { notes }: NestRecord,
  zone: string,
  boilTracks: number,
): readonly BoilCount[] {
  return [...notes.values()].flatMap(({ fact, withdrawn }) => {
    if (withdrawn) return [];
    const night = nightOf(parseInstant(fact.at) ?? 0, zone);
    return countIn(fact, night, boilTracks) ?? [];
  });
}

function earliest(nights: readonly Night[]): Night | null {
  return nights.reduce<Night | null>(
    (first, one) => (first === null || one < first ? one : first),
    null,
  );
}
