import { type BeachClock, beachClock } from './beach-clock.ts';

/** One stretch of the invented coast, with what makes its sand, its sea and its people its own. */
export interface InventedZone {
  readonly zone: string;
  readonly letter: string;
  readonly length_m: number;
  /** Share of the coast's nests that are laid here. */
  readonly share: number;
  /** How much warmer its sand is than the coast's, degrees C: colour and coarseness. */
  readonly warmer_c: number;
  /** Mean height of its nests above an ordinary high tide, metres. */
  readonly height_m: number;
  /** False dips a night and nest: crabs, feet, dogs. */
  readonly falseDips: number;
  /** Hours from sunset to the usual hour of emergence. */
  readonly emergence_h: number;
  /** Lamps by distance along the shore, metres. */
  readonly lamps_m: readonly { readonly at_m: number; readonly name: string }[];
}

/** What goes into `programme.json` of an invented season. */
export interface InventedProgramme {
  name: string;
  note: string;
  invented: true;
  time_zone: string;
  latitude: number;
  longitude: number;
  boil_tracks: number;
  pairs: number;
  zones: {
    zone: string;
    length_m: number;
    seaward_deg: number;
    latitude: number;
    longitude: number;
  }[];
}

/** The position is a point of open ocean: nobody's beach. */
const LATITUDE = 27;
const LONGITUDE = -74;
const TIME_ZONE = 'America/New_York';
export const SEAWARD_DEG = 90;
const METRES_PER_DEGREE = 111_195; // of latitude: a 360th of a circle of radius 6371 km

/** Three zones that differ as beaches do: values are invented, inside the spreads of field reports. */
const ZONES: readonly InventedZone[] = [
  {
    zone: 'Wrackle',
    letter: 'W',
    length_m: 2600,
    share: 0.4,
    warmer_c: 0.35,
    height_m: 1.5,
    falseDips: 1 / 55,
    emergence_h: 2.3,
    lamps_m: [
      { at_m: 420, name: 'porch lamp' },
      { at_m: 1500, name: 'street lamp' },
    ],
  },
  {
    zone: 'Coldspoon',
    letter: 'C',
    length_m: 3400,
    share: 0.38,
    warmer_c: -0.45,
    height_m: 1.8,
    falseDips: 1 / 95,
    emergence_h: 4.1,
    lamps_m: [{ at_m: 2900, name: 'pier lamp' }],
  },
  {
    zone: 'Tallow Spit',
    letter: 'T',
    length_m: 1800,
    share: 0.22,
    warmer_c: 0.05,
    height_m: 1.15,
    falseDips: 1 / 75,
    emergence_h: 3.1,
    lamps_m: [],
  },
];

export interface Coast {
  readonly zones: readonly InventedZone[];
  readonly clock: BeachClock;
  readonly programme: InventedProgramme;
  /** Position of a place along the shore of a zone, degrees to five decimals. */
  position(zone: InventedZone, shore_m: number): { latitude: string; longitude: string };
}

/**
 * The invented coast, stretched so that a large number of nests lies no closer than 300 nests do
 * on its 7.8 km. It runs from south to north, the sea to the east.
 */
export function inventCoast(nests: number): Coast {
  const stretch = Math.max(1, nests / 300);
  const zones = ZONES.map((zone) => ({
    ...zone,
    length_m: Math.round(zone.length_m * stretch),
    lamps_m: zone.lamps_m.map((lamp) => ({ ...lamp, at_m: lamp.at_m * stretch })),
  }));
  const origins = new Map<string, number>();
  let south_m = 0;
  for (const { zone, length_m } of zones) {
    origins.set(zone, south_m);
    south_m += length_m + 150;
  }
  const latitudeAt = (zone: string, shore_m: number): string =>
    (LATITUDE + ((origins.get(zone) ?? 0) + shore_m) / METRES_PER_DEGREE).toFixed(5);

  return {
    zones,
    clock: beachClock(LATITUDE, LONGITUDE, TIME_ZONE),
    position: (zone, shore_m) => ({
      latitude: latitudeAt(zone.zone, shore_m),
      longitude: LONGITUDE.toFixed(5),
    }),
    programme: {
      name: 'Lantern Reach (invented)',
      note: 'Place, people, nests and weather are invented; the position is a point of open ocean.',
      invented: true,
      time_zone: TIME_ZONE,
      latitude: LATITUDE,
      longitude: LONGITUDE,
      boil_tracks: 10,
      pairs: Math.max(1, Math.round(nests / 38)),
      zones: zones.map(({ zone, length_m }) => ({
        zone,
        length_m,
        seaward_deg: SEAWARD_DEG,
        latitude: Number(latitudeAt(zone, 0)),
        longitude: LONGITUDE,
      })),
    },
  };
}
