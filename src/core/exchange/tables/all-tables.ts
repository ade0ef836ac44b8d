import { type TableName } from '../../domain/event.ts';
import { conditionsTable } from './conditions-table.ts';
import { inventoryTable } from './inventory-table.ts';
import { nestsTable } from './nests-table.ts';
import { orientationTable } from './orientation-table.ts';
import { availabilityTable, volunteersTable } from './people-tables.ts';
import type { TableSpec } from './table-spec.ts';
import { visitsTable } from './visits-table.ts';

const specs: Readonly<Record<TableName, TableSpec>> = {
  nests: nestsTable,
  visits: visitsTable,
  conditions: conditionsTable,
  volunteers: volunteersTable,
  availability: availabilityTable,
  orientation: orientationTable,
  inventory: inventoryTable,
};

/** The tables of a season folder in the order in which they can be read: nests and people first. */
export const tablesInOrder: readonly TableSpec[] = [
  specs.nests,
  specs.volunteers,
  specs.visits,
  specs.conditions,
  specs.availability,
  specs.orientation,
  specs.inventory,
];

export function specOf(table: TableName): TableSpec {
  return specs[table];
}
