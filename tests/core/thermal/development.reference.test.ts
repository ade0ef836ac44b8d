import { describe, expect, test } from 'vitest';
import type { Species } from '../../../src/core/domain/species.ts';
import { developmentDays, developmentLine } from '../../../src/core/thermal/development.ts';

/**
 * Constant temperature (degrees C) -> mean days from laying to hatching, as read from the ROSIE
 * data set (Krueger & Janzen 2022, CC BY 4.0). Where a source gives a range, its middle stands
 * here. `sd_d` = what a line through the set leaves, computed from the same data.
 */
const INCUBATORS: Partial<Record<Species, { sd_d: number; places: Record<string, number[][]> }>> = {
  'Caretta caretta': {
    sd_d: 2.3,
    places: {
      'Bald Head (Mrosovsky 1988 Can J Zool 66:661-669)': [
        [28, 65],
        [28.5, 60.9],
        [29, 56.8],
        [29.3, 54.8],
        [29.7, 53.3],
        [30, 52.1],
        [30.5, 51],
        [31, 48.8],
      ],
      'Cumberland Island (Mrosovsky 1988)': [
        [29, 59.2],
        [29.3, 57.1],
        [30, 55],
        [30.9, 50.8],
      ],
      'Hobe Sound (Mrosovsky 1988)': [
        [29, 58.8],
        [29.3, 56.6],
        [30, 53.3],
        [30.9, 50.3],
      ],
      'Kyparissia (Mrosovsky, Kamel, Rees & Margaritoulis 2002 Can J Zool 80:2118-2124)': [
        [27.5, 65.5],
        [27.7, 65.3],
        [28.7, 57.9],
        [28.9, 56.5],
        [29.4, 54.8],
        [29.6, 53.1],
        [30.9, 47.1],
        [31.2, 47],
        [31.4, 46.4],
      ],
      'Praia do Forte (Marcovaldi, Godfrey & Mrosovsky 1997 Can J Zool 75:755-770)': [
        [27.9, 63.9],
        [28.5, 62.8],
        [29.2, 57],
        [29.5, 55.8],
        [29.9, 54.2],
        [31.1, 50.4],
      ],
      'Queensland (Limpus, Reed & Miller 1985, Biology of Australasian Frogs and Reptiles 343-351)':
        [
          [25, 89.35],
          [26, 82.6],
          [27, 68.4],
          [27.5, 65.8],
          [28, 63.5],
          [29, 55.3],
          [30, 53.95],
          [30.5, 51.95],
          [31, 50.9],
          [32, 47.8],
        ],
      'Tongaland (Maxwell 1987 MSc thesis, Univ. Durban-Westville)': [
        [27.9, 65],
        [29.2, 58],
        [29.7, 55],
        [30.2, 54],
        [30.7, 52],
        [31.2, 51],
        [32.2, 49],
        [32.8, 47],
      ],
    },
  },
  'Chelonia mydas': {
    sd_d: 3.2,
    places: {
      'Heron Island (Booth, Burgess, McCosker & Lanyon 2004 Int Congr Ser 1275:226-233)': [
        [26, 80.6],
        [28, 62.65],
        [30, 52.6],
      ],
      'Ningaloo (Stubbs & Mitchell 2018 Physiol Biochem Zool 91:1102-1114)': [
        [27, 65.7],
        [29, 50.8],
        [30, 47.7],
        [31, 45.6],
        [32, 43.8],
      ],
      'Ogasawara (Tokunaga 1991 Umigame Newsletter of Japan 7:3-7)': [
        [28, 63.4],
        [29, 57.2],
        [30, 53.6],
        [31, 51.4],
      ],
    },
  },
  'Eretmochelys imbricata': {
    sd_d: 1,
    places: {
      'Antigua (Mrosovsky, Bass, Corliss, Richardson & Richardson 1992 Can J Zool 70:1920-1925)': [
        [26.4, 79.6],
        [26.9, 77.7],
        [27.9, 69.8],
        [28.4, 65.6],
        [29, 62.3],
        [29.5, 59],
        [30, 57.5],
        [30.3, 56.8],
        [30.8, 54.2],
      ],
      "Bahia (Godfrey, D'Amato, Marcovaldi & Mrosovsky 1999 Can J Zool 77:1465-1473)": [
        [28.15, 66.9],
        [28.65, 66.3],
        [29.15, 62.5],
        [29.55, 61.7],
        [29.75, 60.2],
        [30.05, 57.5],
        [30.65, 56.7],
      ],
    },
  },
  'Lepidochelys olivacea': {
    sd_d: 4.9,
    places: {
      'Nancite (Wibbels, Rostal & Byles 1998 Copeia 1998:1086-1088)': [
        [27, 70.4],
        [29.4, 57.7],
        [30.4, 53.9],
        [32, 51.7],
      ],
      'Gahirmatha (Mohanty-Hejmadi, Behra & Dimond 1985, symposium proceedings)': [
        [26.5, 76],
        [28, 75],
        [29.5, 58],
        [30, 55],
        [31, 51],
        [31.5, 45],
      ],
    },
  },
  'Dermochelys coriacea': {
    sd_d: 3.1,
    places: {
      'the Guianas (Rimblot, Fretey, Mrosovsky, Lescure & Pieau 1985 Amphibia-Reptilia 6:83-92)': [
        [28, 70.5],
        [28.25, 69],
        [28.75, 61],
        [30.5, 62],
        [32, 56],
      ],
    },
  },
  'Natator depressus': {
    sd_d: 1.7,
    places: {
      'Peak Island (Hewavisenthi & Parmenter 2000 Aust J Zool 48:653-659)': [[29.5, 49.7]],
    },
  },
};

