import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import vectors from '../../../tests/reference/hardware-vectors.json' with { type: 'json' };
import {
  formatTouchstone,
  insertionLossDb,
  isInputError,
  type OnePortSweep,
  parseTouchstone,
  parseTouchstoneTwoPort,
} from '../src/index.js';
import { refusal, sweepOf } from './sweepSupport.js';

const syntax = vectors.touchstoneSyntax as readonly {
  readonly text: string;
  readonly valid: boolean;
  readonly why: string;
  readonly expect?: readonly (readonly [number, number, number])[];
  readonly expectZ?: readonly (readonly [number, number, number])[];
}[];

function rowsOf(sweep: OnePortSweep): (readonly [number, number, number])[] {
  return Array.from(sweep.frequencyHz, (hertz, index) => [
    hertz,
    sweep.reflectionReal[index] ?? Number.NaN,
    sweep.reflectionImaginary[index] ?? Number.NaN,
  ]);
}

/** Impedance of a row, written out apart from the code under test. */
function impedanceOf(
  [hertz, re, im]: readonly [number, number, number],
  referenceOhm: number,
): readonly number[] {
  const size = (1 - re) ** 2 + im ** 2;
  return [hertz, (referenceOhm * (1 - re ** 2 - im ** 2)) / size, (2 * referenceOhm * im) / size];
}

describe('syntax of the Touchstone specification, hardware-vectors touchstoneSyntax', () => {
  test('the file still holds its cases', () => {
    expect(syntax).toHaveLength(8);
    expect(syntax.filter(({ valid }) => !valid)).toHaveLength(2);
  });
  test.each(syntax)('$why', (vector) => {
    if (!vector.valid) {
      expect(refusal(() => parseTouchstone(vector.text))).toMatchObject({
        name: 'InputError',
        code: 'malformed-file',
      });
      return;
    }
    const sweep = parseTouchstone(vector.text);
    expect(sweep.frequencyHz.length).toBeGreaterThan(0);
    if (vector.expect !== undefined) expect(rowsOf(sweep)).toEqual(vector.expect);
    for (const [index, want] of (vector.expectZ ?? []).entries()) {
      const got = impedanceOf(rowsOf(sweep)[index] ?? [0, 0, 0], sweep.referenceOhm);
      for (const [part, value] of want.entries()) expect(got[part]).toBeCloseTo(value, 9);
    }
  });
});

// Touchstone 2.0 (2009), paired examples of normalisation: 0.99 at -4 degrees over 75 ohms is 74.25 ohms at -4 degrees.
test('version 1 and version 2 state one impedance', () => {
  const first = parseTouchstone('# MHz Z MA R 75\n100 0.99 -4\n');
  const second = parseTouchstone(
    '[Version] 2.0\n# MHz Z MA R 75\n[Number of Ports] 1\n[Number of Frequencies] 1\n[Network Data]\n100 74.25 -4\n[End]\n',
  );
  expect(first.reflectionReal[0]).toBeCloseTo(second.reflectionReal[0] ?? 9, 14);
  expect(first.reflectionImaginary[0]).toBeCloseTo(second.reflectionImaginary[0] ?? 9, 14);
});

