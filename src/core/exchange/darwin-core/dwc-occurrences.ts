import type { FactOf, NestRecord } from '../../log/season-record.ts';
import { emergenceEventId, nestEventId, trackBoilEventId, type NestToWrite } from './dwc-events.ts';
import { type DwcRow, type DwcTable, dwcTable } from './dwc-table.ts';

/** Columns of the occurrence table, after the id of its event. */
const terms = [
  'occurrenceID',
  'basisOfRecord',
  'scientificName',
  'taxonRank',
  'occurrenceStatus',
  'individualCount',
  'organismQuantity',
  'organismQuantityType',
  'lifeStage',
  'occurrenceRemarks',
] as const;
type OccurrenceRow = DwcRow<(typeof terms)[number]>;

/** Sea turtles as a whole, for a nest whose species is not known. */
const anySpecies = { scientificName: 'Chelonioidea', taxonRank: 'superfamily' };

/** The id of the occurrence that belongs to an event. */
export const occurrenceId = (event: string): string => `${event}:occurrence`;

/** The occurrence table: the clutch of each nest, hatchlings that came up, and what was found in it. */
export function dwcOccurrences(nests: readonly NestToWrite[]): DwcTable {
  const rows = nests.flatMap(({ record, emergence }) => [
    occurrence(record, nestEventId(record), {
      lifeStage: 'egg',
      individualCount: record.nest.clutch_eggs,
      occurrenceRemarks: 'clutch of one nest',
    }),
    ...emergence.totals.map((total) =>
      occurrence(record, emergenceEventId(record, total), {
        lifeStage: 'hatchling',
        individualCount: total.emerged,
      }),
    ),
    ...(emergence.boil === null || emergence.boilBy !== 'tracks'
      ? []
      : [
          occurrence(record, trackBoilEventId(record, emergence.boil), {
            lifeStage: 'hatchling',
            organismQuantity: emergence.boilTracks,
            organismQuantityType: 'tracks of hatchlings',
          }),
        ]),
    ...record.inventories.map(({ fact }) => found(record, fact)),
  ]);
  return dwcTable('occurrence', 'occurrence.csv', terms, rows);
}

function found(record: NestRecord, { id, details }: FactOf<'inventory-recorded'>): OccurrenceRow {
  const left = (details.live_in_nest ?? 0) + (details.dead_in_nest ?? 0);
  const isLeft = left > 0;
  return occurrence(record, id, {
    lifeStage: isLeft ? 'hatchling' : 'egg',
    individualCount: isLeft ? left : (details.unhatched ?? null),
    occurrenceRemarks: isLeft ? 'hatchlings still in the nest' : 'eggs that had not hatched',
  });
}

function occurrence(
  { nest }: NestRecord,
  event: string,
  values: OccurrenceRow['values'],
): OccurrenceRow {
  const taxon =
    nest.species === null ? anySpecies : { scientificName: nest.species, taxonRank: 'species' };
  const isNone = values.individualCount === 0;
  return {
    event,
    values: {
      occurrenceID: occurrenceId(event),
      basisOfRecord: 'HumanObservation',
      occurrenceStatus: isNone ? 'absent' : 'present',
      ...taxon,
      ...values,
    },
  };
}
