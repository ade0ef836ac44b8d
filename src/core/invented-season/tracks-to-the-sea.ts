import { type Random, randomStream } from '../numerics/random.ts';
import { moonAt } from '../sky/moon.ts';
import { type Coast, SEAWARD_DEG } from './coast.ts';
import type { KnownNest } from './known-nests.ts';
import type { InventedTable } from './tables.ts';
import type { VisitRecord } from './visit-record.ts';
import type { Weather } from './weather.ts';

/**
 * Which way the hatchlings of a boil went, as read from their tracks at dawn. Most head for the
 * sea; near lamps some turn to them, more so without a moon (direction of the effect: Salmon &
 * Witherington 1995; Witherington & Martin 1996; amounts invented).
 */
export function orientationTable(
  seed: number,
  coast: Coast,
  weather: Weather,
  nests: readonly KnownNest[],
  visits: readonly VisitRecord[],
): InventedTable {
  const boils = new Map(nests.map((known) => [known.clutch.nest, known] as const));
  const rows: string[][] = [];
  for (const visit of visits) {
    const night = Math.floor(visit.moment);
    const known = boils.get(visit.nest);
    const enough = visit.kind === 'morning' && (visit.tracks ?? 0) >= 10;
    if (known === undefined || !enough || known.boilKnown !== night) continue;
    const random = randomStream(seed, 'orientation', known.clutch.index);
    if (random.chance(0.3)) continue;
    rows.push(orientationRow(random, coast, weather, known, night, visit.tracks ?? 0));
  }
  return {
    file: 'orientation.csv',
    columns: [
      'nest',
      'night',
      'zone',
      'seaward_deg',
      'tracks_counted',
      'disoriented',
      'track_bearings',
      'leftmost_deg',
      'rightmost_deg',
      'modal_deg',
      'light_source',
      'moon',
      'cloud',
      'outcome',
      'note',
    ],
    rows,
  };
}

function orientationRow(
  random: Random,
  coast: Coast,
  weather: Weather,
  { clutch }: KnownNest,
  night: number,
  counted: number,
): string[] {
  const moon = moonOf(coast, night);
  const lure = [0.01, 0.1, 0.28, 0.5][clutch.light] ?? 0;
  const astrayShare = lure * (1.25 - 0.6 * moon.illuminatedShare) * random.between(0.4, 1.6);
  const astray = random.binomial(counted, Math.min(0.95, astrayShare));
  const lampTurn_deg = random.choice([-1, 1]) * random.between(70, 170);
  const turns_deg = Array.from({ length: Math.min(counted, 24) }, (_, track) =>
    track < Math.round((astray / counted) * Math.min(counted, 24))
      ? random.normal(lampTurn_deg, 22)
      : random.normal(0, 11 + 6 * clutch.light),
  ).map((turn) => Math.round(Math.max(-179, Math.min(180, turn))));
  turns_deg.sort((one, other) => one - other);
  const { sun } = weather.on(night);
  return [
    clutch.nest,
    coast.clock.date(night),
    clutch.zone.zone,
    String(SEAWARD_DEG),
    String(counted),
    String(astray),
    turns_deg.map(bearing).join(';'),
    bearing(turns_deg.at(0) ?? 0),
    bearing(turns_deg.at(-1) ?? 0),
    bearing(commonest(turns_deg)),
    astray > 0 ? (clutch.lamp ?? 'not found') : '',
    moon.phase,
    sun > 0.8 ? 'clear' : sun > 0.55 ? 'broken' : 'overcast',
    outcomeOf(astray, counted),
    '',
  ];
}

/** Degrees clockwise from north of a turn from the line to the sea (right of it positive). */
function bearing(turn_deg: number): string {
  return String((((SEAWARD_DEG + turn_deg) % 360) + 360) % 360);
}

/** Middle of the fullest span of twenty degrees. */
function commonest(turns_deg: readonly number[]): number {
  let best = { middle_deg: 0, tracks: 0 };
  for (let middle_deg = -170; middle_deg <= 170; middle_deg += 10) {
    const tracks = turns_deg.filter((turn) => Math.abs(turn - middle_deg) <= 10).length;
    if (tracks > best.tracks) best = { middle_deg, tracks };
  }
  return best.middle_deg;
}

function outcomeOf(astray: number, counted: number): string {
  if (astray === 0) return 'all tracks reach the water';
  return astray < counted / 2 ? 'most tracks reach the water' : 'most tracks lead inland';
}

function moonOf({ programme }: Coast, night: number): { illuminatedShare: number; phase: string } {
  const place = { latitude_deg: programme.latitude, longitude_deg: programme.longitude };
  // Around local midnight of a night: four hours behind Greenwich.
  const { illuminatedShare } = moonAt(place, (night + 1) * 86_400_000 + 4 * 3_600_000);
  const phase =
    illuminatedShare < 0.04
      ? 'new'
      : illuminatedShare < 0.4
        ? 'crescent'
        : illuminatedShare < 0.6
          ? 'half'
          : illuminatedShare < 0.96
            ? 'gibbous'
            : 'full';
  return { illuminatedShare, phase };
}
