// npm run screenshots [-- NAME …]: every screen (or those named) at phone and laptop size, dark and
// day, into screenshots/.
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { LAPTOP, launch, PHONE } from '../tests/journeys/launch.ts';
import { ensureBuilt } from './build.mjs';
import { SCREENS } from './screens-to-show.ts';
import { settled } from './settled.ts';

const FOLDER = join(import.meta.dirname, '..', 'screenshots');
const SIZES = [PHONE, LAPTOP];
const INKS = ['dark', 'day'] as const;

const wanted = process.argv.slice(2);
const screens = SCREENS.filter(({ name }) => wanted.length === 0 || wanted.includes(name));

ensureBuilt();
mkdirSync(FOLDER, { recursive: true });
let failed = 0;
for (const viewport of SIZES) {
  for (const ink of INKS) {
    for (const { name, show } of screens) {
      const file = join(FOLDER, `${name}-${viewport.width}x${viewport.height}-${ink}.png`);
      const app = await launch({ viewport, colorScheme: ink === 'dark' ? 'dark' : 'light' });
      try {
        await app.page.goto(app.address);
        await settled(app.page);
        await show(app.page, ink);
        await settled(app.page);
        await app.page.screenshot({ path: file, animations: 'disabled' });
        console.log(file);
      } catch (problem) {
        failed++;
        console.error(`${name} (${ink}): ${problem instanceof Error ? problem.message : 'failed'}`);
      } finally {
        await app.close();
      }
      for (const error of app.consoleErrors) console.error(`${name} (${ink}): ${error}`);
    }
  }
}
process.exitCode = failed === 0 ? 0 : 1;
