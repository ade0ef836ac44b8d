import { type EventOf, SCHEMA, type TableName } from '../../domain/event.ts';
import { formatInstant } from '../../domain/instant.ts';
import { eventIdOfRow } from '../../log/event-id.ts';
import { type Importer, UNDATED_MS } from './row-event.ts';

/** The event that keeps how a table was laid out, so that it can be written again just so. */
export function layoutEvent(
  table: TableName,
  outline: { readonly columns: readonly string[]; readonly newline: '\n' | '\r\n' },
  importer: Importer,
  at_ms = UNDATED_MS,
): EventOf<'table-laid-out'> {
  const at = formatInstant(at_ms, importer.zone);
  const { columns, newline } = outline;
  return {
    id: eventIdOfRow(at_ms, JSON.stringify(['layout', table, columns, newline])),
    schema: SCHEMA,
    at,
    written: at,
    author: importer.author,
    device: importer.device,
    kind: 'table-laid-out',
    table,
    columns: [...columns],
    newline,
  };
}
