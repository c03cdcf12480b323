import { mkdir, mkdtemp, readdir, readFile, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeEach, describe, expect, test } from 'vitest';
import { parsePlan } from '../src/parsePlan.js';
import { finial, refusalLine } from './commandTerminal.js';
import { exampleLog, examplePlan } from './examplePlan.js';

let folder = '';
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'finial-'));
});

const needed = (region: string): string[] => [
  ...['--name', 'Roof', '--region', region, '--latitude-deg', '41.2', '--longitude-deg', '-37.4'],
  ...['--antenna-height-m', '9', '--distance-m', '3000'],
];
const made = async (...words: string[]) => {
  const out = join(folder, 'plan.json');
  const ran = await finial(['plan', 'new', ...words, '--out', out]);
  return { ran, out };
};

describe('finial plan new', () => {
  // First channels as the LoRaWAN regional parameters (RP002) list them; SF9 of 125 kHz by region.
  test.each([
    ['EU868', undefined, 'EU', 868_100_000, 3],
    ['US915', undefined, 'US', 902_300_000, 1],
    ['AU915', undefined, 'AU', 915_200_000, 3],
    ['IN865', undefined, 'IN', 865_062_500, 3],
    ['KR920', undefined, 'KR', 922_100_000, 3],
    ['EU433', undefined, 'EU', 433_175_000, 3],
    ['CN470', undefined, 'CN', 470_300_000, 3],
    ['AS923-1', 'JP', 'JP', 923_200_000, 3],
    ['RU864', 'EU', 'EU', 868_900_000, 3],
  ] as const)(
    'of %s makes a plan that plan check finds sound',
    async (region, law, jurisdiction, frequencyHz, dataRate) => {
      const { ran, out } = await made(...needed(region), ...(law ? ['--jurisdiction', law] : []));
      expect(ran).toMatchObject({ code: 0, err: '' });
      const plan = parsePlan(await readFile(out, 'utf8'));
      expect(plan).toMatchObject({ name: 'Roof', region, jurisdiction, link: { distanceM: 3000 } });
      expect(plan.node.uplink).toMatchObject({ frequencyHz, dataRate });
      const checked = await finial(['plan', 'check', out]);
      expect(checked).toMatchObject({ code: 0, err: '' });
      expect(checked.out).toContain('the plan is sound');
    },
  );

  test('takes less power behind an antenna with more gain: EU868 ends at 16 dBm EIRP', async () => {
    const { out } = await made(...needed('EU868'), '--antenna-gain-dbi', '6', '--feedline-loss-db', '0.5');
    expect(parsePlan(await readFile(out, 'utf8')).gateway.conductedPowerDbm).toBe(10.5);
  });

  test('keeps what every option says', async () => {
    const { out } = await made(
      ...needed('EU868'),
      ...['--conducted-power-dbm', '10', '--node-conducted-power-dbm', '12', '--noise-figure-db', '5'],
      ...['--node-height-m', '2', '--node-antenna-gain-dbi', '0', '--node-noise-figure-db', '7'],
      ...[
        '--data-rate',
        '0',
        '--frequency-hz',
        '868.3e6',
        '--application-bytes',
        '20',
        '--interval-seconds',
        '900',
      ],
      ...['--jurisdiction', 'EU', '--feedline-loss-db', '2', '--antenna-gain-dbi', '3'],
    );
    expect(parsePlan(await readFile(out, 'utf8'))).toMatchObject({
      gateway: { conductedPowerDbm: 10, noiseFigureDb: 5, feedlineLossDb: 2, antennaGainDbi: 3 },
      node: {
        ...{ heightM: 2, conductedPowerDbm: 12, antennaGainDbi: 0, noiseFigureDb: 7, intervalSeconds: 900 },
        uplink: { dataRate: 0, frequencyHz: 868_300_000, applicationBytes: 20 },
      },
    });
  });

  test('points its $schema to where the package lies', async () => {
    const { out } = await made(...needed('EU868'));
    expect(parsePlan(await readFile(out, 'utf8')).$schema).toBe(
      './node_modules/@finial/dossier/plan.schema.json',
    );
    await mkdir(join(folder, 'node_modules/@finial/dossier'), { recursive: true });
    await writeFile(join(folder, 'node_modules/@finial/dossier/plan.schema.json'), '{}');
    const below = join(folder, 'roofs', 'plan.json');
    await finial(['plan', 'new', ...needed('EU868'), '--out', below]);
    expect(parsePlan(await readFile(below, 'utf8')).$schema).toBe(
      '../node_modules/@finial/dossier/plan.schema.json',
    );
  });

  test('--json prints it and writes nothing', async () => {
    const { ran } = await made(...needed('EU868'), '--json');
    expect(parsePlan(ran.out).name).toBe('Roof');
    expect(await readdir(folder)).toEqual([]);
  });

  test('leaves a plan that is there alone, unless forced', async () => {
    await writeFile(join(folder, 'plan.json'), 'mine');
    const { ran, out } = await made(...needed('EU868'));
    expect(refusalLine(ran)).toMatch(/^--out: expected .*--force.*plan\.json"$/);
    expect(await readFile(out, 'utf8')).toBe('mine');
    expect((await made(...needed('EU868'), '--force')).ran.code).toBe(0);
    expect(parsePlan(await readFile(out, 'utf8')).name).toBe('Roof');
  });

  test.each([
    [
      'what is missing, all of it',
      ['--region', 'AS923-1'],
      /^--name, --jurisdiction, --latitude-deg, --longitude-deg, --antenna-height-m, --distance-m: expected a value/,
    ],
    ['a region', needed('EU86'), /^--region: expected EU868 or .*, got "EU86"$/],
    [
      'a unit',
      [...needed('EU868'), '--interval-seconds', '10min'],
      /^--interval-seconds: expected a number without its unit.*"10min"$/,
    ],
    [
      'a latitude',
      [...needed('EU868'), '--latitude-deg', '95'],
      /^--latitude-deg: expected 90 or less, got 95$/,
    ],
    [
      'a data rate',
      [...needed('EU868'), '--data-rate', '9'],
      /^--data-rate: expected a LoRa data rate of EU868 for the uplink, got 9$/,
    ],
  ])('names %s and writes nothing', async (_, words, message) => {
    const { ran } = await made(...words);
    expect(refusalLine(ran)).toMatch(message);
    expect(await readdir(folder)).toEqual([]);
  });

  test('asks at a terminal, again after a wrong answer, and takes what is usual for an empty one', async () => {
    const questions: string[] = [];
    const answers = [
      'Roof',
      'EU868',
      '',
      '95',
      '41.2',
      '-37.4',
      'nine',
      '9',
      '',
      '',
      '',
      '',
      '',
      '',
      '',
      '2500',
    ];
    const out = join(folder, 'plan.json');
    const { code, err } = await finial(['plan', 'new', '--out', out], {
      ask: async (question) => {
        questions.push(question);
        return answers.shift() ?? '';
      },
    });
    expect(code).toBe(0);
    expect(answers).toEqual([]);
    expect(err).toMatch(
      /^--latitude-deg: expected 90 or less, got 95\n--antenna-height-m: expected a number.*\n$/,
    );
    expect(questions[2]).toContain('[EU]');
    const plan = parsePlan(await readFile(out, 'utf8'));
    expect(plan).toMatchObject({ jurisdiction: 'EU', link: { distanceM: 2500 } });
    expect(plan.gateway).toMatchObject({
      position: { latitudeDeg: 41.2 },
      antennaHeightM: 9,
      conductedPowerDbm: 14,
    });
  });
});

describe('finial plan check', () => {
  const check = async (plan: unknown, ...words: string[]) => {
    await writeFile(
      join(folder, 'plan.json'),
      typeof plan === 'string' ? plan : JSON.stringify(plan, null, 2),
    );
    return finial(['plan', 'check', join(folder, 'plan.json'), ...words]);
  };

  test('says what is fine and what is not given', async () => {
    await writeFile(join(folder, 'walk.csv'), exampleLog);
    const { code, out } = await check({ ...examplePlan, walk: { file: 'walk.csv' } });
    expect(code).toBe(0);
    expect(out).toMatch(/walk +fine, walk\.csv/);
    expect(out).toMatch(/terrain +not given/);
  });

  test('--json lists files, parts given and parts not given', async () => {
    await writeFile(join(folder, 'walk.csv'), exampleLog);
    const { out } = await check({ ...examplePlan, walk: { file: 'walk.csv' } }, '--json');
    expect(JSON.parse(out)).toEqual({
      name: 'Chapel loft',
      files: [{ argument: 'walk.file', name: 'walk.csv', fileBytes: Buffer.byteLength(exampleLog) }],
      given: ['walk'],
      notGiven: ['feedline', 'antenna', 'site', 'terrain', 'beacon'],
    });
  });

  const { feedlineLossDb: _, ...lossless } = examplePlan.gateway;
  test.each([
    ['broken JSON', '{ "version": 1,', /^plan\.json \(line 1, column 16\): expected valid JSON/],
    [
      'a file that is not there',
      { ...examplePlan, beacon: { file: 'gone.csv' } },
      /^plan\.json \(line \d+, column \d+\): beacon\.file: expected a file that can be read \(ENOENT\)/,
    ],
    [
      'a cable that nobody knows',
      {
        ...examplePlan,
        gateway: lossless,
        feedline: {
          parts: [
            { port: 'gateway', end: 'N jack' },
            { cable: 'string', lengthM: 2, ends: ['N plug', 'N plug'] },
          ],
        },
      },
      /^plan\.json \(line \d+, column \d+\): feedline\.parts\[1\]\.cable: expected/,
    ],
    [
      'a feedline that is said nowhere',
      { ...examplePlan, gateway: lossless },
      /^plan\.json \(line \d+, column \d+\): gateway\.feedlineLossDb: expected either/,
    ],
    [
      'a data rate that the region has not',
      { ...examplePlan, node: { ...examplePlan.node, uplink: { ...examplePlan.node.uplink, dataRate: 7 } } },
      /^plan\.json \(line \d+, column \d+\): node\.uplink\.dataRate: expected a LoRa data rate of EU868/,
    ],
  ])('refuses %s by line and key', async (_name, plan, message) => {
    expect(refusalLine(await check(plan))).toMatch(message);
  });
});
