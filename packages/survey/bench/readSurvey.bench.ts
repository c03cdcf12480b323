import { parse } from 'csv-parse/browser/esm/sync';
import { expect, test } from 'vitest';
import { bundled } from '../../../tests/support/bundled.js';

// As a bundle, loaded by Node itself, which is how users have it: the test runner would wrap each import in a getter.
const { code } = await bundled("export { readSurvey } from '@finial/survey';");
const { readSurvey } = (await import(
  /* @vite-ignore */ `data:text/javascript,${encodeURIComponent(code)}`
)) as typeof import('@finial/survey');

const rowCount = 20_000;

/** A log of frames, every third one missed, as a node and a gateway write it together. */
function drawnLog(): string {
  const rows = Array.from({ length: rowCount }, (_, row) => {
    const time = new Date(1_773_482_700_000 + 17_000 * row).toISOString();
    const signal = row % 3 === 0 ? '0,,' : `1,${-90 - (row % 40)},${(5 - (row % 60) / 4).toFixed(2)}`;
    return `${time},spot ${row % 71},${(41.2 + row * 1e-6).toFixed(6)},-37.432200,${row},9,${signal}`;
  });
  const header = 'time_utc,spot,latitude_deg,longitude_deg,counter,spreading_factor,received,rssi_dbm,snr_db';
  return [header, ...rows, ''].join('\n');
}

test('a log against the bare CSV library, which only cuts it into cells', async ({ bench }) => {
  const log = drawnLog();
  expect(readSurvey(log).observations).toHaveLength(rowCount);
  const options = { time: 1500, warmupTime: 300, iterations: 3 };
  const result = await bench.compare(
    bench('the CSV library', () => void parse(log)),
    bench('readSurvey', () => void readSurvey(log)),
    options,
  );
  const seconds = 1 / result.get('readSurvey').throughput.mean;
  const ratio = result.get('readSurvey').throughput.mean / result.get('the CSV library').throughput.mean;
  console.log(
    `readSurvey takes ${((seconds / rowCount) * 1e6).toFixed(1)} µs a row, ${ratio.toFixed(2)} times the speed of cutting alone`,
  );
  expect(ratio).toBeGreaterThan(0.15);
});
