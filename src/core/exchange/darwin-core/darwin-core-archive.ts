import { boilTracksOf } from '../../domain/boil-tracks.ts';
import type { NightText } from '../../domain/night.ts';
import { emergenceAt } from '../../emergence/nest-emergence.ts';
import type { SeasonRecord } from '../../log/season-record.ts';
import { boxOf } from '../geojson/bounding-box.ts';
import { type Precision, generalisation } from '../public/generalise.ts';
import { dwcEvents } from './dwc-events.ts';
import { dwcMeasurements } from './dwc-measurements.ts';
import { dwcOccurrences } from './dwc-occurrences.ts';
import { type DwcTable, dwcText } from './dwc-table.ts';
import { emlXml } from './eml-xml.ts';
import { metaXml } from './meta-xml.ts';

/**
 * The files of a Darwin Core Archive by name: an event core (nests as parent events), occurrences and
 * measurements or facts as extensions, `meta.xml` and `eml.xml`. `precision` says to which step the
 * positions of the record were rounded; null = they are as they were taken. `madeOn` = today.
 */
export function darwinCoreArchive(
  record: SeasonRecord,
  precision: Precision | null,
  madeOn: NightText,
): ReadonlyMap<string, string> {
  const { zone, programme } = record;
  const boilTracks = boilTracksOf(programme);
  const nests = [...record.nests.values()].map((nest) => ({
    record: nest,
    emergence: emergenceAt(nest, zone, boilTracks),
  }));
  const events = dwcEvents(nests, zone, precision);
  const extensions = [dwcOccurrences(nests), dwcMeasurements(nests)];
  const positions = nests.flatMap(({ record: { nest } }) =>
    nest.latitude_deg === null || nest.longitude_deg === null
      ? []
      : [[nest.longitude_deg, nest.latitude_deg] as const],
  );
  const eml = emlXml({
    programme: programme.name ?? 'a programme without a name',
    isInvented: programme.invented === true,
    madeOn,
    dates: datesOf(events),
    box: boxOf(positions),
    species: [...new Set(nests.flatMap(({ record: { nest } }) => nest.species ?? []))].sort(),
    generalised: precision === null ? null : generalisation(precision),
  });
  return new Map([
    ['meta.xml', metaXml(events, extensions)],
    ['eml.xml', eml],
    ...[events, ...extensions].map((table) => [table.file, dwcText(table)] as const),
  ]);
}

/** First and last date among the events. */
function datesOf({ rows }: DwcTable): readonly [string, string] | null {
  const dates = rows
    .flatMap(({ values }) => String(values['eventDate'] ?? '').split('/'))
    .filter((text) => text !== '')
    .map((text) => text.slice(0, 10))
    .sort();
  const [first, last] = [dates.at(0), dates.at(-1)];
  return first === undefined || last === undefined ? null : [first, last];
}
