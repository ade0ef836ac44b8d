// @vitest-environment jsdom
import ICAL from 'ical.js';
import { parse } from 'papaparse';
import { expect, test } from 'vitest';
import { NightText } from '../../../src/core/domain/night.ts';
import { PublishedPost } from '../../../src/core/domain/roster.ts';
import { darwinCoreArchive } from '../../../src/core/exchange/darwin-core/darwin-core-archive.ts';
import { seasonGeojson } from '../../../src/core/exchange/geojson/season-geojson.ts';
import { calendarText } from '../../../src/core/exchange/icalendar.ts';
import { writeSeasonFolder } from '../../../src/core/exchange/season-folder/write-season-folder.ts';
import { fold } from '../../../src/core/log/fold.ts';
import { hostileFiles, hostileNests, hostileTexts } from '../../builders/hostile-season.ts';
import { read, roundTrip } from '../../builders/season-files.ts';

// Truth: what the readers of other people make of our exports: papaparse, ical.js, jsdom's XML.

const folder = hostileFiles();
const { events, problems, zone } = read(folder);
const season = fold(events, zone);
const errors = problems.filter(({ severity }) => severity === 'error');
/** What a spreadsheet would run. */
const runs = /^[=+\-@\t\r]/;
const number = /^[+-]?\d+(\.\d+)?$/;

test('a season of hostile texts is taken whole, and comes out to the letter', () => {
  expect(errors).toEqual([]);
  expect(roundTrip(folder)).toEqual(folder);
});

test('no cell of its tables would be run by a spreadsheet, and reading them gives the same texts', () => {
  const guarded = roundTrip(folder, true);
  for (const [name, text] of Object.entries(guarded)) {
    if (!name.endsWith('.csv')) continue;
    const cells = parse<string[]>(text).data.flat();
    expect(cells.filter((cell) => runs.test(cell) && !number.test(cell))).toEqual([]);
  }
  const again = read(guarded);
  const texts = (list: typeof events): unknown[] =>
    list.flatMap((event) => (event.kind === 'visit-noted' ? [event.nest, event.details] : []));
  expect(texts(again.events)).toEqual(texts(events));
});

test('the Darwin Core archive is well-formed, and no cell of it would be run', () => {
  const files = darwinCoreArchive(season, null, NightText.parse('2026-07-20'));
  for (const [name, text] of files) {
    if (name.endsWith('.xml')) {
      const document = new DOMParser().parseFromString(text, 'text/xml');
      expect(document.querySelector('parsererror')).toBeNull();
      expect(document.querySelector('img, script')).toBeNull();
      if (name === 'eml.xml') expect(document.documentElement.textContent).toContain('<img src=x');
    } else {
      const cells = parse<string[]>(text).data.flat();
      expect(cells.filter((cell) => runs.test(cell) && !number.test(cell))).toEqual([]);
    }
  }
});

test('a map of it is JSON that says every nest by its name', () => {
  const text = seasonGeojson(season, null);
  expect(JSON.parse(text)).toMatchObject({ type: 'FeatureCollection' });
});

test('a calendar of it has one entry, its lines folded, and the names as they are', () => {
  const posts = [
    PublishedPost.parse({
      watch: 'evening',
      from: '2026-07-20T21:00-04:00',
      to: '2026-07-21T01:00-04:00',
      nests: hostileNests.slice(0, 4),
      sitters: [hostileTexts[12], hostileTexts[0], 'END:VEVENT\r\nBEGIN:VEVENT'],
    }),
  ];
  const nights = [{ night: '2026-07-20', revisions: [{ written_ms: 0, posts }] }];
  const text = calendarText(nights, { programme: hostileTexts[12], zone, person: null });
  for (const line of text.split('\r\n')) {
    expect(new TextEncoder().encode(line).length).toBeLessThanOrEqual(75);
  }
  const calendar = new ICAL.Component(ICAL.parse(text) as unknown[]);
  const entries = calendar.getAllSubcomponents('vevent');
  expect(entries).toHaveLength(1);
  const summary = new ICAL.Event(entries[0]).summary;
  for (const nest of hostileNests.slice(0, 4)) expect(summary).toContain(nest);
  expect(summary).not.toMatch(/[\r\n]/);
  expect(summary.replaceAll(/\s+/g, ' ')).toContain('END:VEVENT BEGIN:VEVENT');
});

test('names that every object knows are names like any other', () => {
  for (const name of ['__proto__', 'constructor']) {
    expect([...season.nests.keys()].map(String)).toContain(name);
  }
  expect(writeSeasonFolder(season, { guard: true }).get('nests.csv')).toContain('\n__proto__,');
});
