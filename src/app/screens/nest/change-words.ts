import { parseInstant } from '../../../core/domain/instant.ts';
import type { Change, Version } from '../../../core/log/history.ts';
import { dateText, hourText } from '../note/words.ts';

/** What one version of a note did, in words: `surface from dip to depression; wind: calm`. */
export function changeWords(version: Version, zone: string): string {
  switch (version.did) {
    case 'recorded':
      return 'recorded';
    case 'withdrawn':
      return 'withdrawn';
    case 'restored':
      return 'put back';
    case 'no effect':
      return 'changed nothing';
    case 'changed':
      return version.changes.map((change) => oneChange(change, zone)).join('; ');
  }
}

const names: Readonly<Record<string, string>> = {
  at: 'time',
  event: 'mishap',
  watched_from: 'watched from',
  watched_to: 'watched until',
  emerged: 'seen coming up',
  lay_night: 'laid',
  lay_night_latest: 'laid at the latest',
  shore_m: 'metres along the shore',
  clutch: 'eggs',
  light_exposure: 'lamps',
  first_out: 'first out',
  last_out: 'last out',
  scratch_per_min: 'scratches a minute',
  active_share: 'share of time active',
  level_db: 'level',
  meter_quiet: 'meter: quiet',
  meter_occasional: 'meter: occasional',
  meter_steady: 'meter: steady',
  meter_waterfall: 'meter: waterfall',
};

function oneChange({ field, from, to }: Change, zone: string): string {
  const name = names[field] ?? field.replaceAll('_', ' ');
  if (to === undefined || to === null) return `${name} taken out (was ${valueText(from, zone)})`;
  if (from === undefined || from === null) return `${name}: ${valueText(to, zone)}`;
  return `${name} from ${valueText(from, zone)} to ${valueText(to, zone)}`;
}

function valueText(value: unknown, zone: string): string {
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'number') return String(value);
  if (typeof value !== 'string') return JSON.stringify(value);
  const at_ms = parseInstant(value);
  return at_ms === null ? value : `${dateText(at_ms, zone)} ${hourText(at_ms, zone)}`;
}