/** Days to hatch at a constant temperature inside the clutch. */
const hatching_d = (species: Species, at_c: number): number =>
  developmentDays(
    developmentLine(species),
    () => at_c,
    () => 0,
  );

describe.each(Object.entries(INCUBATORS))('%s', (species, { sd_d, places }) => {
  const off = Object.values(places)
    .flat()
    .map(([at_c, days]) => hatching_d(species as Species, at_c!) - days!);

  test.each(Object.entries(places))('takes the days in an incubator as at %s', (_, pairs) => {
    // Places differ in level as well: twice the residual SD holds 19 pairs in 20, a mean of a place
    // always.
    const mean = pairs.reduce((sum, [at_c, days]) => {
      return sum + hatching_d(species as Species, at_c!) - days!;
    }, 0);
    expect(Math.abs(mean / pairs.length)).toBeLessThan(sd_d * 1.5);
  });

  test('leaves no more than the residual of a line fitted to all places', () => {
    // 15 % more, for the constants are rounded and not every pair of the fit is on file here.
    const rms = Math.sqrt(off.reduce((sum, each) => sum + each ** 2, 0) / off.length);
    expect(rms).toBeLessThan(sd_d * 1.15);
    const far = off.filter((each) => Math.abs(each) > 2 * sd_d);
    expect(far.length).toBeLessThanOrEqual(Math.max(1, off.length / 20));
  });
});

test('708 degree days over 16.78 C make 57.94 days at 29 C', () => {
  const line = { zero_c: 16.78, degreeDays: 708, toBoil_nights: 0 };
  const days = developmentDays(
    line,
    () => 29,
    () => 0,
  );
  expect(days).toBeCloseTo(57.94, 2);
  // The line in use rounds 16.78 to 16.8: a tenth of a day.
  expect(Math.abs(hatching_d('Caretta caretta', 29) - 57.94)).toBeLessThan(0.15);
});

test('Kemp’s ridley comes up as boxed clutches of known warmth did at Padre Island', () => {
  // days = 125.5 - 2.54 T at 29.6-32.5 C, residual SD 1.5 d (22 clutches, Shaver 2004 NPS report,
  // line
  // computed from ROSIE); tolerance twice that.
  const line = developmentLine('Lepidochelys kempii');
  for (const inside_c of [29.6, 30, 31, 32]) {
    const up = hatching_d('Lepidochelys kempii', inside_c) + line.toBoil_nights;
    expect(Math.abs(up - (125.5 - 2.54 * inside_c))).toBeLessThan(3);
  }
});

test('loggerheads come up as field nests of known warmth did', () => {
  // Lines computed from ROSIE, at temperatures within each study; tolerance twice the residual SD,
  // at least 2 d.
  const studies = [
    { base: 264.2, slope: 7.04, sd_d: 1.3, at_c: [28.9, 29.3, 29.8] }, // LeBlanc et al. 2012, Georgia
    { base: 208.5, slope: 5.21, sd_d: 2.5, at_c: [28.5, 29.5, 30.5] }, // Sari & Kaska 2015, Dalyan
    { base: 171.3, slope: 3.87, sd_d: 0.9, at_c: [29, 30, 31] }, // Kaska et al. 2006, Fethiye
  ];
  const line = developmentLine('Caretta caretta');
  for (const { base, slope, sd_d, at_c } of studies) {
    for (const inside_c of at_c) {
      const up = hatching_d('Caretta caretta', inside_c) + line.toBoil_nights;
      expect(Math.abs(up - (base - slope * inside_c))).toBeLessThan(Math.max(2, 2 * sd_d));
    }
  }
});
