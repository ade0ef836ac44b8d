import type { TableName } from '../../core/domain/event.ts';
import { type AppliedSheet, applyMapping } from '../../core/exchange/mapping/apply-mapping.ts';
import { type FoundSheets, tableNamed } from '../../core/exchange/mapping/find-sheets.ts';
import {
  type Sureness,
  guessColumns,
  guessMapping,
} from '../../core/exchange/mapping/guess-mapping.ts';
import { filesOf } from '../../core/exchange/mapping/files-of.ts';
import {
  type ColumnMapping,
  type Mapping,
  columnKeys,
  headingsKey,
} from '../../core/exchange/mapping/mapping.ts';
import { type SettledMapping, isOpen, settle } from '../../core/exchange/mapping/questions.ts';
import type { Sheet } from '../../core/exchange/mapping/sheet.ts';
import type { ReadSeason } from '../../core/exchange/season-folder/read-season-folder.ts';
import type { MappingMemory } from './mapping-memory.ts';

/** One sheet, what it is taken for, and what that makes of it. */
export interface MatchedSheet {
  readonly sheet: Sheet;
  readonly mapping: Mapping;
  /** By column key; a column that the person chose is sure. */
  readonly sure: Readonly<Record<string, Sureness>>;
  readonly table: Sureness;
  /** Matched as tables with these headings were before. */
  readonly isRemembered: boolean;
  readonly settled: SettledMapping;
  /** Null when it is left out. */
  readonly applied: AppliedSheet | null;
}

/** Sheets in anybody's words on their way to tables of ours. */
export class MatchDesk {
  readonly #rest: ReadonlyMap<string, Uint8Array>;
  readonly #memory: MappingMemory;
  readonly #readFiles: (files: ReadonlyMap<string, Uint8Array>) => ReadSeason;
  #sheets = $state.raw<readonly MatchedSheet[]>([]);
  readonly #read = $derived.by(() => this.#readAll());

  constructor(
    found: FoundSheets,
    memory: MappingMemory,
    readFiles: (files: ReadonlyMap<string, Uint8Array>) => ReadSeason,
  ) {
    this.#rest = found.rest;
    this.#memory = memory;
    this.#readFiles = readFiles;
    this.#sheets = found.sheets.map(({ sheet, guess }) => {
      const kept = memory.recall(headingsKey(sheet));
      return kept === null
        ? matched(sheet, guess.mapping, guess.columns, guess.table, false)
        : matched(sheet, kept, {}, 'sure', true);
    });
  }

  get sheets(): readonly MatchedSheet[] {
    return this.#sheets;
  }

  /** What would be read as things stand, problems told as the person's own tables have it. */
  get read(): ReadSeason {
    return this.#read;
  }

  /** Why it cannot go on yet; null when it can. */
  get waitsFor(): string | null {
    const taken = this.#sheets.filter(({ applied }) => applied !== null);
    const tables = [...this.#rest.keys()].some((path) => tableNamed(path) !== null);
    if (taken.length === 0 && !tables) return 'Say what at least one table holds.';
    const without = taken.find(({ settled }) => settled.missing.length > 0);
    if (without !== undefined) {
      return `${without.sheet.name} needs a column for: ${without.settled.missing.join(', ')}.`;
    }
    const open = taken.reduce(
      (sum, { settled }) => sum + settled.questions.filter(isOpen).length,
      0,
    );
    if (open === 0) return null;
    return open === 1
      ? 'One question waits for an answer.'
      : `${open} questions wait for an answer.`;
  }

  chooseTable(at: number, table: TableName | null): void {
    this.#change(at, ({ sheet, mapping, isRemembered }) => {
      if (table === null) return matched(sheet, { ...mapping, table }, {}, 'sure', isRemembered);
      const guess = guessColumns(sheet, table);
      return matched(sheet, guess.mapping, guess.columns, 'sure', false);
    });
  }

  /** Of two columns for one of ours the last chosen holds; a time may come in two. */
  chooseColumn(at: number, key: string, to: string | null): void {
    this.#change(at, (was) => {
      const columns: Record<string, ColumnMapping> = {};
      for (const [other, column] of Object.entries(was.mapping.columns)) {
        const gives = column.to === to && to !== null && to !== 'time' && other !== key;
        columns[other] = gives ? { ...column, to: null } : column;
      }
      columns[key] = { to, words: {} };
      const sure = { ...was.sure, [key]: 'sure' as const };
      return matched(was.sheet, { ...was.mapping, columns }, sure, was.table, false);
    });
  }

  /** The answer to a question about one column. */
  answerColumn(at: number, index: number, answer: Partial<ColumnMapping>): void {
    this.#change(at, (was) => {
      const key = columnKeys(was.sheet.header)[index] ?? '';
      const column = was.mapping.columns[key] ?? { to: null, words: {} };
      const words = { ...column.words, ...answer.words };
      const columns = { ...was.mapping.columns, [key]: { ...column, ...answer, words } };
      return matched(was.sheet, { ...was.mapping, columns }, was.sure, was.table, was.isRemembered);
    });
  }

  /** The answer to a question about the times of a whole sheet. */
  answerTimes(at: number, answer: Pick<Mapping, 'smallHours' | 'clock'>): void {
    this.#change(at, (was) => {
      const mapping = { ...was.mapping, ...answer };
      return matched(was.sheet, mapping, was.sure, was.table, was.isRemembered);
    });
  }

  /** Matches a sheet anew, as if it had never been seen. */
  forget(at: number): void {
    this.#change(at, ({ sheet }) => {
      this.#memory.forget(headingsKey(sheet));
      const guess = guessMapping(sheet);
      return matched(sheet, guess.mapping, guess.columns, guess.table, false);
    });
  }

  /** Keeps how the sheets were matched, for the next with the same headings. */
  remember(): void {
    for (const { sheet, mapping } of this.#sheets) {
      if (mapping.table !== null) this.#memory.keep(headingsKey(sheet), mapping);
    }
  }

  #change(at: number, change: (was: MatchedSheet) => MatchedSheet): void {
    this.#sheets = this.#sheets.map((sheet, index) => (index === at ? change(sheet) : sheet));
  }

  #readAll(): ReadSeason {
    const applied = this.#sheets.flatMap((sheet) =>
      sheet.applied === null ? [] : [sheet.applied],
    );
    const { files, tell } = filesOf(this.#rest, applied);
    const read = this.#readFiles(files);
    return { ...read, problems: tell(read.problems) };
  }
}

function matched(
  sheet: Sheet,
  mapping: Mapping,
  sure: MatchedSheet['sure'],
  table: Sureness,
  isRemembered: boolean,
): MatchedSheet {
  const settled = settle(sheet, mapping);
  return {
    sheet,
    mapping,
    sure,
    table,
    isRemembered,
    settled,
    applied: applyMapping(sheet, mapping),
  };
}
