import * as z from 'zod/mini';
import { isTimeZone } from './night.ts';
import { RosterSettings } from './roster.ts';
import { Species } from './species.ts';

/** One stretch of beach, with its own origin for distances along the shore. */
export const Zone = z.looseObject({
  zone: z.string().check(z.minLength(1)),
  /** Length of the stretch along the shore, metres. */
  length_m: z.optional(z.number().check(z.positive())),
  /** Bearing from the dune to the sea, degrees clockwise from true north. */
  seaward_deg: z.optional(z.number().check(z.gte(0), z.lt(360))),
  /** Where sitters come on to the beach, distances along the shore from the zone's origin, metres. */
  access_m: z.optional(z.array(z.number())),
});
export type Zone = z.infer<typeof Zone>;

/** When an inventory is due; what is missing follows from the defaults of `core/inventory`. */
const InventoryDays = z.looseObject({
  /** Days from the night of the boil to the day of the inventory. */
  after_emergence: z.optional(z.int().check(z.nonnegative())),
  /** Days from the lay night to the day of the inventory when nothing is known to have come up. */
  without_emergence: z.optional(z.int().check(z.positive())),
});
export type InventoryDays = z.infer<typeof InventoryDays>;

const Share = z.number().check(z.gte(0), z.lte(1));

/**
 * A programme as `programme.json` describes it. Keys it does not know are kept.
 * `time_zone` is an IANA name; latitude and longitude are WGS 84 degrees of the beach's middle.
 */
export const Programme = z.looseObject({
  name: z.optional(z.string()),
  time_zone: z.optional(
    z.string().check(z.refine(isTimeZone, 'an IANA time zone such as America/New_York')),
  ),
  latitude: z.optional(z.number().check(z.gte(-90), z.lte(90))),
  longitude: z.optional(z.number().check(z.gte(-180), z.lte(180))),
  zones: z.optional(z.array(Zone)),
  /** True for the season that comes with the app to look around in. */
  invented: z.optional(z.boolean()),
  /** Hatchling tracks counted at dawn from which the boil is taken to have happened. */
  boil_tracks: z.optional(z.int().check(z.positive())),
  /** Pairs of sitters usually out on an evening. */
  pairs: z.optional(z.int().check(z.positive())),
  /** How sitters are placed. */
  roster: z.optional(RosterSettings),
  /** Share of hatchlings that go astray unattended, by light exposure 0 to 3. */
  stray_by_exposure: z.optional(z.tuple([Share, Share, Share, Share])),
  /** Share of a clutch that comes out of a nest that boils. */
  expected_success: z.optional(Share),
  /** When nests are inventoried, for every species and for some (by scientific name). */
  inventory_days: z.optional(InventoryDays),
  inventory_days_by_species: z.optional(z.partialRecord(Species, InventoryDays)),
});
export type Programme = z.infer<typeof Programme>;
