import { parseSweepCsv, parseTouchstone, parseTouchstoneTwoPort } from '@finial/antenna';
import { exampleText } from './examples.js';
import { mutatedText, numeral, oddValue, word } from './mutations.js';
import type { Random } from './Random.js';
import type { Target } from './Target.js';

const header = [
  '[Number of Ports] 1',
  '[Number of Ports] 2',
  '[Two-Port Data Order] 21_12',
  '[Two-Port Data Order] 12_21',
  '[Number of Frequencies] 3',
  '[Number of Frequencies] 0',
  '[Reference] 50',
  '[Reference] 50 50',
  '[Reference]',
  '[Matrix Format] Full',
  '[Matrix Format] Lower',
  '[Begin Information]',
  '[End Information]',
  '[Mixed-Mode Order] D2,3',
];

function touchstone(random: Random): string {
  if (random.chance(0.1)) return exampleText('antenna.s1p').slice(0, random.whole(200, 3000));
  const pairs = random.pick([1, 1, 1, 3, 4]);
  const format = random.pick(['RI', 'MA', 'DB', '', 'ri']);
  const options = [
    '#',
    random.pick(['Hz', 'kHz', 'MHZ', 'GHz', '']),
    random.pick(['S', 'S', 'S', 'Z', 'Y', 'H', '']),
    format,
  ];
  const resistance = random.chance(0.6) ? ` R ${random.pick(['50', '75', '50 50', numeral(random)])}` : '';
  const rows = random.several(12, (index) =>
    [index + 1, ...Array.from({ length: 2 * pairs }, () => numeral(random))].join(
      random.pick([' ', '\t', '  ']),
    ),
  );
  const lines = [`${options.join(' ')}${resistance}`];
  if (random.chance(0.4)) {
    lines.unshift(`[Version] ${random.pick(['2.0', '2.1', '2.0', '3'])}`);
    lines.push(...random.several(6, () => random.pick(header)));
    lines.push(
      `[Number of Frequencies] ${rows.length}`,
      '[Network Data]',
      ...rows,
      random.pick(['[End]', '', '[Noise Data]']),
    );
  } else lines.push(...rows);
  if (random.chance(0.3)) lines.splice(random.whole(0, lines.length), 0, `! ${word(random)}`);
  return lines.join('\n');
}

const touchstoneArgs = (random: Random): readonly unknown[] => [
  mutatedText(touchstone(random), random),
  {
    file: random.pick([undefined, 'a.s1p', 'a.s2p', 'a.s3p', '']),
    ports: random.pick([undefined, undefined, 1, 2, 3]),
  },
];

const columns = [
  'frequency (MHz)',
  'freq_hz',
  'frequencyGHz',
  'f',
  'VSWR',
  'swr',
  'return loss (dB)',
  'rl',
  'R',
  'resistance',
  'X',
  'reactance',
  '__proto__',
  'constructor',
  '',
];

function sweepCsvArgs(random: Random): readonly unknown[] {
  const separator = random.pick([',', ',', ';', '\t']);
  const usual = random.pick([
    ['frequency (MHz)', 'VSWR'],
    ['freq (Hz)', 'R', 'X'],
    ['f_mhz', 'return loss'],
  ]);
  const names = random.chance(0.7) ? usual : random.several(5, () => random.pick(columns));
  const rows = random.several(12, (index) =>
    names.map((_, place) => (place === 0 ? String(860 + index) : numeral(random))).join(separator),
  );
  const text = [names.join(separator), ...rows].join('\n');
  const options = random.chance(0.7)
    ? {}
    : {
        columns: random.pick([
          undefined,
          { frequency: '__proto__', vswr: 'constructor' },
          { frequency: 'f', vswr: 'VSWR' },
        ]),
        frequencyUnit: random.pick([undefined, 'MHz', 'Hz', 'toString']),
        separator: random.pick([undefined, ',', ';', '|']),
        referenceOhm: random.pick([undefined, 50, 75, oddValue(random)]),
      };
  return [mutatedText(text, random), options];
}

export const sweepTargets: readonly Target[] = [
  { name: 'text.parseTouchstone', args: touchstoneArgs, call: parseTouchstone },
  { name: 'text.parseTouchstoneTwoPort', args: touchstoneArgs, call: parseTouchstoneTwoPort },
  { name: 'text.parseSweepCsv', args: sweepCsvArgs, call: parseSweepCsv },
];