describe('forms that say the same', () => {
  const plain = parseTouchstone('# MHz S RI R 50\n868.1 0.3 -0.4\n868.3 0.1 0\n');
  test.each([
    ['GHz by default', '# S RI R 50\n.8681 .3 -.4\n8.683e-1 1e-1 0\n'],
    ['kHz, and what stands after it', '#khz ri\n868100 +0.3 -4.0E-1\n868300 0.1 -0.0\n'],
    ['Hz, D exponents', '# HZ S RI R 50\n8.681D8 3D-1 -4.0d-1\n868300000 0.1 0\n'],
    ['CR line ends', '# MHz S RI R 50\r868.1 0.3 -0.4\r868.3 0.1 0\r'],
    ['CRLF line ends, no last one', '# MHz S RI R 50\r\n868.1 0.3 -0.4\r\n868.3 0.1 0'],
    ['byte order mark', '\uFEFF# MHz S RI R 50\n868.1 0.3 -0.4\n868.3 0.1 0\n'],
    ['tabs, blanks before #', ' \t# MHz\tS RI R 50\n\t868.1\t0.3 -0.4\n\n868.3 0.1 0\n'],
    ['comments anywhere', '!a\n# MHz S RI ! b\n868.1 0.3 -0.4!c\n ! d\n868.3 0.1 0\n'],
    ['R in front', '# R 50.0 ri s mhz\n868.1 0.3 -0.4\n868.3 0.1 0\n'],
    ['a pair on the next line', '# MHz S RI R 50\n868.1\n0.3 -0.4\n868.3 0.1 0\n'],
    [
      'impedance',
      '# MHz Z RI R 50\n868.1 1.153846153846154 -1.230769230769231\n868.3 1.2222222222222223 0\n',
    ],
    [
      'admittance',
      '# MHz Y RI R 50\n868.1 0.40540540540540543 0.43243243243243246\n868.3 0.8181818181818182 0\n',
    ],
    ['magnitude', '# MHz S MA R 50\n868.1 0.5 -53.13010235415598\n868.3 0.1 0\n'],
    ['decibels', '# MHz S DB R 50\n868.1 -6.020599913279624 -53.13010235415598\n868.3 -20 360\n'],
    [
      'version 2 with its keywords, [Reference] going on',
      '! c\n[version] 2.0\n# MHz S RI R 75\n[NUMBER OF PORTS] 1\n[Number of  Frequencies] 2 ! two\n[Reference]\n50\n[Matrix Format] Full\n[Network Data]\n868.1 0.3 -0.4\n868.3 0.1 0\n[End]\n',
    ],
    [
      'version 2.1, information block',
      '[Version] 2.1\n# MHz S RI\n[Number of Ports] 1\n[Number of Frequencies] 2\n[Begin Information]\n[Anything] 1 2\n[End Information]\n[Network Data]\n868.1 0.3 -0.4\n868.3 0.1 0\n[End]\n',
    ],
    [
      'version 2, admittance in siemens',
      '[Version] 2.0\n# MHz Y RI R 50\n[Number of Ports] 1\n[Number of Frequencies] 2\n[Network Data]\n868.1 0.008108108108108109 0.00864864864864865\n868.3 0.016363636363636365 0\n[End]\n',
    ],
  ])('%s', (_, text) => {
    const sweep = parseTouchstone(text);
    expect([...sweep.frequencyHz]).toEqual([868.1e6, 868.3e6]);
    expect(sweep.referenceOhm).toBe(50);
    expect(sweep.warnings).toEqual([]);
    for (const [index, [, re, im]] of rowsOf(sweep).entries()) {
      expect(re).toBeCloseTo(plain.reflectionReal[index] ?? 9, 14);
      expect(im).toBeCloseTo(plain.reflectionImaginary[index] ?? 9, 14);
    }
  });
  test('comments are kept', () => {
    const text = '! one\n# MHz S RI R 50 ! two\n868 0.1 0 !three\n';
    expect(parseTouchstone(text).comments).toEqual(['one', 'two', 'three']);
  });
});

