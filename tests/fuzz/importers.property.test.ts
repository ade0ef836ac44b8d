import { afterAll, describe, expect, test } from 'vitest';
import { allImporters } from './all-importers.ts';
import { feed } from './feed.ts';

/** A few inputs each; `npm run fuzz` gives ten thousand. */
const inputs = 14;
const seed = 2026;

afterAll(async () => {
  for (const { close } of allImporters) await close?.();
});

describe('damaged, odd and hostile input loses nothing in silence and stops nothing', () => {
  test.each(allImporters.map((importer) => [importer.name, importer] as const))(
    '%s',
    async (_, importer) => {
      const broken: unknown[] = [];
      for (let at = 0; at < inputs; at++) {
        const { outcome } = await feed(importer, seed, at);
        if (typeof outcome !== 'string') broken.push({ seed, at, ...outcome });
      }
      expect(broken).toEqual([]);
    },
  );
});
