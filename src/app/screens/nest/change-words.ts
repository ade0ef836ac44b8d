import { numberText } from '../../../core/domain/locale.ts';
import { type Measures, lengthToType } from '../../../core/domain/measures.ts';
import { parseInstant } from '../../../core/domain/instant.ts';
import type { Change, Version } from '../../../core/log/history.ts';
import { dateText, hourText } from '../note/words.ts';
import { valueWord, yesNoWord } from '../../../core/domain/code-words.ts';

/** What one version of a note did, in words: `surface from dip to depression; wind: calm`. */
export function changeWords(version: Version, zone: string, measures: Measures): string {
  switch (version.did) {
    case 'recorded':
      return /* @wc-include */ 'recorded';
    case 'withdrawn':
      return /* @wc-include */ 'withdrawn';
    case 'restored':
      return 'put back';
    case 'no effect':
      return 'changed nothing';
    case 'changed':
      return version.changes.map((change) => oneChange(change, zone, measures)).join('; ');
  }
}

const names: Readonly<Record<string, string>> = {
  surface: /* @wc-include */ 'surface',
  sound: /* @wc-include */ 'sound',
  instrument: /* @wc-include */ 'instrument',
  wind: /* @wc-include */ 'wind',
  rain: /* @wc-include */ 'rain',
  tracks: /* @wc-include */ 'tracks',
  note: /* @wc-include */ 'note',
  observer: /* @wc-include */ 'observer',
  experience: /* @wc-include */ 'experience',
  nest: /* @wc-include */ 'nest',
  zone: /* @wc-include */ 'zone',
  species: /* @wc-include */ 'species',
  latitude: /* @wc-include */ 'latitude',
  longitude: /* @wc-include */ 'longitude',
  relocated: /* @wc-include */ 'relocated',
  screened: /* @wc-include */ 'screened',
  kind: /* @wc-include */ 'kind',
  at: /* @wc-include */ 'time',
  event: /* @wc-include */ 'mishap',
  watched_from: 'watched from',
  watched_to: 'watched until',
  emerged: 'seen coming up',
  lay_night: /* @wc-include */ 'laid',
  lay_night_latest: 'laid at the latest',
  shore_m: 'metres along the shore',
  clutch: /* @wc-include */ 'eggs',
  light_exposure: /* @wc-include */ 'lamps',
  first_out: 'first out',
  last_out: 'last out',
  scratch_per_min: 'scratches a minute',
  active_share: 'share of time active',
  level_db: /* @wc-include */ 'level',
  meter_quiet: 'meter: quiet',
  meter_occasional: 'meter: occasional',
  meter_steady: 'meter: steady',
  meter_waterfall: 'meter: waterfall',
};

function oneChange({ field, from, to }: Change, zone: string, measures: Measures): string {
  const isLength = field === 'shore_m';
  const name =
    isLength && measures === 'feet'
      ? 'feet along the shore'
      : (names[field] ?? field.replaceAll('_', ' '));
  const text = (value: unknown): string =>
    isLength && typeof value === 'number'
      ? numberText(lengthToType(value, measures))
      : valueText(value, zone);
  if (to === undefined || to === null) return `${name} taken out (was ${text(from)})`;
  if (from === undefined || from === null) return `${name}: ${text(to)}`;
  return `${name} from ${text(from)} to ${text(to)}`;
}

function valueText(value: unknown, zone: string): string {
  if (typeof value === 'boolean') return yesNoWord(value);
  if (typeof value === 'number') return numberText(value);
  if (typeof value !== 'string') return JSON.stringify(value);
  const at_ms = parseInstant(value);
  return at_ms === null ? valueWord(value) : `${dateText(at_ms, zone)} ${hourText(at_ms, zone)}`;
}
