import { readSpecies, type Species } from '../../domain/species.ts';
import { Denominator } from '../../domain/inventory.ts';
import {
  Counting,
  Emergence,
  Experience,
  Instrument,
  Mishap,
  Rain,
  Sound,
  Surface,
  Wind,
} from '../../domain/visit.ts';
import { Role } from '../../domain/volunteer.ts';
import { speciesCell, yesNo } from '../cells/word-cells.ts';
import type { Column } from '../tables/table-spec.ts';
import { plainText } from './plain-words.ts';

/** The words a column of ours holds, and the other ways in which they are surely meant. */
export interface WordList {
  readonly words: readonly string[];
  /** By plain text. */
  readonly meant: ReadonlyMap<string, string>;
}

// Which word means which is common use in English and Spanish, from memory. Words that differ from
// coast to coast (lora, caguama) are left out on purpose: they are asked.
const others: Readonly<
  Record<string, readonly [readonly string[], Readonly<Record<string, string>>]>
> = {
  kind: [
    ['evening', 'morning'],
    {
      evening: 'tarde, noche, vespertina, nocturna, pm, p m, dusk, night, sunset',
      morning: 'manana, matutina, amanecer, am, a m, dawn, sunrise, alba',
    },
  ],
  experience: [
    Experience.options,
    {
      novice: 'novato, novata, nuevo, nueva, principiante, beginner, new',
      trained:
        'capacitado, capacitada, entrenado, entrenada, formado, formada, con formacion, experienced',
      lead: 'lider, jefe, jefa, coordinador, coordinadora, leader, responsable, encargado, encargada',
    },
  ],
  surface: [
    Surface.options,
    {
      smooth: 'liso, lisa, plano, plana, flat, sin cambio, sin cambios, level, no change, normal',
      dip: 'ligera depresion, leve hundimiento, leve depresion, hundimiento leve, ligero hundimiento, slight dip, small dip, slight depression',
      depression: 'depresion, hundimiento, hundido, hundida, hollow, sunken, depressed',
      caved:
        'colapsado, colapsada, colapso, cave in, caved in, collapsed, collapse, derrumbe, derrumbado',
    },
  ],
  sound: [
    Sound.options,
    {
      quiet: 'silencio, silencioso, nada, ninguno, none, silent, no sound, sin sonido',
      occasional: 'ocasional, ocasionales, a veces, intermitente, sporadic, esporadico, some',
      steady: 'constante, continuo, continuos, continuous, constant',
      waterfall: 'cascada, catarata, rush',
    },
  ],
  wind: [
    Wind.options,
    {
      calm: 'calma, sin viento, none, no wind, en calma, calmado',
      breeze: 'brisa, leve, ligero, suave, light, breezy, viento leve',
      strong: 'fuerte, viento fuerte, windy',
    },
  ],
  rain: [
    Rain.options,
    {
      none: 'no, nada, ninguna, sin lluvia, dry, seco, 0',
      light: 'ligera, leve, llovizna, drizzle, lluvia ligera, light rain',
      heavy: 'fuerte, intensa, aguacero, lluvia fuerte, heavy rain',
    },
  ],
  event: [
    Mishap.options,
    {
      washover: 'inundacion, inundado, overwash, wash over, lavado',
      washout: 'wash out, washed out, arrastrado, arrastrado por el mar',
      predation: 'depredacion, depredado, depredada, predated, depredated, saqueo por animales',
      burial: 'enterrado, enterrada, buried, enterramiento',
    },
  ],
  instrument: [
    Instrument.options,
    { stethoscope: 'estetoscopio', microphone: 'microfono, mic', probe: 'sonda' },
  ],
  emergence: [
    Emergence.options,
    { boil: 'emergencia masiva, mass emergence', stragglers: 'rezagados, rezagadas, straggler' },
  ],
  counting: [
    Counting.options,
    { part: 'parte, partial, parcial', whole: 'todo, todos, all, total' },
  ],
  role: [
    Role.options,
    {
      lead: 'lider, leader, coordinador, coordinadora',
      sitter: 'vigilante, voluntario, voluntaria, volunteer',
      'permit holder': 'con permiso, permisionario, permisionaria, permit',
      reader: 'lector, lectora, solo lectura, read only',
    },
  ],
  denominator: [Denominator.options, { laid: 'puestos', contents: 'contenido' }],
};

const yesAndNo: WordList = {
  words: ['yes', 'no'],
  meant: new Map([
    ...['yes', 'y', 'true', '1', 'si', 's', 'x', 'verdadero', 'v'].map(
      (word) => [word, 'yes'] as const,
    ),
    ...['no', 'n', 'false', '0', 'falso'].map((word) => [word, 'no'] as const),
  ]),
};

const speciesNames: Readonly<Record<Species, string>> = {
  'Caretta caretta': 'c caretta, cc, boba, tortuga boba, loggerheads',
  'Chelonia mydas': 'c mydas, cm, verde, tortuga verde, greens',
  'Lepidochelys kempii': 'l kempii, lk, kemp s, kemp, kemps',
  'Lepidochelys olivacea': 'l olivacea, lo, golfina, olivacea, tortuga golfina, tortuga olivacea',
  'Dermochelys coriacea': 'd coriacea, dc, laud, baula, tortuga laud, tortuga baula, tinglar',
  'Eretmochelys imbricata': 'e imbricata, ei, carey, tortuga carey',
  'Natator depressus': 'n depressus, nd',
};

const speciesList: WordList = {
  words: Object.keys(speciesNames),
  meant: meantBy(Object.keys(speciesNames), speciesNames),
};

const lists = new Map<string, WordList>(
  Object.entries(others).map(([column, [words, meant]]) => [
    column,
    { words, meant: meantBy(words, meant) },
  ]),
);

function meantBy(
  words: readonly string[],
  meant: Readonly<Record<string, string>>,
): ReadonlyMap<string, string> {
  return new Map([
    ...Object.entries(meant).flatMap(([word, ways]) =>
      ways.split(', ').map((way) => [way, word] as const),
    ),
    ...words.map((word) => [plainText(word), word] as const),
  ]);
}

/** The words of one of our columns; null when it holds none of a closed list. */
export function wordsOf(column: Column): WordList | null {
  if (column.cell.read === yesNo.read) return yesAndNo;
  if (column.cell.read === speciesCell.read) return speciesList;
  return lists.get(column.name) ?? null;
}

/** The word of ours that a cell surely means; null when it has to be asked. */
export function wordMeant(text: string, list: WordList): string | null {
  const plain = plainText(text);
  if (plain === '' && /^[✓✔☑]$/.test(text.trim())) return list === yesAndNo ? 'yes' : null;
  const word = list.meant.get(plain) ?? null;
  return word ?? (list === speciesList ? readSpecies(text) : null);
}

const NOTHING =
  /^(n\/?a|#n\/?a|n\.a\.|nan|null|-+|–|—|\?+|unknown|desconocid[oa]|s\/?d|s\.d\.|sin datos?|no data|nd|not known|no se sabe)$/i;

/** Whether a cell says in a word that nothing is known. */
export function saysNothing(text: string): boolean {
  return NOTHING.test(text.trim());
}
