import { gzipSync } from 'node:zlib';
import { expect, test } from 'vitest';
import { bundled } from '../../../tests/support/bundled.js';

test('timeOnAir alone bundles to 1.5 kB compressed', async () => {
  const { code, files } = await bundled("export { timeOnAir } from '@finial/lora';");
  expect(files.some((file) => file.endsWith('timeOnAir.ts'))).toBe(true);
  const gzipBytes = gzipSync(code, { level: 9 }).length;
  expect(gzipBytes).toBeLessThanOrEqual(1500);
  // A bundle without the function would pass, too.
  expect(gzipBytes).toBeGreaterThan(1000);
});
