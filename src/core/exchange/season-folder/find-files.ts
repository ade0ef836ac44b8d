import type { TableName } from '../../domain/event.ts';
import type { Problem } from '../problem.ts';
import { tablesInOrder } from '../tables/all-tables.ts';
import { fileOf } from '../tables/table-spec.ts';
import { PROGRAMME_FILE } from './programme-file.ts';
import { ROSTER_FILE } from './roster-file.ts';

/** The files of one season among those of a folder or an archive. */
export interface FoundFiles {
  readonly programme: Uint8Array | null;
  readonly roster: Uint8Array | null;
  readonly tables: ReadonlyMap<TableName, Uint8Array>;
  readonly problems: readonly Problem[];
}

/** Left by operating systems in folders and archives; not worth a word. */
const LITTER = /(^|[/\\])(__MACOSX[/\\].*|\.[^/\\]*|thumbs\.db|desktop\.ini)$/i;

/**
 * Finds the season's files by name: letter case does not matter, a folder above them neither. Of
 * several with one name in different folders the one that lies highest is meant; two equally high
 * are refused, for nobody can tell which season is meant. Other files are ignored and said once.
 */
export function findFiles(files: ReadonlyMap<string, Uint8Array>): FoundFiles {
  const wanted = new Map<string, string[]>([
    [PROGRAMME_FILE, []],
    [ROSTER_FILE, []],
  ]);
  for (const { table } of tablesInOrder) wanted.set(fileOf(table), []);
  const ignored: string[] = [];
  for (const path of [...files.keys()].sort()) {
    if (LITTER.test(path)) continue;
    const list = wanted.get(baseName(path).toLowerCase());
    if (list === undefined) ignored.push(path);
    else list.push(path);
  }
  const problems: Problem[] = [];
  const pick = (name: string): Uint8Array | null => {
    const paths = wanted.get(name) ?? [];
    const highest = Math.min(...paths.map(depth));
    const here = paths.filter((path) => depth(path) === highest);
    if (here.length > 1) {
      const message = `found ${here.join(' and ')}; expected one season at a time. None was read; give one folder alone.`;
      problems.push({ file: name, row: 0, column: '', message, severity: 'error' });
      return null;
    }
    return files.get(here[0] ?? '') ?? null;
  };
  const programme = pick(PROGRAMME_FILE);
  const roster = pick(ROSTER_FILE);
  const tables = new Map<TableName, Uint8Array>();
  for (const { table } of tablesInOrder) {
    const bytes = pick(fileOf(table));
    if (bytes !== null) tables.set(table, bytes);
  }
  if (ignored.length > 0) problems.push(ignoring(ignored));
  return { programme, roster, tables, problems };
}

function ignoring(paths: readonly string[]): Problem {
  const names = paths.slice(0, 10).join(', ');
  const listed = paths.length > 10 ? `${names} and ${paths.length - 10} more` : names;
  const message = `not part of a season, so not read: ${listed}.`;
  return { file: paths[0] ?? '', row: 0, column: '', message, severity: 'warning' };
}

const baseName = (path: string): string => path.slice(slash(path) + 1);
const slash = (path: string): number => Math.max(path.lastIndexOf('/'), path.lastIndexOf('\\'));
const depth = (path: string): number => path.split(/[/\\]/).length;
