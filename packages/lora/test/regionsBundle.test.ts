import { readdirSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { bundled } from '../../../tests/support/bundled.js';
import { everyRegion } from './regionTables.js';

/** Ceiling of one region alone, minified and compressed; the README says it. */
const ceilingBytes = 1500;

describe('a region that is imported alone', () => {
  const subpaths = readdirSync(new URL('../src/regions/', import.meta.url)).map((file) =>
    file.replace('.ts', ''),
  );

  test('there is one file for each', () =>
    expect(subpaths.sort()).toEqual(everyRegion.map(([name]) => name.toLowerCase()).sort()));

  test.each(everyRegion)(
    '%s: below 1500 bytes compressed, and no other region comes with it',
    async (name) => {
      const { code: text } = await bundled(`export * from '@finial/lora/regions/${name.toLowerCase()}'`);
      expect(text).toContain(`"${name}"`);
      expect(gzipSync(text).length).toBeLessThanOrEqual(ceilingBytes);
      for (const [other] of everyRegion) {
        if (other !== name) expect(text.includes(other), other).toBe(false);
      }
    },
  );

  test('asking for its payloads brings no other region either', async () => {
    const { code: text } = await bundled(
      `import { maxPayload } from '@finial/lora'; import { KR920 } from '@finial/lora/regions/kr920';
       export const largest = maxPayload({ region: KR920, dataRate: 0, direction: 'uplink' });`,
    );
    const found = everyRegion.map(([name]) => name).filter((name) => text.includes(`name:"${name}"`));
    expect(found).toEqual(['KR920']);
  });
});
