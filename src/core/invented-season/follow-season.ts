import { randomStream } from '../numerics/random.ts';
import type { Coast } from './coast.ts';
import { patrolDawn } from './dawn-patrol.ts';
import { Duty, inventRota, pairsOf } from './duty.ts';
import { walkEvening } from './evening-round.ts';
import { endOfRecord } from './end-of-record.ts';
import type { KnownNest } from './known-nests.ts';
import { rainOfHalf } from './surface.ts';
import type { VisitRecord } from './visit-record.ts';
import type { Volunteer } from './volunteers.ts';
import type { Weather } from './weather.ts';

/** Everything that stays the same while a season is followed. */
export interface Season {
  readonly seed: number;
  readonly coast: Coast;
  readonly weather: Weather;
  readonly volunteers: readonly Volunteer[];
  readonly offers: ReadonlyMap<number, readonly Volunteer[]>;
  readonly first: number;
  readonly last: number;
}

/** Wind in which nobody walks of an evening, metres a second (invented). */
const TOO_WINDY_MS = 15;

/**
 * Walks a season night by night: the sand moves, pairs go out in the evening, nests come up, the
 * patrol goes at dawn, records end. Writes into the nests what their people know; gives the visits
 * in the order of time.
 */
export function followSeason(season: Season, nests: readonly KnownNest[]): VisitRecord[] {
  const { seed, coast, weather, volunteers, offers } = season;
  const evening = randomStream(seed, 'evenings');
  const dawn = randomStream(seed, 'dawns');
  const air = randomStream(seed, 'air');
  const duty = new Duty();
  const rota = inventRota(seed, coast.zones, volunteers, season.first, season.last);
  const records: VisitRecord[] = [];
  let followed = [...nests].sort((one, other) => one.clutch.shore_m - other.clutch.shore_m);

  for (let night = season.first; night <= season.last; night++) {
    const day = weather.on(night);
    const eveningAir = {
      wind_ms: day.evening_ms,
      rain_mm: rainOfHalf(day, 'evening') * air.uniform(),
    };
    const dawnAir = { wind_ms: day.dawn_ms, rain_mm: rainOfHalf(day, 'night') };
    const dusk = coast.clock.sunset(night) + 0.04;
    const byEvening = followed.filter(({ clutch }) => clutch.laid < night);
    for (const { sand } of byEvening)
      sand.pass(dusk, eveningAir.wind_ms, rainOfHalf(day, 'evening'));
    const came = duty.callOut(evening, night, offers.get(night) ?? []);
    const pairs = day.evening_ms > TOO_WINDY_MS ? [] : pairsOf(came, coast.programme.pairs);
    duty.worked(night, pairs);
    keep(records, walkEvening(evening, night, byEvening, pairs, coast.clock, eveningAir));

    const byDawn = followed.filter(({ clutch }) => clutch.laid <= night);
    const sunrise = coast.clock.sunrise(night);
    for (const { sand } of byDawn) sand.pass(sunrise, dawnAir.wind_ms, dawnAir.rain_mm);
    for (const zone of coast.zones) {
      const by = rota(zone, night, day.dawn_ms, day.surge_m);
      if (by === null) continue;
      const here = byDawn.filter(
        ({ clutch, found }) => clutch.zone.zone === zone.zone && found <= night,
      );
      keep(records, patrolDawn(dawn, night, here, by, coast.clock, dawnAir));
    }
    for (const known of byDawn) known.ends ??= endOfRecord(seed, known, night);
    followed = followed.filter(({ ends }) => ends === null || ends.night > night);
  }
  return records.sort((one, other) => one.moment - other.moment);
}

function keep(records: VisitRecord[], more: readonly VisitRecord[]): void {
  for (const record of more) records.push(record);
}
