import { describe, expect, test } from 'vitest';
import { ImportDesk } from '../../../src/app/state/import-desk.svelte.ts';
import type { OpenedFiles } from '../../../src/app/state/file-desk.ts';
import type { Mapping } from '../../../src/core/exchange/mapping/mapping.ts';
import type { MappingMemory } from '../../../src/app/state/mapping-memory.ts';
import { nestId, scratchSeason } from '../note/scratch-season.ts';

const picked = (texts: Readonly<Record<string, string>>): Promise<OpenedFiles> => {
  const utf8 = new TextEncoder();
  const files = new Map(Object.entries(texts).map(([name, text]) => [name, utf8.encode(text)]));
  return Promise.resolve({ ok: true, files });
};
const nests = 'nest,species,lay_night,zone\nW-100,Caretta caretta,2026-06-01,West\n';
const visits =
  'nest,time,kind,surface\nW-100,2026-07-20T21:00,evening,dip\nW-100,2026-02-30T21:00,evening,dip\n';

/** Forgets when the test ends. */
function memory(): () => Promise<MappingMemory> {
  const kept = new Map<string, Mapping>();
  const shelf: MappingMemory = {
    recall: (headings) => kept.get(headings) ?? null,
    keep: (headings, mapping) => void kept.set(headings, mapping),
    forget: (headings) => void kept.delete(headings),
  };
  return () => Promise.resolve(shelf);
}

async function desk() {
  const made = await scratchSeason({ nests: {} });
  return { ...made, desk: new ImportDesk(made.season, made.settings, memory()) };
}

/** What is shown before anything is taken. */
function preview({ stage }: ImportDesk) {
  if (stage.stage !== 'preview') throw new Error(`not a preview but ${stage.stage}`);
  return stage;
}

describe('bringing in tables', () => {
  test('shows what was read before anything is taken, bad rows by file, row and column', async () => {
    const { desk: import_, season } = await desk();
    await import_.look(picked({ 'nests.csv': nests, 'visits.csv': visits }));
    const stage = preview(import_);
    expect(stage.read.counts).toMatchObject({
      nests: { rows: 1, taken: 1 },
      visits: { rows: 2, taken: 1 },
    });
    expect(stage.read.problems).toMatchObject([{ file: 'visits.csv', row: 3, column: 'time' }]);
    expect(season.record.nests.size).toBe(0);
  });

  test('takes the good rows and leaves the bad ones out', async () => {
    const { desk: import_, season } = await desk();
    await import_.look(picked({ 'nests.csv': nests, 'visits.csv': visits }));
    await import_.take();
    expect(import_.stage.stage).toBe('taken');
    expect(season.record.nests.get(nestId('W-100'))?.visits).toHaveLength(1);
  });

  test('the same tables again hold nothing to take, changed ones a correction', async () => {
    const { desk: import_ } = await desk();
    await import_.look(picked({ 'nests.csv': nests }));
    await import_.take();
    await import_.look(picked({ 'nests.csv': nests }));
    expect(preview(import_).joins.events).toEqual([]);
    await import_.look(picked({ 'nests.csv': nests.replace('2026-06-01', '2026-06-02') }));
    expect(preview(import_).joins.counts.nests).toEqual({ fresh: 0, corrected: 1, same: 0 });
  });

  test('a full device takes nothing and says what to do', async () => {
    const { desk: import_, season, log } = await desk();
    await import_.look(picked({ 'nests.csv': nests }));
    log.isFull = true;
    await import_.take();
    expect(import_.stage).toMatchObject({ stage: 'failed' });
    expect(season.record.nests.size).toBe(0);
  });

  test('files that cannot be opened are refused in words', async () => {
    const { desk: import_ } = await desk();
    await import_.look(Promise.resolve({ ok: false, message: 'season.zip is damaged.' }));
    expect(import_.stage).toEqual({ stage: 'refused', message: 'season.zip is damaged.' });
  });
});