describe('what is passed over is named', () => {
  test.each([
    [
      'further option lines',
      '# MHz S RI R 50\n# GHz S MA R 50\n868 0.1 0\n',
      'line 2: a further option line',
    ],
    [
      'a repeated frequency',
      '# MHz S RI R 50\n868 0.1 0\n868 0.2 0\n869 0.3 0\n',
      'line 3: the frequency of the row before',
    ],
    ['more than was sent', '# MHz S RI R 50\n868 0.1 0\n869 1.1 0\n', 'was the analyser calibrated'],
    ['two ports', '# MHz S MA R 50\n868 .5 0 .9 0 .9 0 .1 0\n', 'S11 of a two-port'],
    [
      'no [End] in version 2.0',
      '[Version] 2.0\n# MHz S RI\n[Number of Ports] 1\n[Number of Frequencies] 1\n[Network Data]\n868 0.1 0\n',
      'no [End]',
    ],
    [
      'text behind [End]',
      '[Version] 2.0\n# MHz S RI\n[Number of Ports] 1\n[Number of Frequencies] 1\n[Network Data]\n868 0.1 0\n[End]\n869 1 1\n',
      'line 8: behind [End]',
    ],
  ])('%s', (title, text, want) => {
    const { warnings } = parseTouchstone(text, { file: title === 'two ports' ? 'a.S2P' : 'a.s1p' });
    expect(warnings).toHaveLength(1);
    expect(warnings[0]).toContain(want);
  });
  test('the reflection above 1 stays as it is', () => {
    expect(parseTouchstone('# MHz S RI R 50\n868 1.1 0\n').reflectionReal[0]).toBe(1.1);
  });
  test('of a repeated frequency the first row stays', () => {
    const sweep = parseTouchstone('# MHz S RI R 50\n868 0.1 0\n868 0.2 0\n869 0.3 0\n');
    expect([...sweep.reflectionReal]).toEqual([0.1, 0.3]);
  });
});

