import { fixedText } from '../../../core/domain/locale.ts';

/** `12 kB`, `3.4 MB`, `1.2 GB`: decimal units, as phones show them. */
export function bytesText(bytes: number): string {
  const units = ['kB', 'MB', 'GB', 'TB'];
  let [value, unit] = [bytes / 1000, 0];
  while (value >= 1000 && unit < units.length - 1) {
    value /= 1000;
    unit += 1;
  }
  return `${value < 10 ? fixedText(value, 1) : fixedText(value, 0)} ${units[unit] ?? ''}`;
}
