import { writeCsv } from '../../src/core/exchange/csv/write-csv.ts';

const marks = '<img src=x onerror="document.documentElement.dataset.ran=1">';

/** Written in colours of their own by the fonts of most systems. */
export const pictographs = '🐢🥚🌊';

/** What somebody might put into a cell to make a program or a spreadsheet run it, or break. */
export const hostileTexts = [
  marks,
  '<script>document.documentElement.dataset.ran=1</script>',
  'javascript:document.documentElement.dataset.ran=1',
  '=HYPERLINK("http://evil.example/","look")',
  '+cmd|calc',
  '@SUM(1+1)',
  '-2+3',
  "'=1+1",
  '\u202egnp.eltrut',
  'x'.repeat(10_000),
  pictographs,
  'a\0b',
  'two\nlines, "quoted"; BEGIN:VEVENT',
  '{{constructor.constructor("alert(1)")()}}',
  '__proto__',
  'constructor',
  ']]></dataset>&amp;<!--',
  'zero\u200bwidth\u200d\u2060 joined\ufeff',
] as const;

/** Short enough for a marker, and each its own. */
export const hostileNests = hostileTexts.map((text) =>
  text.replaceAll(/[\n\0]/g, ' ').slice(0, 70),
);

/** A season of which every free text is hostile, some six weeks before `2026-07-20`. */
export function hostileFiles(): Readonly<Record<string, string>> {
  const of = (at: number): string => hostileTexts[at % hostileTexts.length] ?? '';
  /** One zone; a person with none sits anywhere. */
  const zonesOf = (at: number): string => of(at).replaceAll(';', ',');
  const people = hostileTexts.slice(0, 11).map((text) => text.slice(0, 60));
  const nests = hostileNests.map((nest, at) => [
    nest,
    `2026-05-2${String(at % 10)}`,
    of(at + 1),
    of(at + 2),
  ]);
  const visits = hostileNests.map((nest, at) => [
    nest,
    `2026-07-19T21:${String(10 + at)}-04:00`,
    of(at + 3),
    'depression',
    of(at),
    of(at + 5),
  ]);
  const tables: Readonly<Record<string, readonly (readonly string[])[]>> = {
    'nests.csv': [['nest', 'lay_night', 'zone', 'constructor'], ...nests],
    'visits.csv': [['nest', 'time', 'observer', 'surface', 'note', '=colour'], ...visits],
    'conditions.csv': [
      ['date', 'zone', 'sand_c'],
      ['2026-07-18', marks, '29.5'],
    ],
    'volunteers.csv': [
      ['volunteer', 'experience', 'zones', 'team'],
      ...people.map((name, at) => [name, 'lead', at % 2 === 0 ? zonesOf(at) : '', of(at + 4)]),
    ],
    'availability.csv': [
      ['volunteer', 'night'],
      ...['2026-07-20', '2026-07-21'].flatMap((night) => people.map((name) => [name, night])),
    ],
    'orientation.csv': [
      [
        'nest',
        'night',
        'zone',
        'seaward_deg',
        'tracks_counted',
        'light_source',
        'moon',
        'cloud',
        'outcome',
        'note',
      ],
      [hostileNests[0] ?? '', '2026-07-18', marks, '90', '4', marks, of(3), of(4), of(5), of(1)],
    ],
    'inventory.csv': [
      ['nest', 'date', 'shells', 'note'],
      [hostileNests[1] ?? '', '2026-07-19', '80', of(0)],
    ],
  };
  const programme = JSON.stringify({
    name: marks,
    time_zone: 'America/New_York',
    note: hostileTexts.join(' '),
  });
  return {
    'programme.json': programme,
    ...Object.fromEntries(
      Object.entries(tables).map(([name, rows]) => [name, writeCsv(rows, '\n')]),
    ),
  };
}