describe('refusals say where', () => {
  const head = '[Version] 2.0\n# MHz S RI\n';
  test.each([
    ['decimal comma', '# MHz S RI R 50\n868,1 0.1 0\n', 2, 1, 'decimal comma'],
    ['decimal comma in a pair', '# MHz S RI R 50\n868.1 0,1 0\n', 2, 7, 'decimal comma'],
    ['no number', '# MHz S RI R 50\n868 0.1 0\n869 n/a 0\n', 3, 5, 'a number'],
    ['NaN', '# MHz S RI R 50\n868 NaN 0\n', 2, 5, 'a number'],
    ['too large for a double', '# MHz S RI R 50\n868 1e999 0\n', 2, 5, 'a number'],
    ['last line cut in the pair', '# MHz S RI R 50\n868 0.1 0\n869 0.1', 3, 8, 'cut off'],
    ['last line cut behind the frequency', '# MHz S RI R 50\n868 0.1 0\n869', 3, 4, 'cut off'],
    ['falling frequency', '# MHz S RI R 50\n869 0.1 0\n868 0.1 0\n', 3, 1, 'more than the frequency before'],
    ['negative frequency', '# MHz S RI R 50\n-1 0.1 0\n', 2, 1, 'hertz'],
    ['too many numbers', '# MHz S RI R 50\n868 0.1 0 0.2 0\n', 2, 11, '3 numbers'],
    ['a two-port row', '# MHz S RI R 50\n868 .1 0 .9 0 .9 0 .1 0\n', 2, 10, 'pass ports: 2'],
    ['no option line', '868 0.1 0\n', 1, 1, 'option line'],
    ['empty', '', 1, 1, 'option line'],
    ['no rows', '# MHz S RI R 50\n', 2, undefined, 'at least one frequency'],
    ['unknown unit', '# THz S RI R 50\n1 0 0\n', 1, 3, 'GHz'],
    ['hybrid parameters', '# MHz H RI R 50\n1 0 0\n', 1, 7, 'hybrid'],
    ['two formats', '# MHz S RI MA R 50\n1 0 0\n', 1, 12, 'one format'],
    ['R without number', '# MHz S RI R\n1 0 0\n', 1, 12, 'a resistance'],
    ['R with a comma', '# MHz S RI R 50,0\n1 0 0\n', 1, 14, 'decimal comma'],
    ['R zero', '# MHz S RI R 0\n1 0 0\n', 1, 14, 'reference resistance'],
    ['two references for one port', '# MHz S RI R 50 75\n1 0 0\n', undefined, undefined, 'one reference'],
    ['an impedance of minus the reference', '# MHz Z RI R 50\n1 -1 0\n', 2, 1, 'comes back'],
    ['keyword without version', '# MHz S RI\n[Number of Ports] 1\n1 0 0\n', 2, 1, '[Version]'],
    ['version too late', '# MHz S RI\n[Version] 2.0\n', 2, 1, 'before everything'],
    ['version 3', '[Version] 3.0\n# MHz S RI\n', 1, 1, '2.0 or 2.1'],
    ['unknown keyword', `${head}[Colour] red\n`, 3, 1, 'unknown'],
    ['mixed mode', `${head}[Number of Ports] 1\n[Mixed-Mode Order] D2,1\n`, 4, 1, 'mixed-mode'],
    ['keyword twice', `${head}[Number of Ports] 1\n[Number of Ports] 1\n`, 4, 1, 'once'],
    [
      'three ports',
      `${head}[Number of Ports] 3\n[Number of Frequencies] 1\n[Network Data]\n1 0 0\n[End]\n`,
      3,
      undefined,
      'one or two',
    ],
    [
      'ports not said',
      `${head}[Number of Frequencies] 1\n[Network Data]\n1 0 0\n[End]\n`,
      7,
      1,
      '[Number of Ports]',
    ],
    [
      'rows not counted',
      `${head}[Number of Ports] 1\n[Network Data]\n1 0 0\n[End]\n`,
      7,
      1,
      '[number of frequencies]',
    ],
    [
      'rows missing',
      `${head}[Number of Ports] 1\n[Number of Frequencies] 2\n[Network Data]\n1 0 0\n[End]\n`,
      4,
      1,
      'as many rows',
    ],
    ['numbers before [Network Data]', `${head}[Number of Ports] 1\n1 0 0\n`, 4, 1, '[Network Data]'],
    [
      '[End] missing in 2.1',
      '[Version] 2.1\n# MHz S RI\n[Number of Ports] 1\n[Number of Frequencies] 1\n[Network Data]\n1 0 0',
      6,
      6,
      'cut off',
    ],
  ])('%s', (_, text, line, column, words) => {
    const error = refusal(() => parseTouchstone(text, { file: 'whip.ts' }));
    expect(error).toMatchObject({ name: 'InputError', code: 'malformed-file', file: 'whip.ts' });
    expect([error.line, error.column]).toEqual([line, column]);
    expect(error.message).toContain(words);
  });
  test.each([
    ['no text', () => parseTouchstone(5 as unknown as string), 'wrong-type'],
    ['too long', () => parseTouchstone('#\n1 0 0\n', { maximumCharacters: 4 }), 'out-of-range'],
    ['three ports', () => parseTouchstone('#\n1 0 0\n', { ports: 3 as 2 }), 'unknown-option'],
    ['.s4p', () => parseTouchstone('#\n1 0 0\n', { file: 'x.s4p' }), 'malformed-file'],
    ['options null', () => parseTouchstone('#\n1 0 0\n', null as never), 'wrong-type'],
    ['file no name', () => parseTouchstone('#\n1 0 0\n', { file: 3 as never }), 'wrong-type'],
    ['one port as two', () => parseTouchstoneTwoPort('#\n1 0 0\n', { ports: 1 }), 'unknown-option'],
  ])('%s', (_, call, code) => {
    expect(refusal(call)).toMatchObject({ name: 'InputError', code });
  });
});

test('any text is read or refused by name, never anything else', () => {
  const words = fc.constantFrom(
    '#',
    '!',
    '[Version] 2.0',
    '[Reference]',
    '[End]',
    'MHz',
    'R',
    '50',
    '1',
    '-2.5',
    '868,1',
    '1e400',
    '\n',
    '\r',
    ' ',
    '[',
    ']',
    'é',
  );
  fc.assert(
    fc.property(fc.array(words, { maxLength: 40 }), fc.constantFrom(1, 2), (parts, ports) => {
      try {
        const sweep = parseTouchstone(parts.join(' '), { ports: ports as 1 | 2 });
        expect([...sweep.reflectionReal, ...sweep.reflectionImaginary].every(Number.isFinite)).toBe(true);
      } catch (error) {
        expect(isInputError(error), String(error)).toBe(true);
      }
    }),
    { numRuns: 500 },
  );
});

