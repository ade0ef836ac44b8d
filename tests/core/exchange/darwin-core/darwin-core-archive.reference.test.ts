// @vitest-environment jsdom
import { parse } from 'papaparse';
import { describe, expect, test } from 'vitest';
import { NightText } from '../../../../src/core/domain/night.ts';
import { writeCsv } from '../../../../src/core/exchange/csv/write-csv.ts';
import { darwinCoreArchive } from '../../../../src/core/exchange/darwin-core/darwin-core-archive.ts';
import { publicRecord } from '../../../../src/core/exchange/public/public-record.ts';
import { inventSeason } from '../../../../src/core/invented-season/invented-season.ts';
import { fold } from '../../../../src/core/log/fold.ts';
import { read } from '../../../builders/season-files.ts';
import {
  darwinCoreTerms,
  measurementRowType,
  measurementTerms,
} from '../../../reference/darwin-core/terms.ts';

const DWC = 'http://rs.tdwg.org/dwc/terms/';
const { programme, tables } = inventSeason({ nests: 30, seed: 5 });
const folder: Record<string, string> = {
  'programme.json': JSON.stringify({ ...programme, name: 'Reach <one> & "two"' }),
};
for (const { file, columns, rows } of tables) folder[file] = writeCsv([columns, ...rows], '\n');
const { events, zone } = read(folder);
const season = fold(events, zone);
const today = NightText.parse('2026-10-01');
const archive = darwinCoreArchive(season, null, today);

function xml(files: ReadonlyMap<string, string>, name: string): Document {
  const document = new DOMParser().parseFromString(files.get(name) ?? '', 'text/xml');
  expect(document.querySelector('parsererror')).toBeNull();
  return document;
}

interface ArchiveFile {
  readonly rowType: string;
  readonly terms: ReadonlyMap<number, string>;
  /** By the last part of the term's name; the id under `id`. */
  readonly rows: readonly Readonly<Record<string, string>>[];
}

