import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import vectors from '../../../tests/reference/hardware-vectors.json' with { type: 'json' };
import { knowsPhase, type MagnitudeSweep, type OnePortSweep, parseSweepCsv } from '../src/index.js';
import { refusal } from './sweepSupport.js';

describe('against hardware-vectors', () => {
  test.each(vectors.mismatch)('VSWR $vswr, return loss $returnLossDb dB', ({ vswr, returnLossDb, gamma }) => {
    const byVswr = parseSweepCsv(`freq_mhz;VSWR\n868;${vswr}\n`) as MagnitudeSweep;
    const byLoss = parseSweepCsv(`freq_mhz;return loss (dB)\n868;${returnLossDb}\n`) as MagnitudeSweep;
    // Printed to five decimals; a return loss printed to three tells less where it is small.
    expect(byVswr.reflectionCoefficient[0]).toBeCloseTo(gamma, 4.9);
    expect(Math.abs((byLoss.reflectionCoefficient[0] ?? 9) - gamma)).toBeLessThan(5e-6 + 6e-5 * gamma);
    expect(knowsPhase(byVswr)).toBe(false);
  });
  test.each(vectors.impedanceToVswr)('$R + j$X', ({ R, X, z0, re, im }) => {
    const sweep = parseSweepCsv(`frequencyHz\tR\tX\n868e6\t${R}\t${X}\n`, {
      referenceOhm: z0,
    }) as OnePortSweep;
    expect(Math.abs((sweep.reflectionReal[0] ?? 9) - re)).toBeLessThan(5.1e-7);
    expect(Math.abs((sweep.reflectionImaginary[0] ?? 9) - im)).toBeLessThan(5.1e-7);
    expect(knowsPhase(sweep)).toBe(true);
  });
});

describe('columns, units, separators', () => {
  test.each([
    ['comma, unit in brackets', 'Frequency (MHz),VSWR\n867,1.5\n868,2\n', {}],
    ['square brackets, quotes, tab', '"freq [GHz]"\t"swr"\n"0.867"\t"1.5"\n0.868\t2\n', {}],
    [
      'camel case, semicolon, comments, blank lines',
      '! swept\n\nfrequencyHz;VSWR\n# first\n867e6;1.5\n\n868e6;2\n',
      {},
    ],
    ['option for the unit', 'freq,vswr\n867000,1.5\n868000,2\n', { frequencyUnit: 'kHz' }],
    ['named columns', 'f0 MHz,x,s\n867,9,1.5\n868,9,2\n', { columns: { frequency: 'f0 MHz', vswr: 's' } }],
    ['CRLF, mark, no last line end', '\uFEFFf_mhz,swr\r\n867,1.5\r\n868,2', {}],
    ['separator said', 'f_mhz,swr\n867,1.5\n868,2\n', { separator: ',' }],
  ] as const)('%s', (_, text, source) => {
    const sweep = parseSweepCsv(text, source) as MagnitudeSweep;
    expect([...sweep.frequencyHz]).toEqual([867e6, 868e6]);
    expect(sweep.reflectionCoefficient[0]).toBeCloseTo(0.2, 15);
    expect(sweep.reflectionCoefficient[1]).toBeCloseTo(1 / 3, 15);
  });
  test('impedance goes before return loss and VSWR; comments are kept', () => {
    const sweep = parseSweepCsv('# a\nMHz,freq_mhz,vswr,rl,r,x\n0,868,3,9,50,0\n');
    expect(knowsPhase(sweep)).toBe(true);
    expect(sweep.comments).toEqual(['a']);
  });
  test('a negative resistance is kept and warned of', () => {
    expect(parseSweepCsv('f_mhz,r,x\n868,-10,0\n').warnings[0]).toContain('more comes back');
  });
});

describe('refusals', () => {
  test.each([
    ['decimal comma between semicolons', 'f_mhz;vswr\n868,1;1.5\n', 2, 1, 'decimal comma'],
    ['ragged by a decimal comma', 'f_mhz,vswr\n868,1,5\n', 2, 7, 'decimal comma'],
    ['no number', 'f_mhz,vswr\n868,inf\n', 2, 5, 'a number'],
    ['negative return loss', 'f_mhz,return loss\n868,-14\n', 2, 5, 'positive'],
    ['VSWR below 1', 'f_mhz,vswr\n868,0.9\n', 2, 5, 'VSWR of 1'],
    ['falling', 'f_mhz,vswr\n868,1.5\n867,1.5\n', 3, 1, 'more than the frequency'],
    ['no unit', 'freq,vswr\n868,1.5\n', 1, 1, 'frequencyUnit'],
    ['no frequency', 'a,vswr\n868,1.5\n', 1, undefined, 'a column of the frequency'],
    ['resistance alone', 'f_mhz,r\n868,50\n', 1, undefined, 'one each of resistance and reactance'],
    ['header only', 'f_mhz,vswr\n', undefined, undefined, 'a header and rows'],
    ['minus the reference', 'f_mhz,r,x\n868,-50,0\n', 2, 5, 'passive'],
  ])('%s', (_, text, line, column, words) => {
    const error = refusal(() => parseSweepCsv(text, { file: 'a.csv' }));
    expect(error).toMatchObject({ name: 'InputError', code: 'malformed-file', file: 'a.csv' });
    expect([error.line, error.column]).toEqual([line, column]);
    expect(error.message).toContain(words);
  });
  test('a named column that is not there', () => {
    const source = { columns: { frequency: 'f', vswr: 's' } };
    expect(refusal(() => parseSweepCsv('f_mhz,vswr\n868,2\n', source)).argument).toBe('columns.frequency');
  });
});

test('written by rows, read by columns: VSWR comes back', () => {
  const rows = fc.array(fc.double({ min: 1, max: 1000, noNaN: true }), { minLength: 1, maxLength: 20 });
  fc.assert(
    fc.property(rows, (vswrs) => {
      const text = `f_mhz,vswr\n${vswrs.map((vswr, index) => `${800 + index},${vswr}`).join('\n')}\n`;
      const { reflectionCoefficient } = parseSweepCsv(text) as MagnitudeSweep;
      for (const [index, part] of reflectionCoefficient.entries()) {
        expect((1 + part) / (1 - part) / (vswrs[index] ?? 0)).toBeCloseTo(1, 11);
      }
    }),
  );
});

test('thousands of blanks in a header, and a header of ever more names, are refused at once and in short', () => {
  const blanks = `frequency (MHz),a${' '.repeat(200_000)}b\n868,1.5\n`;
  expect(() => parseSweepCsv(blanks)).toThrow(
    expect.objectContaining({ code: 'malformed-file', argument: 'header' }),
  );
  const names = Array.from({ length: 20_000 }, (_, index) => `name ${index}`).join(',');
  const columns = { frequency: 'f', vswr: 'v' };
  const { message } = refusal(() => parseSweepCsv(`${names}\n${names}\n`, { columns }));
  expect(message.length).toBeLessThanOrEqual(1500);
}, 5000);
