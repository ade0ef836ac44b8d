import type { Night } from '../domain/night.ts';
import { lastInventory } from '../inventory/last-inventory.ts';
import { type Success, successOf } from '../inventory/success.ts';
import type { SeasonRecord } from '../log/season-record.ts';
import { type Spread, spreadOf } from './incubations.ts';
import { type SeasonWindow, isWithin, placedOf } from './season-window.ts';

/** The success of one nest by its last inventory. */
export interface NestSuccess {
  readonly nest: string;
  readonly zone: string | null;
  readonly date: Night;
  readonly success: Success;
}

/** The success of one zone (null: nests of no zone), as shares of the eggs, over nests. */
export interface ZoneSuccess {
  readonly zone: string | null;
  readonly inventories: number;
  /** Null where no inventory allows a figure. */
  readonly hatch: Spread | null;
  readonly emergence: Spread | null;
}

/** Every inventoried nest in a window, by its last inventory. */
export function successesOf(record: SeasonRecord, window: SeasonWindow): readonly NestSuccess[] {
  return [...record.nests.values()].flatMap((nest) => {
    const last = lastInventory(nest);
    if (last === null || !isWithin(window, placedOf(nest.nest, last.date))) return [];
    const success = successOf(last.details, nest.nest.clutch_eggs);
    return [{ nest: nest.nest.id, zone: nest.nest.zone, date: last.date, success }];
  });
}

/** Success by zone, in order of their names, then all together under the name `all`. */
export function successByZone(successes: readonly NestSuccess[]): {
  readonly zones: readonly ZoneSuccess[];
  readonly all: ZoneSuccess;
} {
  const names = [...new Set(successes.map(({ zone }) => zone))].sort((a, b) =>
    a === null ? 1 : b === null ? -1 : a < b ? -1 : 1,
  );
  const zones = names.map((name) =>
    zoneSuccess(
      name,
      successes.filter(({ zone }) => zone === name),
    ),
  );
  return { zones, all: zoneSuccess(null, successes) };
}

function zoneSuccess(zone: string | null, of: readonly NestSuccess[]): ZoneSuccess {
  return {
    zone,
    inventories: of.length,
    hatch: spreadOf(of.flatMap(({ success }) => success.hatch ?? [])),
    emergence: spreadOf(of.flatMap(({ success }) => success.emergence ?? [])),
  };
}