/** Reads the files of an archive by what its meta.xml says of them, as any reader would. */
function readArchive(files: ReadonlyMap<string, string>): Readonly<Record<string, ArchiveFile>> {
  const found: Record<string, ArchiveFile> = {};
  for (const element of xml(files, 'meta.xml').querySelectorAll('core, extension')) {
    const location = element.querySelector('files > location')?.textContent ?? '';
    const terms = new Map(
      [...element.querySelectorAll('field')].map((field) => [
        Number(field.getAttribute('index')),
        field.getAttribute('term') ?? '',
      ]),
    );
    const idAt = Number(element.querySelector('id, coreid')?.getAttribute('index'));
    const { data, errors } = parse<string[]>(files.get(location) ?? '', {
      delimiter: element.getAttribute('fieldsTerminatedBy') ?? '',
      newline: '\n',
      skipEmptyLines: true,
    });
    expect(errors).toEqual([]);
    const lines = data.slice(Number(element.getAttribute('ignoreHeaderLines')));
    found[location] = {
      rowType: element.getAttribute('rowType') ?? '',
      terms,
      rows: lines.map((cells) => ({
        ...Object.fromEntries(
          [...terms].map(([index, term]) => [term.replace(/^.*\//, ''), cells[index] ?? '']),
        ),
        id: cells[idAt] ?? '',
      })),
    };
  }
  return found;
}
const found = readArchive(archive);
const fileOf = (name: string): ArchiveFile => {
  const file = found[name];
  if (file === undefined) throw new Error(`${name} is in the archive`);
  return file;
};
const eventFile = fileOf('event.csv');
const occurrenceFile = fileOf('occurrence.csv');
const measurementFile = fileOf('extended-measurement-or-fact.csv');

describe('meta.xml', () => {
  // Schema of the Darwin Core text guide, tdwg/dwc text/tdwg_dwc_text.xsd: one core, extensions after
  // it, in each the files, then the id, then the fields; terms are URIs.
  test('is laid out as the schema of the text guide wants it', () => {
    const root = xml(archive, 'meta.xml').documentElement;
    expect(root.namespaceURI).toBe('http://rs.tdwg.org/dwc/text/');
    expect([...root.children].map(({ localName }) => localName)).toEqual([
      'core',
      'extension',
      'extension',
    ]);
    for (const file of root.children) {
      const names = [...file.children].map(({ localName }) => localName);
      expect(names[0]).toBe('files');
      expect(names[1]).toBe(file.localName === 'core' ? 'id' : 'coreid');
      expect(new Set(names.slice(2))).toEqual(new Set(['field']));
      expect(file.getAttribute('encoding')).toBe('UTF-8');
    }
    expect(archive.has(root.getAttribute('metadata') ?? '')).toBe(true);
  });

  test('names only terms of the standard, each once a file', () => {
    for (const { terms, rowType } of Object.values(found)) {
      expect(new Set(terms.values()).size).toBe(terms.size);
      for (const term of terms.values()) {
        if (rowType === measurementRowType) expect(measurementTerms.has(term), term).toBe(true);
        else
          expect(term.startsWith(DWC) && darwinCoreTerms.has(term.slice(DWC.length)), term).toBe(
            true,
          );
      }
    }
    expect(eventFile.rowType).toBe(`${DWC}Event`);
    expect(occurrenceFile.rowType).toBe(`${DWC}Occurrence`);
    expect(measurementFile.rowType).toBe(measurementRowType);
  });

  test('tells of every file in the archive, and of no other', () => {
    expect([...archive.keys()].sort()).toEqual(
      ['eml.xml', 'meta.xml', ...Object.keys(found)].sort(),
    );
  });
});

describe('the tables', () => {
  const ids = new Set(eventFile.rows.map(({ id }) => id));

  test('have an event for each nest, and within it its visits, emergences, tracks and inventories', () => {
    expect(ids.size).toBe(eventFile.rows.length);
    const kinds = new Map<string, number>();
    for (const row of eventFile.rows) {
      const { eventType = '', parentEventID = '', eventID, id } = row;
      kinds.set(eventType, (kinds.get(eventType) ?? 0) + 1);
      expect(eventID).toBe(id);
      if (eventType === 'nest') expect(parentEventID).toBe('');
      else expect(ids.has(parentEventID), parentEventID).toBe(true);
    }
    const visits = [...season.nests.values()].reduce((sum, { visits }) => sum + visits.length, 0);
    expect(kinds.get('nest')).toBe(season.nests.size);
    expect(kinds.get('visit')).toBe(visits);
    for (const kind of ['emergence', 'tracks of hatchlings', 'nest inventory']) {
      expect(kinds.get(kind) ?? 0, kind).toBeGreaterThan(0);
    }
  });

  test('hang every occurrence and measurement on an event that is there, under an id of its own', () => {
    for (const [file, key] of [
      [occurrenceFile, 'occurrenceID'],
      [measurementFile, 'measurementID'],
    ] as const) {
      expect(file.rows.length).toBeGreaterThan(50);
      expect(new Set(file.rows.map((row) => row[key])).size).toBe(file.rows.length);
      for (const { id } of file.rows) expect(ids.has(id ?? ''), id).toBe(true);
    }
    const occurrences = new Set(occurrenceFile.rows.map((row) => row['occurrenceID']));
    for (const { occurrenceID = '' } of measurementFile.rows) {
      if (occurrenceID !== '') expect(occurrences.has(occurrenceID), occurrenceID).toBe(true);
    }
  });

  test('date events by ISO 8601: a date, a time with its offset, or a span of either', () => {
    const one = String.raw`\d{4}-\d{2}-\d{2}(T\d{2}:\d{2}(:\d{2})?(Z|[+-]\d{2}:\d{2}))?`;
    for (const { eventDate = '', eventType } of eventFile.rows) {
      if (eventType === 'nest' && eventDate === '') continue; // the lay night is not known
      expect(eventDate).toMatch(new RegExp(`^${one}(/${one})?$`));
    }
  });

  test('say of every occurrence what it is, how it was seen and whether it was there', () => {
    for (const row of occurrenceFile.rows) {
      expect(row['basisOfRecord']).toBe('HumanObservation');
      expect(['present', 'absent']).toContain(row['occurrenceStatus']);
      expect(row['scientificName']).not.toBe('');
      expect(['egg', 'hatchling']).toContain(row['lifeStage']);
    }
  });
});

describe('eml.xml', () => {
  test('describes the data set, and keeps the marks in a programme’s name from being marks of XML', () => {
    const document = xml(archive, 'eml.xml');
    expect(document.documentElement.localName).toBe('eml');
    const order = [...(document.querySelector('dataset')?.children ?? [])].map(
      (one) => one.localName,
    );
    // The order of EML 2.2.0's dataset, of which these are the elements GBIF's profile asks for.
    expect(order).toEqual([
      'title',
      'creator',
      'metadataProvider',
      'pubDate',
      'language',
      'abstract',
      'intellectualRights',
      'coverage',
      'contact',
    ]);
    expect(document.querySelector('creator')?.textContent).toBe('Reach <one> & "two"');
    expect(document.querySelector('abstract')?.textContent).toContain('Invented for demonstration');
  });

  test('draws its box around what is shown, and no closer', () => {
    const open = publicRecord(season, 0.1);
    const document = xml(darwinCoreArchive(open, 0.1, today), 'eml.xml');
    const west = Number(document.querySelector('westBoundingCoordinate')?.textContent);
    expect(Number(west.toFixed(1))).toBe(west);
    expect(document.querySelector('abstract')?.textContent).toContain('generalised');
  });
});

test('positions for the public carry what was done to them', () => {
  const files = readArchive(darwinCoreArchive(publicRecord(season, 0.01), 0.01, today));
  const nests = files['event.csv']?.rows.filter((row) => row['eventType'] === 'nest') ?? [];
  expect(nests.length).toBe(season.nests.size);
  for (const row of nests) {
    expect(row['coordinateUncertaintyInMeters']).toBe('1600');
    expect(row['coordinatePrecision']).toBe('0.01');
    expect(row['dataGeneralizations']).toBe('coordinates rounded to 0.01 degree');
    expect(row['informationWithheld']).not.toBe('');
    expect(row['geodeticDatum']).toBe('EPSG:4326');
    expect(row['decimalLatitude']).toMatch(/^-?\d+(\.\d{1,2})?$/);
  }
});
