import type { InventoryDetails } from '../../domain/inventory.ts';
import type { VisitDetails } from '../../domain/visit.ts';
import type { EmergenceTotal } from '../../emergence/emergence-total.ts';
import { categories, successOf } from '../../inventory/success.ts';
import type { FactOf } from '../../log/season-record.ts';
import { orientationOf } from '../../orientation/orientation-of.ts';
import { emergenceEventId, nestEventId, type NestToWrite } from './dwc-events.ts';
import { occurrenceId } from './dwc-occurrences.ts';
import { type DwcRow, type DwcTable, dwcTable } from './dwc-table.ts';

/** Columns of the table of measurements and facts, after the id of their event. */
const terms = [
  'measurementID',
  'occurrenceID',
  'measurementType',
  'measurementValue',
  'measurementUnit',
  'measurementMethod',
  'measurementDeterminedDate',
] as const;

/** One thing measured or noted; a null value is left out. */
interface Measured {
  readonly type: string;
  readonly value: string | number | boolean | null | undefined;
  readonly unit?: string;
  readonly method?: string;
}

/** The table of measurements and facts: what visits saw, what became of hatchlings, inventories, bearings. */
export function dwcMeasurements(nests: readonly NestToWrite[]): DwcTable {
  const rows = nests.flatMap(({ record, emergence }) => {
    const { nest, notes, inventories, orientations } = record;
    const lay = record.registration.fact.details.lay_night ?? null;
    return [
      ...rowsOf(nestEventId(record), occurrenceId(nestEventId(record)), lay, [
        { type: 'clutch size', value: nest.clutch_eggs, unit: 'eggs' },
        { type: 'clutch relocated', value: nest.relocated },
        { type: 'nest screened', value: nest.screened },
        {
          type: 'exposure to lamps',
          value: nest.lightExposure,
          method: '0 dark .. 3 lamps in view',
        },
      ]),
      ...[...notes.values()]
        .filter(({ withdrawn }) => !withdrawn)
        .flatMap(({ fact }) => rowsOf(fact.id, null, fact.at, seen(fact.details))),
      ...emergence.totals.flatMap((total) => {
        const event = emergenceEventId(record, total);
        return rowsOf(event, occurrenceId(event), null, fates(total));
      }),
      ...orientations.flatMap(({ fact }) =>
        rowsOf(fact.id, null, fact.details.night, bearings(fact)),
      ),
      ...inventories.flatMap(({ fact }) =>
        rowsOf(
          fact.id,
          occurrenceId(fact.id),
          fact.details.date,
          contents(fact.details, nest.clutch_eggs),
        ),
      ),
    ];
  });
  return dwcTable('measurement', 'extended-measurement-or-fact.csv', terms, rows);
}

function rowsOf(
  event: string,
  occurrenceID: string | null,
  measurementDeterminedDate: string | null,
  measured: readonly Measured[],
): readonly DwcRow<(typeof terms)[number]>[] {
  return measured.flatMap(({ type, value, unit, method }) => {
    if (value === null || value === undefined) return [];
    return {
      event,
      values: {
        measurementID: `${event}:${type.replaceAll(' ', '-')}`,
        occurrenceID,
        measurementType: type,
        measurementValue: typeof value === 'boolean' ? (value ? 'yes' : 'no') : value,
        measurementUnit: unit ?? null,
        measurementMethod: method ?? null,
        measurementDeterminedDate,
      },
    };
  });
}

function seen(details: VisitDetails): readonly Measured[] {
  const instrument = details.instrument ?? 'the ear';
  return [
    { type: 'surface above the clutch', value: details.surface, method: 'by eye' },
    { type: 'sound from the nest', value: details.sound, method: `heard by ${instrument}` },
    { type: 'hatchling tracks', value: details.tracks, unit: 'tracks', method: 'counted at dawn' },
    { type: 'wind', value: details.wind },
    { type: 'rain', value: details.rain },
    { type: 'mishap', value: details.event },
    { type: 'hatchlings seen emerging', value: details.emerged, unit: 'hatchlings' },
    { type: 'scratching', value: details.scratch_per_min, unit: 'events per minute' },
    { type: 'level over the noise floor', value: details.level_db, unit: 'dB' },
  ];
}

function fates({ reachedWater, astray, taken }: EmergenceTotal): readonly Measured[] {
  return [
    { type: 'hatchlings that reached the water', value: reachedWater, unit: 'hatchlings' },
    { type: 'hatchlings that went astray', value: astray, unit: 'hatchlings' },
    { type: 'hatchlings taken by animals', value: taken, unit: 'hatchlings' },
  ];
}

function bearings({ details }: FactOf<'orientation-recorded'>): readonly Measured[] {
  const { n, mean, fan, main, offset, seaward_deg } = orientationOf(details);
  const fromNorth = 'clockwise from true north';
  const degrees = (type: string, value: number | null | undefined, method: string): Measured => ({
    type,
    value: value === null || value === undefined ? value : Number(value.toFixed(2)),
    unit: 'degrees',
    method,
  });
  return [
    { type: 'hatchling tracks counted', value: details.tracks_counted, unit: 'tracks' },
    { type: 'disoriented hatchlings', value: details.disoriented, unit: 'hatchlings' },
    degrees('line to the sea', seaward_deg, fromNorth),
    degrees('mean direction of tracks', mean?.mean_deg, `${n} tracks, ${fromNorth}`),
    { type: 'mean resultant length', value: mean === null ? null : Number(mean.r.toFixed(4)) },
    degrees('width of the fan', fan?.width_deg, 'from the leftmost track to the rightmost'),
    degrees('offset from the line to the sea', offset?.offset_deg, `of the ${main?.from ?? ''}`),
    { type: 'moon', value: details.moon },
    { type: 'cloud', value: details.cloud },
    { type: 'likely source of light', value: details.light_source },
  ];
}

function contents(details: InventoryDetails, eggsLaid: number | null): readonly Measured[] {
  const { hatch, emergence, denominator, clutch } = successOf(details, eggsLaid);
  const method = `of ${clutch ?? ''} eggs, ${denominator === 'laid' ? 'counted at laying' : 'by the contents'}`;
  const rounded = (value: number | null): number | null =>
    value === null ? null : Number(value.toFixed(4));
  return [
    ...categories.map((category) => ({
      type: category.replaceAll('_', ' '),
      value: details[category],
      method: 'counted in the nest',
    })),
    { type: 'hatching success', value: rounded(hatch), method },
    { type: 'emergence success', value: rounded(emergence), method },
  ];
}
