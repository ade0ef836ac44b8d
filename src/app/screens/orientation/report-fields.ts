import { parseNight } from '../../../core/domain/night.ts';
import { lampWords } from '../../../core/domain/code-words.ts';
import { readLamp } from '../../../core/domain/lamp.ts';
import { positionText } from '../../../core/domain/position-text.ts';
import { commonName } from '../../../core/domain/species.ts';
import type { FactOf, NestRecord } from '../../../core/log/season-record.ts';
import type { EmergenceTotal } from '../../../core/emergence/emergence-total.ts';
import { nightText } from '../../../core/domain/night-text.ts';
import { bearingText, cloudText } from './orientation-words.ts';

/** One line of the report; null = to be filled in by hand. */
export interface ReportField {
  readonly name: string;
  readonly value: string | null;
}

export interface ReportGroup {
  readonly title: string;
  readonly fields: readonly ReportField[];
}

/**
 * The fields that agencies commonly ask for of a disorientation (from memory of their forms; one's own
 * form decides), as far as the record fills them in.
 */
export function reportGroups(
  record: NestRecord,
  fact: FactOf<'orientation-recorded'>,
  boil: EmergenceTotal | null,
): readonly ReportGroup[] {
  const { nest } = record;
  const { details } = fact;
  const night = parseNight(details.night);
  const lamps = (details.lamps ?? []).flatMap((text) => readLamp(text) ?? []);
  const field = (name: string, value: string | number | null | undefined): ReportField => ({
    name,
    value: value === null || value === undefined || value === '' ? null : String(value),
  });
  return [
    {
      title: 'Where and when',
      fields: [
        field('Night', night === null ? details.night : `${nightText(night)}, ${details.night}`),
        field('Recorded by', fact.author),
        field('Permit number', null),
        field('Beach and zone', details.zone ?? nest.zone),
        field('Nest', nest.id),
        field('Position', placeOf(record)),
        field(
          'Species',
          nest.species === null ? null : `${commonName(nest.species)}, ${nest.species}`,
        ),
        field('Age class', /* @wc-include */ 'hatchlings'),
      ],
    },
    {
      title: 'Hatchlings',
      fields: [
        field('Came up, as counted', boil?.emerged),
        field('Tracks counted', details.tracks_counted),
        field('Disoriented, estimated', details.disoriented),
        field('Of these reached the sea', details.reached_sea),
        field('Found dead', details.found_dead),
        field('Found alive by the permit holder', details.found_alive),
        field('Not known', details.fate_unknown),
      ],
    },
    {
      title: 'Light and sky',
      fields: [
        field('Likely sources of light', lamps.map(lampWords).join('; ') || details.light_source),
        field(
          'Bearing of each from the nest',
          lamps
            .flatMap(({ bearing_deg }) => bearing_deg ?? [])
            .map(bearingText)
            .join('; '),
        ),
        field('Address of the light', null),
        field('Owner told, and when', null),
        field('Moon', details.moon),
        field('Cloud', cloudText(details.cloud)),
        field('Photographs taken', null),
        field('Remarks', details.note),
      ],
    },
  ];
}

function placeOf({ nest }: NestRecord): string | null {
  const { latitude_deg, longitude_deg } = nest;
  if (latitude_deg === null || longitude_deg === null) return null;
  return positionText(latitude_deg, longitude_deg);
}

/** The report as plain text, for a message or a file. */
export function reportText(
  title: string,
  groups: readonly ReportGroup[],
  figures: readonly ReportField[],
): string {
  const lines = groups.flatMap((group) => [
    group.title,
    ...group.fields.map(({ name, value }) => `  ${name}: ${value ?? '____'}`),
    '',
  ]);
  const tracks = ['Tracks', ...figures.map(({ name, value }) => `  ${name}: ${value ?? '____'}`)];
  return [title, '', ...lines, ...tracks, '', 'Check your agency’s own form.', ''].join('\n');
}
