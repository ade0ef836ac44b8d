import type { NestForecast, Reason, SeasonLevel } from '../../../core/forecast/forecast.ts';
import type { Night } from '../../../core/domain/night.ts';
import { chanceText } from '../note/chance-text.ts';
import { fixedText } from '../../../core/domain/locale.ts';

/** How a chance is marked in drawings: by size, filling and label, never by colour alone. */
export type ChanceClass = 'high' | 'middle' | 'low';
export const highFrom = 0.2;
export const middleFrom = 0.05;

export function chanceClass(pTonight: number): ChanceClass {
  return pTonight >= highFrom ? 'high' : pTonight >= middleFrom ? 'middle' : 'low';
}

/** `38 percent`, `less than 1 percent`: a chance to be heard. */
export function spokenChance(p: number): string {
  const text = chanceText(p);
  const percent = text.replace(/[^0-9.,]/g, '');
  if (text.startsWith('<')) return `less than ${percent} percent`;
  if (text.startsWith('>')) return `more than ${percent} percent`;
  return `${percent} percent`;
}

/** `2 nights left (0 to 7)`: the median and the central 80 %, given that it has yet to come up. */
export function nightsLeft(forecast: NestForecast, tonight: Night): string {
  const span = spanOf(forecast, tonight);
  const nights = medianLeft(forecast, tonight);
  return span === null ? nights : `${nights} (${span.from} to ${span.to})`;
}

function medianLeft({ medianNight }: NestForecast, tonight: Night): string {
  if (medianNight === null) return 'likely past, or never';
  const left = medianNight - tonight;
  return left === 0 ? 'due tonight' : left === 1 ? '1 night left' : `${left} nights left`;
}

/** The nights from tonight to the ends of the central 80 %; null where there is but one, or none. */
function spanOf({ medianNight, lowNight, highNight }: NestForecast, tonight: Night) {
  if (medianNight === null || lowNight === null || highNight === null) return null;
  return lowNight === highNight ? null : { from: lowNight - tonight, to: highNight - tonight };
}

/** `12`, `<1`: hatchlings expected to go astray tonight if nobody sits there. */
export function stakeText(hatchlings: number): string {
  return hatchlings < 0.5 ? '<1' : String(Math.round(hatchlings));
}

/** A nest's line as a sentence for a screen reader. */
export function spokenNest(forecast: NestForecast, cue: string | null, tonight: Night): string {
  const span = spanOf(forecast, tonight);
  const nights = medianLeft(forecast, tonight);
  const left = span === null ? nights : `${nights} between ${span.from} and ${span.to}`;
  const { id } = forecast.record.nest;
  return `Nest ${id}, ${spokenChance(forecast.pTonight)} tonight, ${cue ?? 'no look yet'}, ${left}`;
}

/** `×3.4`, `×0.62`: how a piece of evidence multiplied the odds. */
export function factorText({ factor }: Reason): string {
  if (factor >= 100) return '×100 or more';
  if (factor < 0.01) return '×less than 0.01';
  return `×${factor >= 10 ? fixedText(factor, 0) : factor >= 0.1 ? fixedText(factor, 1) : fixedText(factor, 2)}`;
}

/** `This season runs 2 nights later than usual (from 31 nests up, 40 waiting).` */
export function levelWords({ days, emerged, waiting }: SeasonLevel): string {
  if (emerged === 0 && waiting === 0) {
    return 'Too early to say whether this season runs early or late.';
  }
  const nights = Math.round(Math.abs(days));
  const how =
    nights === 0
      ? 'about as usual'
      : `${nights} ${nights === 1 ? /* @wc-include */ 'night' : /* @wc-include */ 'nights'} ${days > 0 ? /* @wc-include */ 'later' : /* @wc-include */ 'earlier'} than usual`;
  return `This season runs ${how} (from ${emerged} ${emerged === 1 ? /* @wc-include */ 'nest' : /* @wc-include */ 'nests'} up, ${waiting} waiting).`;
}
