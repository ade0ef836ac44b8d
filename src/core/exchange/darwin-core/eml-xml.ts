import type { NightText } from '../../domain/night.ts';
import { type Species } from '../../domain/species.ts';
import { xmlText } from './xml-text.ts';

/** What is said of a data set as a whole. */
export interface DataSet {
  readonly programme: string;
  readonly isInvented: boolean;
  /** Date on which the archive is made. */
  readonly madeOn: NightText;
  /** Dates of the first and last thing in it; null when nothing has a date. */
  readonly dates: readonly [string, string] | null;
  /** West, south, east, north of what is shown; null without positions. */
  readonly box: readonly [number, number, number, number] | null;
  readonly species: readonly Species[];
  /** What was done to positions; null = nothing. */
  readonly generalised: string | null;
}

/**
 * `eml.xml`: the description of a data set in the Ecological Metadata Language 2.2.0, the elements that
 * GBIF's profile 1.3 asks for. Who may use the data is the programme's to say: nothing is licensed here.
 */
export function emlXml(set: DataSet): string {
  const { programme, madeOn } = set;
  const title = `Sea turtle nests of ${programme}`;
  const party = `<organizationName>${xmlText(programme)}</organizationName>`;
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    '<eml:eml xmlns:eml="https://eml.ecoinformatics.org/eml-2.2.0"',
    `    packageId="${xmlText(`firstdark/${slug(programme)}/${madeOn}`)}" system="firstdark" scope="system" xml:lang="en">`,
    '  <dataset>',
    `    <title xml:lang="en">${xmlText(title)}</title>`,
    `    <creator>${party}</creator>`,
    `    <metadataProvider>${party}</metadataProvider>`,
    `    <pubDate>${madeOn}</pubDate>`,
    '    <language>en</language>',
    `    <abstract><para>${xmlText(abstractOf(set))}</para></abstract>`,
    '    <intellectualRights><para>No licence is given with this file. Ask the programme before you use or pass on these data.</para></intellectualRights>',
    ...coverage(set),
    `    <contact>${party}</contact>`,
    '  </dataset>',
    '</eml:eml>',
    '',
  ].join('\n');
}

function abstractOf({ isInvented, generalised }: DataSet): string {
  const invented = isInvented ? 'Invented for demonstration: nothing in it is real. ' : '';
  const places =
    generalised === null
      ? 'Positions are as they were taken and are sensitive. '
      : `Positions are generalised (${generalised}); the true ones are withheld. `;
  return `${invented}Nests watched by volunteers and permit holders: visits, emergences, tracks and inventories. Each nest is an event; what happened at it are events within it. ${places}`.trim();
}

function coverage({ box, dates, species }: DataSet): readonly string[] {
  const geographic =
    box === null
      ? []
      : [
          '      <geographicCoverage>',
          '        <geographicDescription>The nesting beaches of the programme</geographicDescription>',
          '        <boundingCoordinates>',
          `          <westBoundingCoordinate>${box[0]}</westBoundingCoordinate>`,
          `          <eastBoundingCoordinate>${box[2]}</eastBoundingCoordinate>`,
          `          <northBoundingCoordinate>${box[3]}</northBoundingCoordinate>`,
          `          <southBoundingCoordinate>${box[1]}</southBoundingCoordinate>`,
          '        </boundingCoordinates>',
          '      </geographicCoverage>',
        ];
  const temporal =
    dates === null
      ? []
      : [
          '      <temporalCoverage><rangeOfDates>',
          `        <beginDate><calendarDate>${dates[0]}</calendarDate></beginDate>`,
          `        <endDate><calendarDate>${dates[1]}</calendarDate></endDate>`,
          '      </rangeOfDates></temporalCoverage>',
        ];
  const taxonomic =
    species.length === 0
      ? []
      : [
          '      <taxonomicCoverage>',
          ...species.map(
            (name) =>
              `        <taxonomicClassification><taxonRankName>species</taxonRankName><taxonRankValue>${name}</taxonRankValue></taxonomicClassification>`,
          ),
          '      </taxonomicCoverage>',
        ];
  const all = [...geographic, ...temporal, ...taxonomic];
  return all.length === 0 ? [] : ['    <coverage>', ...all, '    </coverage>'];
}

function slug(text: string): string {
  return text
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '');
}
