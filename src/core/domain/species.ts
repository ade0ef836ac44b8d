import * as z from 'zod/mini';

/** The seven sea turtles, by scientific name. */
export const Species = z.enum([
  'Caretta caretta',
  'Chelonia mydas',
  'Lepidochelys kempii',
  'Lepidochelys olivacea',
  'Dermochelys coriacea',
  'Eretmochelys imbricata',
  'Natator depressus',
]);
export type Species = z.infer<typeof Species>;

/**
 * Common English names and FAO ASFIS 3-alpha codes, lower case.
 * TTL, TTH and FBT stand on the marine turtle identification cards of IOTC and SPC (2011); the
 * other codes are from memory.
 */
// @wc-ignore
const otherNames = new Map<string, Species>(
  Object.entries({
    loggerhead: 'Caretta caretta',
    ttl: 'Caretta caretta',
    green: 'Chelonia mydas',
    tug: 'Chelonia mydas',
    "kemp's ridley": 'Lepidochelys kempii',
    'kemps ridley': 'Lepidochelys kempii',
    lky: 'Lepidochelys kempii',
    'olive ridley': 'Lepidochelys olivacea',
    lkv: 'Lepidochelys olivacea',
    leatherback: 'Dermochelys coriacea',
    dkk: 'Dermochelys coriacea',
    hawksbill: 'Eretmochelys imbricata',
    tth: 'Eretmochelys imbricata',
    flatback: 'Natator depressus',
    fbt: 'Natator depressus',
  } as const),
);

/** The species meant by a scientific name, an English name or an ASFIS code; null when none is. */
export function readSpecies(text: string): Species | null {
  const plain = text.trim().toLowerCase().replace(/\s+/g, ' ').replaceAll('’', "'");
  const exact = Species.options.find((name) => name.toLowerCase() === plain);
  return exact ?? otherNames.get(plain.replace(/ (sea )?turtle$/, '')) ?? null;
}

/** The English name by which sitters call a species. */
export function commonName(species: Species | null): string {
  switch (species) {
    case 'Caretta caretta':
      return /* @wc-include */ 'loggerhead';
    case 'Chelonia mydas':
      return /* @wc-context: turtle */ /* @wc-include */ 'green';
    case 'Lepidochelys kempii':
      return /* @wc-include */ 'Kemp’s ridley';
    case 'Lepidochelys olivacea':
      return /* @wc-include */ 'olive ridley';
    case 'Dermochelys coriacea':
      return /* @wc-include */ 'leatherback';
    case 'Eretmochelys imbricata':
      return /* @wc-include */ 'hawksbill';
    case 'Natator depressus':
      return /* @wc-include */ 'flatback';
    case null:
      return /* @wc-include */ 'species not known';
  }
}