describe('two ports', () => {
  test('version 1 order is 11 21 12 22', () => {
    const cable = parseTouchstoneTwoPort(
      '# MHz S RI R 50\n868 .11 0 .21 0 .12 0 .22 0\n869\n .11 0 .21 0\n .12 0 .22 .1\n',
    );
    expect([cable.s11, cable.s21, cable.s12, cable.s22].map(({ real }) => real[0])).toEqual([
      0.11, 0.21, 0.12, 0.22,
    ]);
    expect(cable.s22.imaginary[1]).toBe(0.1);
  });
  test.each([
    ['21_12', '.11 0 .21 0 .12 0 .22 0', 'Full', [0.11, 0.21, 0.12, 0.22]],
    ['12_21', '.11 0 .12 0 .21 0 .22 0', 'Full', [0.11, 0.21, 0.12, 0.22]],
    ['12_21', '.11 0 .12 0 .22 0', 'Upper', [0.11, 0.12, 0.12, 0.22]],
    ['21_12', '.11 0\n.21 0 .22 0', 'lower', [0.11, 0.21, 0.21, 0.22]],
  ])('version 2, %s, %s, %s', (order, row, format, want) => {
    const text = `[Version] 2.0\n# MHz S RI R 50\n[Number of Ports] 2\n[Two-Port Data Order] ${order}\n[Number of Frequencies] 1\n[Reference] 50\n50\n[Matrix Format] ${format}\n[Network Data]\n868 ${row}\n[End]\n`;
    const cable = parseTouchstoneTwoPort(text);
    expect([cable.s11, cable.s21, cable.s12, cable.s22].map(({ real }) => real[0])).toEqual(want);
    expect(parseTouchstone(text).reflectionReal[0]).toBe(0.11);
  });
  // A series resistor of 2R has S11 = S22 = 1/2, S21 = S12 = 1/2; a shunt of R/2 has S11 = -1/2 (textbook two-ports).
  test('series resistor by admittance, shunt by impedance', () => {
    const series = parseTouchstoneTwoPort('# MHz Y RI R 50\n1 .5 0 -.5 0 -.5 0 .5 0\n');
    const shunt = parseTouchstoneTwoPort('# MHz Z RI R 50\n1 .5 0 .5 0 .5 0 .5 0\n');
    for (const { real } of [series.s11, series.s21, series.s12, series.s22])
      expect(real[0]).toBeCloseTo(0.5, 15);
    for (const { real } of [shunt.s11, shunt.s22]) expect(real[0]).toBeCloseTo(-0.5, 15);
    for (const { real } of [shunt.s21, shunt.s12]) expect(real[0]).toBeCloseTo(0.5, 15);
  });
  test('noise parameters behind the data are named', () => {
    const text =
      '# MHz S MA R 50\n868 .1 0 .9 0 .9 0 .1 0\n869 .1 0 .8 0 .8 0 .1 0\n868 1 .5 10 .2\n869 1 .5 10 .2\n';
    const cable = parseTouchstoneTwoPort(text);
    expect(cable.frequencyHz).toHaveLength(2);
    expect(cable.warnings).toEqual(['line 4: noise parameters, passed over from here on']);
  });
  test.each([
    [
      'falls',
      '# MHz S MA R 50\n869 .1 0 .9 0 .9 0 .1 0\n868 .1 0 .9 0 .9 0 .1 0\n',
      'more than the frequency',
    ],
    ['is cut short', '# MHz S MA R 50\n869 .1 0 .9 0 .9 0 .1\n', 'cut off'],
    ['references differ', '# MHz S MA R 50 75\n869 .1 0 .9 0 .9 0 .1 0\n', 'the same reference'],
    [
      'order is not said',
      '[Version] 2.0\n# MHz S RI\n[Number of Ports] 2\n[Number of Frequencies] 1\n[Network Data]\n1 0 0 0 0 0 0 0 0\n[End]\n',
      'Two-Port Data Order',
    ],
  ])('%s: refused', (_, text, words) => {
    expect(refusal(() => parseTouchstoneTwoPort(text)).message).toContain(words);
  });
  test('loss of a cable, on and between points', () => {
    // The loss goes with the root of frequency: 20² MHz 2 dB, 22² MHz 2.2 dB and so on; 25² MHz lies between two points.
    const rows = [20, 22, 24, 26, 28, 30].map(
      (root) => `${root ** 2} -40 0 -${root / 10} 20 -${root / 10} 20 -40 0\n`,
    );
    const cable = parseTouchstoneTwoPort(`# MHz S DB R 50\n${rows.join('')}`);
    expect(insertionLossDb(cable, { frequencyHz: 400e6 })).toBeCloseTo(2, 12);
    expect(insertionLossDb(cable, { frequencyHz: 625e6 })).toBeCloseTo(2.5, 3);
    expect(() => insertionLossDb(cable, { frequencyHz: 99e6 })).toThrow('inside the two-port');
  });
});

