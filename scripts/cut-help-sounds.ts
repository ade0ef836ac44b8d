// Cuts the short sounds that the help plays out of audio-fixtures: npx tsx scripts/cut-help-sounds.ts
import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { readWav } from '../src/core/acoustics/wav.ts';
import { writeWav } from '../src/core/acoustics/write-wav.ts';

const ROOT = join(import.meta.dirname, '..');
const seconds = 8;
/** Where in each fixture its eight seconds begin. */
const from_s = { quiet: 2, occasional: 2, steady: 1, waterfall: 2 } as const;

await mkdir(join(ROOT, 'public', 'sounds'), { recursive: true });
for (const [state, start_s] of Object.entries(from_s)) {
  const read = readWav(await readFile(join(ROOT, 'audio-fixtures', `${state}.wav`)));
  if (!read.ok) throw new Error(`${state}.wav: ${read.message}`);
  const { rate_hz } = read.wav;
  const cut = read.wav.read(start_s * rate_hz, (start_s + seconds) * rate_hz);
  await writeFile(join(ROOT, 'public', 'sounds', `${state}.wav`), writeWav(cut, rate_hz));
}
