import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type CoverageOptions, type PathModel, p525, type RadioPath, sweepCoverage } from '../src/index.js';
import { middle, rollingGround, smallQuestion } from './sweepGround.js';

const elevation = rollingGround();
const options: CoverageOptions = { ...smallQuestion, elevation };

describe('the raster', () => {
  test('repeats the question and says where it lies', async () => {
    const raster = await sweepCoverage({ ...options, radialFactor: undefined });
    expect(raster).toMatchObject({
      kind: 'coverage',
      columns: 51,
      rows: 51,
      cellM: 60,
      radiusM: 1500,
      origin: middle,
      missingCount: 0,
      question: smallQuestion,
      warnings: [],
    });
    expect(JSON.parse(JSON.stringify(raster.question))).toEqual(raster.question);
  });

  test('has a loss within the radius, but for the cell of the gateway, and none beyond', async () => {
    const { lossDb } = await sweepCoverage(options);
    const wrong = [...lossDb].filter((loss, cell) => {
      const columns = Math.abs((cell % 51) - 25);
      const rows = Math.abs(Math.floor(cell / 51) - 25);
      const squared = rows * rows + columns * columns;
      return Number.isNaN(loss) !== (squared > 25 * 25 || squared === 0);
    });
    expect(wrong).toEqual([]);
  });

  test('counts the cells whose ground is a void, and says so', async () => {
    const raster = await sweepCoverage({ ...options, elevation: rollingGround((row) => row < 8) });
    const lost = [...raster.lossDb].filter(Number.isNaN).length;
    const whole = (await sweepCoverage(options)).lossDb.filter((loss) => !Number.isNaN(loss)).length;
    expect(raster.missingCount).toBeGreaterThan(50);
    expect(lost).toBe(51 * 51 - whole + raster.missingCount);
    expect(raster.warnings).toEqual([expect.stringContaining(`${raster.missingCount} of ${whole} cells`)]);
  });

  test('of free space is 20 lg(4πd/λ) on the slant, as ITU-R P.525 has it', async () => {
    const plain = { ...elevation.tiles[0], heightsM: new Int16Array(41 * 61).fill(100), voidCount: 0 };
    const flat = { ...elevation, tiles: [plain] } as typeof elevation;
    const free: CoverageOptions = {
      ...options,
      elevation: flat,
      model: { kind: 'p525' },
      receiverHeightM: 2,
    };
    const { lossDb } = await sweepCoverage(free);
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: 1, max: 25 }), async (cells) => {
        const slantM = Math.hypot(cells * 60, 10);
        const wanted = 20 * Math.log10((4 * Math.PI * slantM * 868.1e6) / 299_792_458);
        // North of the gateway; float32 keeps 5e-6 dB.
        expect(Math.abs((lossDb[(25 - cells) * 51 + 25] as number) - wanted)).toBeLessThan(1e-5);
      }),
    );
  });
});

describe('progress and abort', () => {
  const wide: CoverageOptions = { ...options, radiusM: 1800, cellM: 6 };

  test('grows and ends at 1', async () => {
    const doneRatios: number[] = [];
    await sweepCoverage({ ...wide, onProgress: ({ doneRatio }) => doneRatios.push(doneRatio) });
    expect(doneRatios.length).toBeGreaterThan(4);
    expect(doneRatios.every((ratio, place) => ratio > (doneRatios[place - 1] ?? 0))).toBe(true);
    expect(doneRatios.at(-1)).toBe(1);
  });

  test('stops at an abort with its reason, and tells nothing after it', async () => {
    const control = new AbortController();
    const reason = new Error('the visitor left');
    let told = 0;
    const onProgress = (): void => {
      told += 1;
      control.abort(reason);
    };
    await expect(sweepCoverage({ ...wide, signal: control.signal, onProgress })).rejects.toBe(reason);
    expect(told).toBe(1);
  });

  test('does not begin where the abort came before', async () => {
    const asked = sweepCoverage({ ...options, signal: AbortSignal.abort(new Error('too late')) });
    await expect(asked).rejects.toThrow('too late');
  });

  test('hands on what a listener throws', async () => {
    const onProgress = (): void => {
      throw new Error('no more');
    };
    await expect(sweepCoverage({ ...wide, onProgress })).rejects.toThrow('no more');
  });

  test('leaves turns to others', async () => {
    let turns = 0;
    const beat = setInterval(() => {
      turns += 1;
    }, 0);
    await sweepCoverage(wide);
    clearInterval(beat);
    expect(turns).toBeGreaterThan(2);
  });
});

