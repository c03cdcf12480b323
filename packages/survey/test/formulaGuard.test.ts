import fc from 'fast-check';
import papaparse from 'papaparse';
import { describe, expect, test } from 'vitest';
import { readSurvey, readUplinks, surveyCsv } from '../src/index.js';

const frame = { latitudeDeg: 45.7, longitudeDeg: 4.9, received: false };
const header = 'latitudeDeg,longitudeDeg,received,spot\n';

function spotRead(cell: string): string | undefined {
  return readSurvey(`${header}45.7,4.9,0,${cell}\n`).observations[0]?.spot;
}

describe('text that a spreadsheet would run', () => {
  test.each([
    ['=1+1', `"'=1+1"`],
    ['+33 1', `"'+33 1"`],
    ['-x', `"'-x"`],
    ['@sum', `"'@sum"`],
    ["'=x", `"''=x"`],
    ['-5', '-5'],
    ['+5.25', '+5.25'],
    ["'s-Gravenhage", `"'s-Gravenhage"`],
    ['mill', 'mill'],
  ])('%j is written as %s and comes back', (spot, cell) => {
    const text = surveyCsv([{ ...frame, spot }]);
    expect(text.split('\r\n')[1]).toBe(`${cell},45.7,4.9,0`);
    expect(readSurvey(text).observations[0]?.spot).toBe(spot);
  });

  test('no cell begins a formula, and any text comes back', () => {
    const sign = fc.constantFrom('=', '+', '-', '@', '\t', "'", '"', '1', '.', 'a', ' ', ',', '|', '\n');
    const spot = fc
      .string({ unit: sign, minLength: 1, maxLength: 8 })
      .filter((text) => /^[^ \n].*[^\s]$|^[^\s]$/s.test(text));
    fc.assert(
      fc.property(spot, fc.constantFrom(',', ';', '\t', '|'), (text, separator) => {
        const csv = surveyCsv([{ ...frame, spot: text }], { separator });
        expect(readSurvey(csv, { separator }).observations[0]?.spot).toBe(text);
        const cells = papaparse.parse<string[]>(csv, { delimiter: separator, newline: '\r\n' }).data.flat();
        for (const cell of cells) {
          if (!/^[+-]?\d+(\.\d+)?$/.test(cell)) expect(cell).not.toMatch(/^[=+\-@\t\r\n]/);
        }
      }),
      { numRuns: 2000 },
    );
  });

  test('an apostrophe comes off before a formula only, in CSV only', () => {
    expect(spotRead("'=1+1")).toBe('=1+1');
    expect(spotRead("'s-Gravenhage")).toBe("'s-Gravenhage");
    expect(spotRead("'")).toBe("'");
    const record = { ...frame, spot: "'=1" };
    expect(readSurvey(JSON.stringify(record)).observations[0]?.spot).toBe("'=1");
    const uplink = "timeUtc,device\n2024-07-24T06:00:00Z,'=1\n";
    expect(readUplinks(uplink).uplinks[0]?.device).toBe('=1');
  });

  test.each(["'", '=', '@'])('%s is no separator: it would stand before the next cell', (separator) => {
    expect(() => surveyCsv([frame], { separator })).toThrow(
      expect.objectContaining({ argument: 'separator' }),
    );
  });
});
