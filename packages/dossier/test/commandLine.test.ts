import { mkdtemp, readdir, readFile, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { readSurvey } from '@finial/survey';
import { beforeEach, describe, expect, test } from 'vitest';
import { finial, refusalLine } from './commandTerminal.js';
import { exampleLog, examplePlan } from './examplePlan.js';

let folder = '';
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'finial-'));
  await writeFile(join(folder, 'plan.json'), JSON.stringify({ ...examplePlan, walk: { file: 'walk.csv' } }));
  await writeFile(join(folder, 'walk.csv'), exampleLog);
});

const dossier = (...rest: string[]): string[] => ['dossier', join(folder, 'plan.json'), ...rest];

describe('finial dossier', () => {
  test('writes its files and a summary', async () => {
    const out = join(folder, 'out');
    const result = await finial(dossier('--out', out));
    expect(result).toMatchObject({ code: 0, err: '' });
    expect(result.out).toContain('13 of 18 frames at 3 spots');
    expect((await readdir(out)).sort()).toEqual([
      'coverage.geojson',
      'dossier.html',
      'dossier.json',
      'survey.csv',
    ]);
    const written = JSON.parse(await readFile(join(out, 'dossier.json'), 'utf8')) as { format: string };
    expect(written.format).toBe('finial-dossier');
  });

  test('survey.csv holds the observations, and can be read again', async () => {
    const out = join(folder, 'out');
    await finial(dossier('--out', out));
    const { observations } = readSurvey(await readFile(join(out, 'survey.csv'), 'utf8'));
    expect(observations).toHaveLength(18);
    expect(observations.filter(({ received }) => received)).toHaveLength(13);
    expect(observations[0]).toMatchObject({ spot: 'quay', rssiDbm: -92, snrDb: 8, spreadingFactor: 9 });
  });

  test('long findings are wrapped at the width of the terminal', async () => {
    const { out } = await finial(dossier('--out', join(folder, 'out')), { columns: 60 });
    const lines = out.split('\n').filter((line) => !line.startsWith('Written'));
    expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(60);
    expect(Math.max(...lines.map((line) => line.length))).toBeGreaterThan(50);
  });

  test('a folder that cannot be made is refused in one line, and what stands there stays', async () => {
    const taken = join(folder, 'taken');
    await writeFile(taken, 'mine');
    const refusal = refusalLine(await finial(dossier('--out', taken)));
    expect(refusal).toMatch(/^--out: expected a place that can be written to \(E\w+\), got ".*taken"$/);
    expect(await readFile(taken, 'utf8')).toBe('mine');
  });

  test('--json prints and writes nothing', async () => {
    const before = await readdir(folder);
    const { code, out } = await finial(dossier('--json'));
    expect(code).toBe(0);
    expect((JSON.parse(out) as { walk: { rows: number } }).walk.rows).toBe(18);
    expect(await readdir(folder)).toEqual(before);
  });

  test('a finding that says stop is exit code 1, and the files are there to read why', async () => {
    const plan = { ...examplePlan, node: { ...examplePlan.node, conductedPowerDbm: 24 } };
    await writeFile(join(folder, 'plan.json'), JSON.stringify(plan));
    const { code, out } = await finial(dossier('--out', join(folder, 'out')));
    expect(code).toBe(1);
    expect(out).toMatch(/ {2}stop /);
    expect(await readdir(join(folder, 'out'))).toHaveLength(3);
  });

  test('progress is shown to a person and not to a pipe', async () => {
    expect((await finial(dossier('--json'), { isTerminal: true })).err).toContain('walk');
    expect((await finial(dossier('--json'))).err).toBe('');
  });
});

describe('bad input is exit code 2, one line, and nothing written', () => {
  test.each([
    [
      'a plan that is not there',
      async () => ['dossier', join(folder, 'none.json')],
      /none\.json.*ENOENT|ENOENT.*none\.json/,
    ],
    ['a folder for a plan', async () => ['dossier', folder], /EISDIR/],
    [
      'a walk log that is not there',
      async () => {
        await writeFile(
          join(folder, 'plan.json'),
          JSON.stringify({ ...examplePlan, walk: { file: 'gone.csv' } }),
        );
        return dossier();
      },
      /^plan\.json \(line 1, column \d+\): walk\.file: expected a file that can be read \(ENOENT\), got ".*gone\.csv"$/,
    ],
    [
      'a row that cannot be read',
      async () => {
        await writeFile(join(folder, 'walk.csv'), exampleLog.replace('-117,-11', '-117,weak'));
        return dossier();
      },
      /^walk\.csv \(line 16, column 9\): snrDb: expected .*, got "weak"$/,
    ],
    [
      'a plan with a wrong unit',
      async () => {
        await writeFile(
          join(folder, 'plan.json'),
          JSON.stringify(examplePlan).replace('distanceM', 'distanceKm'),
        );
        return dossier();
      },
      /^plan\.json \(line 1, column \d+\): link\.distanceKm: expected the key distanceM/,
    ],
    [
      'a data rate that the region has not for LoRa',
      async () => {
        const text = JSON.stringify(examplePlan, null, 2).replace('"dataRate": 3', '"dataRate": 7');
        await writeFile(join(folder, 'plan.json'), text);
        return dossier();
      },
      /^plan\.json \(line 29, column 19\): node\.uplink\.dataRate: expected a LoRa data rate of EU868 for the uplink, got 7$/,
    ],
    [
      'an empty walk log',
      async () => {
        await writeFile(join(folder, 'walk.csv'), '');
        return dossier();
      },
      /^walk\.csv.*expected/,
    ],
  ])('%s', async (_, arrange, message) => {
    const words = await arrange();
    const out = join(folder, 'out');
    const result = await finial([...words, '--out', out]);
    expect(result).toMatchObject({ code: 2, out: '' });
    expect(result.err.trimEnd().split('\n')).toHaveLength(1);
    expect(result.err.trimEnd()).toMatch(message);
    expect(await readdir(folder)).not.toContain('out');
  });

  test.each([[['dossier']], [['dossier', 'a.json', '--colour', 'red']], [['nonsense']], [['plan']], [[]]])(
    '%j is answered with help',
    async (words) => {
      const { code, err } = await finial(words);
      expect(code).toBe(2);
      expect(err).toMatch(/finial/);
    },
  );
});
