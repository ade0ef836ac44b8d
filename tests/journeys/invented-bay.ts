import type { PickedFile } from './invented-files.ts';

/** An afternoon on which the bay's week can be planned, and the evening that follows it. */
export const bayAfternoon = '2026-07-20T15:00:00-04:00';
export const bayEvening = '2026-07-20T21:30:00-04:00';

const people = ['Ada', 'Bo', 'Cy', 'Di', 'Ed', 'Fay'];

const table = (name: string, lines: readonly string[]): PickedFile => ({
  name,
  mimeType: 'text/csv',
  buffer: Buffer.from(`${lines.join('\n')}\n`),
});

/** A look in the evening, and a watch in which it came up, by the nest and the day of July. */
const cameUp = (nest: string, day: string): readonly string[] => [
  `${nest},2026-07-0${Number(day) - 2}T21:20-04:00,Ada,dip,quiet,,,`,
  `${nest},2026-07-0${day}T22:40-04:00,Ada,depression,steady,2026-07-0${day}T21:00-04:00,2026-07-0${day}T23:30-04:00,80`,
];

/** An invented bay: five nests, two of them near each other, three that came up, and six people. */
export const bayFiles: readonly PickedFile[] = [
  {
    name: 'programme.json',
    mimeType: 'application/json',
    buffer: Buffer.from(
      '{"name":"Invented Bay","time_zone":"America/New_York","latitude":33,"longitude":-79}',
    ),
  },
  table('nests.csv', [
    'nest,species,lay_night,zone,shore_m,clutch',
    'W-1,Caretta caretta,2026-05-26,south,100,110',
    'W-2,Caretta caretta,2026-05-27,south,130,100',
    'W-3,Caretta caretta,2026-05-28,south,900,90',
    'W-4,Caretta caretta,2026-05-29,south,1400,90',
    'W-5,Caretta caretta,2026-05-30,south,2000,90',
    'W-6,Caretta caretta,2026-05-10,south,2300,90',
    'W-7,Caretta caretta,2026-05-11,south,2600,90',
    'W-8,Caretta caretta,2026-05-12,south,2900,90',
  ]),
  table('visits.csv', [
    'nest,time,observer,surface,sound,watched_from,watched_to,emerged',
    ...cameUp('W-6', '4'),
    ...cameUp('W-7', '6'),
    ...cameUp('W-8', '8'),
  ]),
  table('volunteers.csv', [
    'volunteer,experience,zones,max_shifts_week,team',
    ...people.map((name, index) => `${name},${index % 2 === 0 ? 'lead' : 'novice'},,3,`),
  ]),
  table('availability.csv', [
    'volunteer,night,from,to',
    ...['20', '21', '22', '23'].flatMap((day) => people.map((name) => `${name},2026-07-${day},,`)),
  ]),
];
