import fc from 'fast-check';
import { Species } from '../../src/core/domain/species.ts';
import { Emergence, Experience, Mishap, Sound, Surface } from '../../src/core/domain/visit.ts';

/** Cell texts for one column, blank ones among them. */
type Cells = fc.Arbitrary<string>;

const blankOr = (cells: Cells): Cells =>
  fc.oneof({ weight: 1, arbitrary: fc.constant('') }, { weight: 3, arbitrary: cells });
const word = (words: readonly string[]): Cells => blankOr(fc.constantFrom(...words));
const whole = (max: number): Cells => blankOr(fc.nat(max).map(String));
const decimal = (min: number, max: number): Cells =>
  blankOr(fc.double({ min, max, noNaN: true }).map((value) => String(value + 0)));
const date = (from: string, days: number): Cells =>
  fc
    .nat(days)
    .map((day) => new Date(Date.parse(from) + day * 86_400_000).toISOString().slice(0, 10));
const time = (from: string, days: number): Cells =>
  fc
    .tuple(fc.nat(days * 1440), fc.constantFrom('Z', '-04:00', '+05:30'))
    .map(
      ([minute, offset]) =>
        `${new Date(Date.parse(from) + minute * 60_000).toISOString().slice(0, 16)}${offset}`,
    );
/** Free text of awkward letters, never blank by spaces alone. */
const prose: Cells = blankOr(
  fc
    .string({
      unit: fc.constantFrom('a', '\u00e9', '"', ',', ';', '\n', "'", '=', '@', '-', ' ', '1'),
    })
    .filter((text) => text.trim() !== ''),
);
const name: Cells = prose.map((text) => text.trim());

type Columns = Readonly<Record<string, Cells>>;

/** Rows of texts, with their header. */
function rows(columns: Columns, max: number): fc.Arbitrary<string[][]> {
  const row = fc.tuple(...Object.values(columns));
  return fc.array(row, { maxLength: max }).map((found) => [Object.keys(columns), ...found]);
}

/** Tables of a season, cell by cell as a folder would hold them in canonical form. */
export const arbitrarySeason: fc.Arbitrary<Readonly<Record<string, string[][]>>> = fc
  .uniqueArray(fc.constantFrom('W-1', 'W-2', '=W3', '-4', 'E 5', 'caf\u00e9', '"q"'), {
    minLength: 1,
  })
  .chain((ids) => {
    const nest = fc.constantFrom(...ids);
    const nests = fc
      .tuple(
        ...ids.map((id) =>
          fc.tuple(
            fc.constant(id),
            word(Species.options),
            blankOr(date('2026-05-01', 20)),
            fc.constant(''),
            name,
            decimal(-40, 40),
            decimal(-180, 180),
            decimal(-1e6, 1e6),
            whole(200),
            word(['yes', 'no']),
            word(['0', '1', '2', '3']),
            prose,
          ),
        ),
      )
      .map((found) => [
        [
          'nest',
          'species',
          'lay_night',
          'lay_night_latest',
          'zone',
          'latitude',
          'longitude',
          'shore_m',
          'clutch',
          'screened',
          'light_exposure',
          'Colour',
        ],
        ...found,
      ]);
    return fc.record({
      'nests.csv': nests,
      'visits.csv': rows(
        {
          nest,
          time: time('2026-07-01', 40),
          kind: word(['evening', 'morning']),
          observer: name,
          experience: word(Experience.options),
          surface: word(Surface.options),
          sound: word(Sound.options),
          tracks: whole(90),
          event: word(Mishap.options),
          active_share: decimal(0, 1),
          emergence: word(Emergence.options),
          reached_water: whole(90),
          way: word(['holes', 'gear;lamps', 'holes;gear;lamps;people']),
          note: prose,
        },
        8,
      ),
      'orientation.csv': rows(
        {
          nest,
          night: date('2026-07-01', 40),
          seaward_deg: decimal(0, 360),
          note: prose,
          lamps: word(['window', 'street lamp/white/215/by the car park;fire/red']),
        },
        3,
      ),
      'availability.csv': rows(
        {
          volunteer: fc.constantFrom('Ada', 'Bo'),
          night: date('2026-07-01', 40),
          from: word(['21:00']),
        },
        3,
      ),
    });
  });
