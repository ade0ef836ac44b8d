import { wholeLengthText } from '../../../core/domain/measure-text.ts';
import type { Measures } from '../../../core/domain/measures.ts';
import type { Nest } from '../../../core/domain/nest.ts';
import type { Night } from '../../../core/domain/night.ts';
import { positionText } from '../../../core/domain/position-text.ts';
import { commonName } from '../../../core/domain/species.ts';
import type { NestForecast } from '../../../core/forecast/forecast.ts';
import { nightText } from '../../../core/domain/night-text.ts';
import { yesNoWord } from '../../../core/domain/code-words.ts';

/** One line of a nest's record; `value` null = not known. */
export interface NestFact {
  readonly name: string;
  readonly value: string | null;
}

/** A nest's record as lines to read, in the order in which one would ask. */
export function nestFacts(
  nest: Nest,
  tonight: Night,
  forecast: NestForecast | null,
  measures: Measures,
): readonly NestFact[] {
  const { latitude_deg, longitude_deg } = nest;
  return [
    { name: /* @wc-include */ 'laid', value: laidText(nest) },
    { name: 'age tonight', value: ageText(nest, tonight, forecast) },
    {
      name: /* @wc-include */ 'species',
      value: nest.species === null ? null : `${commonName(nest.species)}, ${nest.species}`,
    },
    {
      name: /* @wc-include */ 'eggs',
      value: nest.clutch_eggs === null ? null : String(nest.clutch_eggs),
    },
    { name: /* @wc-include */ 'zone', value: nest.zone },
    {
      name: 'along the shore',
      value:
        nest.shore_m === null
          ? null
          : `${wholeLengthText(nest.shore_m, measures)} from the zone’s origin`,
    },
    {
      name: /* @wc-include */ 'position',
      value:
        latitude_deg === null || longitude_deg === null
          ? null
          : positionText(latitude_deg, longitude_deg),
    },
    { name: /* @wc-include */ 'relocated', value: yesNo(nest.relocated) },
    { name: /* @wc-include */ 'screened', value: yesNo(nest.screened) },
    {
      name: /* @wc-include */ 'lamps',
      value: nest.lightExposure === null ? null : lampWords(nest.lightExposure),
    },
  ];
}

/** Exposure to lamps in words, 0..3. */
export function lampWords(exposure: number): string {
  const words = [/* @wc-include */ 'dark', 'a glow', 'lamps near', 'lamps in direct view'];
  return `${exposure}: ${words[exposure] ?? ''}`;
}

function laidText({ layNight, layNightLatest }: Nest): string | null {
  if (layNight === null) return null;
  if (layNightLatest === null || layNightLatest === layNight) return nightText(layNight);
  return `${nightText(layNight)} to ${nightText(layNightLatest)}`;
}

function ageText(nest: Nest, tonight: Night, forecast: NestForecast | null): string | null {
  const known =
    nest.layNight === null
      ? null
      : { from: tonight - (nest.layNightLatest ?? nest.layNight), to: tonight - nest.layNight };
  const age = forecast?.age ?? known;
  if (age === null) return null;
  return age.from === age.to ? `${age.to} nights` : `${age.from} to ${age.to} nights`;
}

const yesNo = (value: boolean | null): string | null => (value === null ? null : yesNoWord(value));
