import { type Night, formatNight, parseNight } from '../../domain/night.ts';
import type { SeasonRecord } from '../../log/season-record.ts';
import type { Finding, RowValues, TableSpec } from '../tables/table-spec.ts';
import { fileOf, text } from '../tables/table-spec.ts';
import type { Row } from './row.ts';
import { wallMoment } from './wall-moment.ts';

const DAY_MS = 86_400_000;
/** A visit this long after laying, or after now, is more likely a wrong year (G). */
const FAR_NIGHTS = 150;
const FAR_FUTURE_MS = 2 * 366 * DAY_MS;

/** What a nest's row became: taken, with the first night it may have been laid, or left out. */
type KnownNest =
  | { readonly state: 'taken'; readonly layNight: Night | null }
  | { readonly state: 'left out'; readonly row: number };

/** What the rows read so far say, for the checks that look across rows and tables. */
export class SeasonSoFar {
  readonly #nests = new Map<string, KnownNest>();
  readonly #volunteers = new Set<string>();
  readonly #rows = new Map<string, number>();
  readonly #now_ms: number;
  readonly #zone: string;
  #volunteersListed = false;

  constructor(zone: string, now_ms: number, record: SeasonRecord | null) {
    this.#zone = zone;
    this.#now_ms = now_ms;
    for (const { registration } of record?.nests.values() ?? []) {
      const { nest, details } = registration.fact;
      const layNight = parseNight(details.lay_night ?? details.lay_night_latest ?? '');
      this.#nests.set(nest, { state: 'taken', layNight });
    }
    for (const { fact } of record?.volunteers ?? []) this.#volunteers.add(fact.volunteer);
    this.#volunteersListed = this.#volunteers.size > 0;
  }

  /** Notes a row that is good. */
  take({ table, values, source }: Row, spec: TableSpec): void {
    const key = keyOf(values, spec);
    if (key !== null) this.#rows.set(key, source.row);
    if (table === 'nests') {
      const first = text(values, 'lay_night') ?? text(values, 'lay_night_latest');
      const layNight = parseNight(first ?? '');
      this.#nests.set(text(values, 'nest') ?? '', { state: 'taken', layNight });
    }
    if (table === 'volunteers') {
      this.#volunteers.add(text(values, 'volunteer') ?? '');
      this.#volunteersListed = true;
    }
  }

  /** Notes a nest whose row had errors, so that its visits need not each be told apart. */
  leaveOut(nest: string, row: number): void {
    if (!this.#nests.has(nest)) this.#nests.set(nest, { state: 'left out', row });
  }

  /** What there is to say of a row in the light of those before it. */
  check(row: Row, at_ms: number, spec: TableSpec): readonly Finding[] {
    return [
      ...this.#again(row, spec),
      ...(spec.table === 'nests' || spec.columns[0]?.name !== 'nest'
        ? []
        : this.#ofNest(row, at_ms)),
      ...(spec.table === 'availability' ? this.#ofVolunteer(row.values) : []),
    ];
  }

  #again({ values, source }: Row, spec: TableSpec): Finding[] {
    const before = this.#rows.get(keyOf(values, spec) ?? '');
    if (before === undefined || spec.uniqueBy === null) return [];
    const name = spec.uniqueBy.map((column) => values[column] ?? 'the whole beach').join(', ');
    const message = `found ${name} a second time: rows ${before} and ${source.row} both hold it; expected one row for each. Row ${before} is taken, this one is not; rename it or remove it.`;
    return [{ severity: 'error', column: spec.uniqueBy[0] ?? '', message }];
  }

  #ofNest(row: Row, at_ms: number): Finding[] {
    const name = text(row.values, 'nest') ?? '';
    const nest = this.#nests.get(name);
    const column = 'nest';
    if (nest === undefined) {
      const message = `found "${name}", which is not in ${fileOf('nests')}; expected a nest that is. Correct the name, or add the nest.`;
      return [{ severity: 'error', column, message }];
    }
    if (nest.state === 'left out') {
      const message = `nest "${name}" could not be taken (${fileOf('nests')} row ${nest.row}), so none of its rows here was. Correct that row first.`;
      return [{ severity: 'error', column, message, once: `left out ${name}` }];
    }
    return [...this.#afterLaying(row, at_ms, nest.layNight), ...this.#future(row, at_ms)];
  }

  #afterLaying(row: Row, at_ms: number, laid: Night | null): Finding[] {
    if (laid === null) return [];
    const column = dateColumn(row);
    const found = text(row.values, column) ?? '';
    const nights = (at_ms - laid * DAY_MS) / DAY_MS;
    const day = row.table === 'visits' ? null : parseNight(found);
    const isBefore = day === null ? at_ms < wallMoment(laid, 720, this.#zone) : day < laid;
    if (isBefore) {
      const message = `found ${foundText(row, column)}, before the nest was laid on the night of ${formatNight(laid)}; expected a later time. Correct it, or lay_night in ${fileOf('nests')}.`;
      return [{ severity: 'error', column, message }];
    }
    if (nights <= FAR_NIGHTS) return [];
    const message = `found ${foundText(row, column)}, ${Math.floor(nights)} nights after laying; expected at most ${FAR_NIGHTS}. It is taken; check the date.`;
    return [{ severity: 'warning', column, message }];
  }

  #future(row: Row, at_ms: number): Finding[] {
    if (at_ms - this.#now_ms <= FAR_FUTURE_MS) return [];
    const column = dateColumn(row);
    const message = `found ${foundText(row, column)}, years from now; expected something that has happened. It is taken; check the year.`;
    return [{ severity: 'warning', column, message }];
  }

  #ofVolunteer(values: RowValues): Finding[] {
    const name = text(values, 'volunteer') ?? '';
    if (!this.#volunteersListed || this.#volunteers.has(name)) return [];
    const message = `found "${name}", who is not in ${fileOf('volunteers')}; expected a volunteer who is. It is taken; correct the name, or add the person.`;
    const once = `volunteer ${name}`;
    return [{ severity: 'warning', column: 'volunteer', message, once }];
  }
}

/** What a second row may not repeat; null when nothing. */
function keyOf(values: RowValues, { table, uniqueBy }: TableSpec): string | null {
  if (uniqueBy === null) return null;
  return JSON.stringify([table, ...uniqueBy.map((name) => values[name] ?? '')]);
}

/** The cell as it stands in the file. */
function foundText({ values, source }: Row, column: string): string {
  return source.text?.[column] ?? text(values, column) ?? '';
}

function dateColumn({ table }: Row): string {
  return table === 'visits' ? 'time' : table === 'inventory' ? 'date' : 'night';
}