describe('a model of the caller', () => {
  test('gets a profile for each cell, and its losses are the raster', async () => {
    const paths: RadioPath[] = [];
    const inner = p525.model();
    const model: PathModel = (path) => {
      paths.push(path);
      return inner(path);
    };
    const asked = { ...options, radiusM: 300, seaLevelM: 190, clutterHeightM: 10 };
    const own = await sweepCoverage({ ...asked, model });
    const standard = await sweepCoverage({ ...asked, model: { kind: 'p525' } });
    expect(own.question.model).toEqual({ kind: 'user' });
    expect(paths).toHaveLength(80);
    for (const [cell, loss] of own.lossDb.entries()) {
      if (Number.isNaN(standard.lossDb[cell])) expect(loss).toBeNaN();
      else expect(Math.abs(loss - (standard.lossDb[cell] as number))).toBeLessThan(1e-4);
    }
    for (const { distanceM, heightM, zone, clutterHeightM } of paths) {
      expect(distanceM.length).toBeGreaterThanOrEqual(5);
      expect(distanceM[1]).toBeLessThanOrEqual(60 + 1e-6);
      expect(zone).toEqual(Array.from(heightM, (height) => (height <= 190 ? 'sea' : 'inland')));
      expect([...(clutterHeightM ?? [])]).toEqual(Array.from(heightM, (height) => (height <= 190 ? 0 : 10)));
    }
  });

  test('says once what the model warns of, and counts voids', async () => {
    const model: PathModel = () => ({ lossDb: 100, terms: {}, warnings: ['made up'] });
    const voids = rollingGround((row, column) => row < 18 && column < 28);
    const raster = await sweepCoverage({ ...options, elevation: voids, radiusM: 300, model });
    expect(raster.missingCount).toBeGreaterThan(0);
    expect(raster.warnings).toEqual(['made up', expect.stringContaining('80 cells have no loss')]);
  });

  test.each([Number.NaN, Number.POSITIVE_INFINITY, 1e300, undefined])('may not answer %s', async (lossDb) => {
    const model = (() => ({ lossDb, terms: {}, warnings: [] })) as unknown as PathModel;
    await expect(sweepCoverage({ ...options, model })).rejects.toMatchObject({
      name: 'InputError',
      argument: 'model(path).lossDb',
    });
  });

  test('stops at an abort', async () => {
    const control = new AbortController();
    let calls = 0;
    const model: PathModel = () => {
      calls += 1;
      if (calls === 10) control.abort(new Error('enough'));
      return { lossDb: 100, terms: {}, warnings: [] };
    };
    await expect(sweepCoverage({ ...options, model, signal: control.signal })).rejects.toThrow('enough');
    expect(calls).toBeLessThan(100);
  });
});

describe('refusals', () => {
  const p1812 = { kind: 'p1812', deltaN: 40, surfaceRefractivity: 325 } as const;
  const hata = { kind: 'hata', surroundings: 'suburban', outsideValidity: 'allow' } as const;

  test.each([
    ['workers', 'out-of-range', { workers: 65 }],
    ['workers', 'out-of-range', { workers: 1.5 }],
    ['workerUrl', 'wrong-type', { workerUrl: 5 }],
    ['cellM', 'out-of-range', { cellM: 0.5 }],
    ['radiusM', 'out-of-range', { radiusM: 59 }],
    ['radiusM', 'out-of-range', { radiusM: 3001 * 60 }],
    ['receiverHeightM', 'not-a-finite-number', { receiverHeightM: Number.NaN }],
    ['gateway', 'wrong-type', { gateway: undefined }],
    ['gateway.antennaHeightM', 'out-of-range', { gateway: { position: middle, antennaHeightM: 0 } }],
    [
      'gateway.position',
      'out-of-range',
      { gateway: { position: { latitudeDeg: 10, longitudeDeg: 16 }, antennaHeightM: 10 } },
    ],
    ['gateway.position', 'missing', { elevation: rollingGround(() => true) }],
    ['elevation', 'wrong-type', { elevation: undefined }],
    ['polarisation', 'unknown-option', { polarisation: 'left' }],
    ['radialFactor', 'unknown-option', { radialFactor: 3 }],
    ['clutterHeightM', 'out-of-range', { clutterHeightM: -1 }],
    ['seaLevelM', 'not-a-finite-number', { seaLevelM: Number.NEGATIVE_INFINITY }],
    ['frequencyHz', 'out-of-range', { frequencyHz: 868.1 }],
    ['model', 'wrong-type', { model: undefined }],
    ['model.kind', 'unknown-option', { model: { kind: 'guess' } }],
    ['model.deltaN', 'not-a-finite-number', { model: { kind: 'p526' } }],
    ['model.deltaN', 'out-of-range', { model: { ...p1812, deltaN: 0 } }],
    ['model.locationSigmaDb', 'missing', { model: { ...p1812, locationPercent: 90 } }],
    ['frequencyHz', 'outside-validity', { model: p1812, frequencyHz: 7e9 }],
    ['receiverHeightM', 'outside-validity', { model: p1812, receiverHeightM: 0.5 }],
    ['model.surroundings', 'unknown-option', { model: { ...hata, surroundings: 'moon' } }],
    [
      'model.outsideValidity',
      'outside-validity',
      {
        gateway: { position: middle, antennaHeightM: 40 },
        model: { ...hata, outsideValidity: undefined },
      },
    ],
    ['gateway.antennaHeightM', 'outside-validity', { model: { kind: 'hata', surroundings: 'open' } }],
  ])('%s: %s', async (argument, code, wrong) => {
    const asked = { ...options, ...(wrong as object) } as CoverageOptions;
    await expect(sweepCoverage(asked)).rejects.toMatchObject({ name: 'InputError', argument, code });
  });

  test('what lies outside a model is said where it is allowed', async () => {
    const { warnings } = await sweepCoverage({ ...options, model: hata });
    expect(warnings).toEqual([
      expect.stringContaining('gateway.antennaHeightM is 12'),
      expect.stringContaining('nearer than 1000 m'),
    ]);
    const prediction = await sweepCoverage({ ...options, model: p1812 });
    expect(prediction.warnings).toEqual([expect.stringContaining('nearer than 250 m')]);
  });
});