test('at a point the insertion loss is what the row says', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0.1, max: 60, noNaN: true }),
      fc.double({ min: -180, max: 180, noNaN: true }),
      (lossDb, angleDeg) => {
        const row = (mhz: number) => `${mhz} -40 0 ${-lossDb} ${angleDeg} ${-lossDb} ${angleDeg} -40 0\n`;
        const twoPort = parseTouchstoneTwoPort(`# MHz S DB R 50\n${[400, 410, 420, 430].map(row).join('')}`);
        expect(insertionLossDb(twoPort, { frequencyHz: 410e6 })).toBeCloseTo(lossDb, 9);
      },
    ),
  );
});

describe('written and read back', () => {
  const part = fc.double({ min: -1.4, max: 1.4, noNaN: true });
  const sweeps = fc
    .tuple(
      fc.uniqueArray(fc.double({ min: 0, max: 1e10, noNaN: true }), { minLength: 1, maxLength: 12 }),
      fc.infiniteStream(part),
    )
    .map(([hertz, parts]) => {
      const next = () => parts.next().value as number;
      return sweepOf(
        [...new Set(hertz.map(Math.abs))].sort((a, b) => a - b),
        () => [next(), next()],
      );
    });
  test('RI: the same doubles, in both versions', () => {
    fc.assert(
      fc.property(sweeps, fc.constantFrom(1, 2), (sweep, version) => {
        const back = parseTouchstone(formatTouchstone(sweep, { version: version as 1 | 2 }));
        expect(back.frequencyHz).toEqual(sweep.frequencyHz);
        // A minus in front of a zero may be lost.
        expect(
          rowsOf(back)
            .flat()
            .map((x) => x + 0),
        ).toEqual(
          rowsOf(sweep)
            .flat()
            .map((x) => x + 0),
        );
      }),
    );
  });
  test('MA and DB: within a rounding', () => {
    fc.assert(
      fc.property(sweeps, fc.constantFrom('MA', 'DB'), (sweep, format) => {
        fc.pre(rowsOf(sweep).every(([, re, im]) => Math.hypot(re, im) > 1e-200));
        const back = parseTouchstone(formatTouchstone(sweep, { format: format as 'MA' | 'DB' }));
        for (const [index, [, re, im]] of rowsOf(back).entries()) {
          const size = Math.hypot(sweep.reflectionReal[index] ?? 0, sweep.reflectionImaginary[index] ?? 0);
          expect(Math.abs(re - (sweep.reflectionReal[index] ?? 0))).toBeLessThanOrEqual(1e-13 * size);
          expect(Math.abs(im - (sweep.reflectionImaginary[index] ?? 0))).toBeLessThanOrEqual(1e-13 * size);
        }
      }),
    );
  });
  test('comments come back; a reflection of 0 has no decibels', () => {
    const sweep = { ...sweepOf([868e6], () => [0, 0]), comments: ['one', 'two\nthree'], referenceOhm: 75 };
    const back = parseTouchstone(formatTouchstone(sweep));
    expect(back.comments).toEqual(['one', 'two', 'three']);
    expect(back.referenceOhm).toBe(75);
    expect(refusal(() => formatTouchstone(sweep, { format: 'DB' })).code).toBe('out-of-range');
  });
});