describe('a table in other words', () => {
  const nidos = 'Nido;Fecha de puesta;Especie\nN-1;03/06/2026;boba\nN-2;05/06/2026;lora\n';

  /** The stage in which columns are matched. */
  function matching({ stage }: ImportDesk) {
    if (stage.stage !== 'matching') throw new Error(`not matching but ${stage.stage}`);
    return stage.match;
  }

  test('is not taken before its questions are answered, and then as they were answered', async () => {
    const { desk: import_, season } = await desk();
    await import_.look(picked({ 'nidos.csv': nidos }));
    const match = matching(import_);
    expect(match.waitsFor).toBe('2 questions wait for an answer.');
    await import_.matched();
    expect(import_.stage.stage).toBe('matching');
    match.answerColumn(0, 1, { order: 'day first' });
    match.answerColumn(0, 2, { words: { lora: '' } });
    expect(match.waitsFor).toBeNull();
    await import_.matched();
    await import_.take();
    const nest = season.record.nests.get(nestId('N-2'));
    expect(nest?.registration.fact.details).toMatchObject({ lay_night: '2026-06-05' });
    expect(nest?.registration.fact.source?.extra).toEqual({ 'Especie (as found)': 'lora' });
  });

  test('is matched as last time, unless its dates speak against it, and anew once forgotten', async () => {
    const { desk: import_ } = await desk();
    await import_.look(picked({ 'nidos.csv': nidos }));
    matching(import_).answerColumn(0, 1, { order: 'month first' });
    matching(import_).answerColumn(0, 2, { words: { lora: 'Lepidochelys kempii' } });
    await import_.matched();
    import_.startOver();
    await import_.look(picked({ 'otros.csv': nidos.replaceAll('N-', 'M-') }));
    expect(matching(import_).waitsFor).toBeNull();
    expect(matching(import_).sheets[0]?.isRemembered).toBe(true);
    await import_.look(picked({ 'mas.csv': nidos.replace('05/06/2026', '25/06/2026') }));
    expect(matching(import_).sheets[0]?.applied?.rows[0]?.cells).toContain('2026-06-03');
    matching(import_).forget(0);
    expect(matching(import_).sheets[0]?.isRemembered).toBe(false);
    expect(matching(import_).waitsFor).toBe('One question waits for an answer.');
  });

  test('may be called another table, and a column another column', async () => {
    const { desk: import_ } = await desk();
    await import_.look(picked({ 'nidos.csv': nidos }));
    const match = matching(import_);
    match.chooseTable(0, 'visits');
    expect(match.sheets[0]?.mapping.columns['fecha de puesta.']?.to).toBe('time');
    match.chooseColumn(0, 'fecha de puesta.', null);
    expect(match.waitsFor).toBe('nidos.csv needs a column for: time.');
    match.chooseTable(0, null);
    expect(match.waitsFor).toBe('Say what at least one table holds.');
  });

  test('joins the table of ours that came beside it', async () => {
    const { desk: import_ } = await desk();
    const rondas = 'Nido;Fecha y hora;Superficie\nW-100;2026-07-20 21:00;liso\n';
    await import_.look(picked({ 'nests.csv': nests, 'rondas.csv': rondas }));
    await import_.matched();
    expect(preview(import_).read.counts).toMatchObject({
      nests: { rows: 1, taken: 1 },
      visits: { rows: 1, taken: 1 },
    });
    import_.backToColumns();
    expect(matching(import_).sheets).toHaveLength(1);
  });

  test('may be pasted; a text that is none is refused in words', async () => {
    const { desk: import_ } = await desk();
    await import_.lookPasted('Nido\tHuevos\nN-1\t100\n');
    expect(matching(import_).sheets[0]?.mapping.table).toBe('nests');
    await import_.lookPasted('only words');
    expect(import_.stage).toMatchObject({ stage: 'refused' });
  });
});
