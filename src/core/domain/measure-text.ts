import { fixedText, numberText } from './locale.ts';
import { type Measures, differenceToFahrenheit, foot_m, mile_m, toFahrenheit } from './measures.ts';

/** A length as one says it: `120 m`, `1.2 km`; `394 ft`, `1.1 mi`. */
export function lengthText(length_m: number, measures: Measures): string {
  const { near, far } = unitsOf(measures);
  const whole = Math.round(length_m / near.size_m);
  return Math.abs(whole) * near.size_m < far.size_m
    ? near.text(numberText(whole))
    : far.text(numberText(roundedTo(length_m / far.size_m, 1)));
}

/** A length or a place along the shore to find something by: whole metres or feet, however many. */
export function wholeLengthText(length_m: number, measures: Measures): string {
  const { near } = unitsOf(measures);
  return near.text(numberText(Math.round(length_m / near.size_m)));
}

/** A length that is known or meant roughly, in two figures: `40 m`, `11 km`; `130 ft`, `6.9 mi`. */
export function roughLengthText(length_m: number, measures: Measures): string {
  const { near, far } = unitsOf(measures);
  const { size_m, text } = Math.abs(length_m) < far.size_m ? near : far;
  return text(numberText(Number((length_m / size_m).toPrecision(2))));
}

/** A temperature: `16.75 °C`, `62.2 °F`. */
export function temperatureText(temperature_c: number, measures: Measures): string {
  switch (measures) {
    case 'metric':
      return `${numberText(temperature_c)} °C`;
    case 'feet':
      return `${fixedText(toFahrenheit(temperature_c), 1)} °F`;
  }
}

/** By how much something is warmer or cooler: `0.4 °C`, `0.72 °F`. */
export function temperatureDifferenceText(difference_c: number, measures: Measures): string {
  switch (measures) {
    case 'metric':
      return `${numberText(difference_c)} °C`;
    case 'feet':
      return `${numberText(roundedTo(differenceToFahrenheit(difference_c), 2))} °F`;
  }
}

/** Degree days, whole ones: 708 of °C are `1274` of °F. */
export function degreeDaysText(degreeDays_c: number, measures: Measures): string {
  switch (measures) {
    case 'metric':
      return numberText(degreeDays_c);
    case 'feet':
      return fixedText(differenceToFahrenheit(degreeDays_c), 0);
  }
}

interface LengthUnit {
  readonly size_m: number;
  readonly text: (number: string) => string;
}

/** The unit of lengths close by, and the one from whose size on they are far. */
function unitsOf(measures: Measures): { readonly near: LengthUnit; readonly far: LengthUnit } {
  switch (measures) {
    case 'metric':
      return {
        near: { size_m: 1, text: (number) => `${number} m` },
        far: { size_m: 1000, text: (number) => `${number} km` },
      };
    case 'feet':
      return {
        near: { size_m: foot_m, text: (number) => `${number} ft` },
        far: { size_m: mile_m, text: (number) => `${number} mi` },
      };
  }
}

function roundedTo(value: number, digits: number): number {
  return Number(value.toFixed(digits));
}
