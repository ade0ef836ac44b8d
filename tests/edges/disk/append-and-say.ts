/** Appends notes to the log named on the command line, prints a line for each that was saved, and goes on for ever. */
import { openJsonLinesLog } from '../../../src/edges/disk/json-lines-log.ts';
import { Pen } from '../../arbitraries/written.ts';

const [path = '', seed = '1', count = 'Infinity'] = process.argv.slice(2);
const log = await openJsonLinesLog(path);
const pen = new Pen('Ada Invented', Number(seed));
for (let made = 0; made < Number(count); made++) {
  const note = pen.logged({ kind: 'visit-noted', nest: pen.nestId('N-1'), details: {} });
  const appended = await log.append([note]);
  process.stdout.write(appended.ok ? `${note.event.id}\n` : `${appended.problem.message}\n`);
}
