import { readdirSync, readFileSync } from 'node:fs';
import { assembleDossier, type Dossier, type PlanFiles, parsePlan } from '@finial/dossier';
import { beforeAll, describe, expect, test } from 'vitest';
import { resonanceOf, sweeps } from '../../examples/fennimara/generate/antennaSweep.js';
import { waterEntersUtc } from '../../examples/fennimara/generate/beacon.js';
import { generateFennimara } from '../../examples/fennimara/generate/index.js';
import { gateway, node, seed, toLocal } from '../../examples/fennimara/generate/place.js';
import { createTerrain } from '../../examples/fennimara/generate/terrain.js';

// What the generator of the invented island planted in its data must come out of the dossier again. What is expected is taken from
// the generator's own facts and from the files, never from a dossier of before.

const folder = new URL('../../examples/fennimara/', import.meta.url);

/** The data files under the names that a plan gives them. */
const dataFiles = (): PlanFiles =>
  Object.fromEntries(
    readdirSync(folder)
      .filter((name) => /\.(csv|s1p|tif)$/.test(name))
      .map((name) => [name, readFileSync(new URL(name, folder))]),
  );

const dossierOf = (planName: string): Promise<Dossier> =>
  assembleDossier(parsePlan(readFileSync(new URL(planName, folder), 'utf8')), dataFiles());

const logOf = (name: string): Record<string, string>[] => {
  const [header = '', ...lines] = readFileSync(new URL(name, folder), 'utf8').trimEnd().split('\n');
  return lines.map((line) => {
    const cells = line.split(',');
    return Object.fromEntries(header.split(',').map((column, index) => [column, cells[index] ?? '']));
  });
};

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

// Time on air of 17 bytes on SF9 in 125 kHz: 40.25 symbols of 4.096 ms, worked out by hand from Semtech AN1200.13.
const airtimeSeconds = 40.25 * 4.096e-3;

describe("the dossier of the island's gateway", () => {
  const { frames, beaconFrames } = generateFennimara();
  let dossier: Dossier;
  const findingOf = (rule: string) => dossier.verdict.findings.find((finding) => finding.rule === rule);
  beforeAll(async () => {
    dossier = await dossierOf('plan.json');
  }, 60_000);

  describe('the walk', () => {
    const spotNames = [...new Set(frames.map(({ spot }) => spot))];
    const lossOf = (spot: string): { obstacleDb: number; totalDb: number } => {
      const paths = frames.filter((frame) => frame.spot === spot).map(({ path }) => path);
      return {
        obstacleDb: mean(paths.map(({ obstacleDb }) => obstacleDb)),
        totalDb: mean(paths.map(({ totalDb }) => totalDb)),
      };
    };

    test('counts the spots of the log, 62 or more', () => {
      const inLog = new Set(logOf('walk.csv').map(({ spot }) => spot));
      expect(inLog.size).toBeGreaterThanOrEqual(62);
      expect(new Set(dossier.walk?.spots.map(({ spot }) => spot))).toEqual(inLog);
      expect(dossier.walk?.delivery.sent).toBe(frames.length);
      expect(dossier.walk?.delivery.received).toBe(frames.filter(({ report }) => report).length);
    });
    test('finds the hollows: spots that ground hides too well lose most of their frames', () => {
      // EIRP 12 dBm, gateway 2 dBi less 1.2 dB, town noise -113.5 dBm, SF9 read half of the time at -12.5 dB: 138.8 dB may be lost.
      const buried = spotNames.filter((spot) => lossOf(spot).totalDb > 141.5);
      expect(buried.length).toBeGreaterThanOrEqual(15);
      for (const spot of buried) {
        const row = dossier.walk?.spots.find((each) => each.spot === spot);
        expect(row?.ratio, spot).toBeLessThan(0.4);
      }
      const hollow = frames.filter(({ hollow }) => hollow).map(({ spot }) => spot);
      expect(buried.filter((spot) => hollow.includes(spot)).length).toBeGreaterThanOrEqual(5);
    });
    test('names as hollow only spots with ground in the way, washes among them', () => {
      const message = findingOf('hollow-spots')?.message ?? '';
      const named = spotNames.filter((spot) => message.includes(`${spot} (`));
      expect(named.length).toBeGreaterThanOrEqual(5);
      for (const spot of named) expect(lossOf(spot).obstacleDb, spot).toBeGreaterThan(20);
      const washes = new Set(frames.filter(({ hollow }) => hollow).map(({ spot }) => spot));
      expect(named.filter((spot) => washes.has(spot)).length).toBeGreaterThanOrEqual(4);
    });
    test('says that the prediction is optimistic, as it is against what nature let through', () => {
      const { conductedPowerDbm, antennaGainDbi } = node;
      const budgetDb = conductedPowerDbm + antennaGainDbi + gateway.antennaGainDbi - gateway.feedlineLossDb;
      const tooHighDb = (dossier.calibration?.residuals ?? []).map(
        ({ spot = '', predictedDbm }) => predictedDbm - (budgetDb - lossOf(spot).totalDb),
      );
      expect(tooHighDb.length).toBeGreaterThanOrEqual(62);
      expect(mean(tooHighDb)).toBeGreaterThan(3);
      expect(dossier.calibration?.biasLowerDb).toBeGreaterThan(0);
      expect(findingOf('prediction-optimistic')?.message).toContain('optimistic');
    });
  });

  describe('the antenna', () => {
    const targetHz = node.channelsHz[0] ?? Number.NaN;

    test('rises with each of three cuts, as much as the generator made it', () => {
      const cuts = dossier.antenna?.cuts ?? [];
      expect(cuts.map(({ file }) => file)).toEqual(sweeps.map(({ file }) => file));
      expect(cuts).toHaveLength(4);
      cuts.forEach(({ resonanceHz = Number.NaN, elementLengthM = Number.NaN }, index) => {
        expect(elementLengthM).toBe(sweeps[index]?.elementLengthM);
        // Best match lies up to 0.3 % above zero reactance, because the resistance rises with frequency towards 50 ohms.
        expect(resonanceHz / resonanceOf(elementLengthM)).toBeGreaterThan(0.9995);
        expect(resonanceHz / resonanceOf(elementLengthM)).toBeLessThan(1.003);
        expect(resonanceHz).toBeGreaterThan(cuts[index - 1]?.resonanceHz ?? 0);
      });
    });
    test('starts 2 % too low, ends within 0.3 % of the target and then needs no further cut', () => {
      const cuts = dossier.antenna?.cuts ?? [];
      expect((cuts.at(0)?.resonanceHz ?? Number.NaN) / targetHz).toBeLessThan(0.98);
      expect(Math.abs((cuts.at(-1)?.resonanceHz ?? Number.NaN) / targetHz - 1)).toBeLessThan(0.003);
      expect(dossier.antenna?.trim?.action).toBe('done');
      expect(findingOf('antenna-trim')).toBeUndefined();
    });
  });

  describe('the feedline', () => {
    test("joins as planned; of the basket's parts one pigtail is the wrong one", () => {
      expect(dossier.feedline?.joins).toBe(true);
      const basket = dossier.feedline?.otherRuns.find(({ name }) => name === 'shopping basket');
      expect(basket?.joins).toBe(false);
      const found = dossier.verdict.findings.filter(({ rule }) => rule === 'feedline-other-run');
      expect(found).toHaveLength(1);
      expect(found[0]?.message).toContain('RP-SMA plug to N jack, 0.3 m of RG-316/U');
      expect(found[0]?.severity).toBe('fix');
      const own = dossier.feedline?.findings.filter(({ rule }) => rule !== 'feedline-other-run') ?? [];
      expect(own.filter(({ severity }) => severity !== 'note')).toEqual([]);
    });
  });

  describe('the site', () => {
    test('is too hot for the bare box, and an awning alone brings it below the limit with room to spare', () => {
      const box = dossier.site?.box;
      expect(box?.marginK).toBeLessThan(0);
      const awning = box?.remedies.find(({ change }) => change === 'awning');
      expect(awning?.hottestInsideC).toBeLessThan(box?.electronicsLimitC ?? Number.NaN);
      expect(awning?.marginK).toBeGreaterThan(box?.uncertaintyK ?? Number.NaN);
      expect(findingOf('heat-limit')).toMatchObject({ severity: 'fix' });
    });
    test('has a mast that carries the awning too', () => {
      const mast = dossier.site?.mast;
      expect(mast?.parts.map(({ name }) => name)).toContain('awning over the box');
      expect(mast?.tube?.reserveRatio).toBeGreaterThan(mast?.safetyRatio ?? Number.NaN);
    });
  });

  test('of the candidate sites one serves what matters, and the highest does not serve the town', () => {
    const terrain = createTerrain(seed);
    const candidates = dossier.plan.terrain?.coverage?.sites ?? [];
    expect(candidates.length).toBeGreaterThanOrEqual(3);
    const rows = (dossier.coverage?.sites?.rows ?? []).toSorted(
      (one, other) => other.servedWeightRatio - one.servedWeightRatio,
    );
    expect(rows[0]?.name).toBe('Rim End cistern');
    expect((rows[0]?.servedWeightRatio ?? 0) - (rows[1]?.servedWeightRatio ?? 1)).toBeGreaterThan(0.1);
    const topM = (site: (typeof candidates)[number]): number =>
      terrain.heightM(toLocal(site.position)) + site.antennaHeightM;
    const highest = candidates.toSorted((one, other) => topM(other) - topM(one))[0];
    expect(highest?.name).toBe('Summit hut');
    const market = dossier.coverage?.sites?.points.find(({ name }) => name === 'Market Square');
    expect(market?.servedBy).not.toContain(highest?.name);
    expect(market?.servedBy).toContain(rows[0]?.name);
    expect(rows.at(-1)?.name).toBe(highest?.name);
  });

  describe('the beacon', () => {
    const daySeconds = 86_400;
    const plantedSeconds = Date.parse(waterEntersUtc) / 1000;

    test('loses level for good from the first water on, is noticed within two days, and not before', () => {
      const losses = (dossier.beacon?.drift?.alarms ?? []).filter(({ direction }) => direction === 'loss');
      expect(losses).toHaveLength(1);
      const [loss] = losses;
      const noticedAfterSeconds = (loss?.alarmSeconds ?? Number.NaN) - plantedSeconds;
      expect(noticedAfterSeconds).toBeGreaterThan(0);
      expect(noticedAfterSeconds).toBeLessThan(2 * daySeconds);
      // Where it began is a fit of a straight fall to one that goes by rains, so that it may lie before the first of them.
      expect(Math.abs((loss?.onsetSeconds ?? Number.NaN) - plantedSeconds)).toBeLessThan(2 * daySeconds);
      expect(loss?.endSeconds).toBeUndefined();
      const mostWaterDb = Math.max(...beaconFrames.map(({ waterDb }) => waterDb));
      expect(mostWaterDb).toBeGreaterThan(5);
      expect(mostWaterDb).toBeLessThan(7);
      expect(Math.abs((loss?.changeDb ?? Number.NaN) + mostWaterDb)).toBeLessThan(2);
      const found = dossier.verdict.findings.find(({ rule }) => rule === 'beacon-slow-loss');
      expect(found?.severity).toBe('fix');
      expect(found?.message).toContain('water');
    });
    test('misses more frames from then on', () => {
      const log = logOf('beacon.csv');
      const missedRatio = (rows: typeof log): number =>
        rows.filter(({ received }) => received === '0').length / rows.length;
      const isWet = ({ time_utc = '' }: Record<string, string>): boolean =>
        Date.parse(time_utc) / 1000 > plantedSeconds + daySeconds;
      expect(missedRatio(log.filter((row) => !isWet(row)))).toBeLessThan(0.04);
      expect(missedRatio(log.filter(isWet))).toBeGreaterThan(0.07);
    });
  });

  test('EU law: the duty cycle sets the interval', () => {
    const { uplink } = dossier.law;
    expect(uplink.permitted).toBe(true);
    expect(uplink.timeOnAir.totalSeconds).toBeCloseTo(airtimeSeconds, 9);
    // 1 % in the sub-band of 868.0 to 868.6 MHz: a hundred times the time on air.
    expect(uplink.minimumIntervalSeconds).toBeCloseTo(100 * airtimeSeconds, 6);
    expect(uplink.intervalScope).toBe('sub-band');
    expect(uplink.findings.map(({ rule }) => rule)).toContain('duty-cycle');
  });
});

describe('the dossier of the same place under US law, before the walk', () => {
  let dossier: Dossier;
  beforeAll(async () => {
    dossier = await dossierOf('plan-us.json');
  }, 60_000);

  test('allows the frame without a duty cycle, within 400 ms', () => {
    const { uplink, downlink } = dossier.law;
    expect(uplink.permitted).toBe(true);
    expect(downlink?.permitted).toBe(true);
    expect(uplink.timeOnAir.totalSeconds).toBeLessThanOrEqual(0.4);
    const rules = dossier.law.findings.map(({ rule }) => rule);
    expect(rules).not.toContain('duty-cycle');
    // 47 CFR 15.247(f): 0.4 s on one frequency within 0.4 s times the channels in use, here 8, so that a frame of 165 ms may
    // come back to its frequency twice in 3.2 s; the other frequencies are free meanwhile.
    expect(uplink.intervalScope).toBe('frequency');
    expect(uplink.minimumIntervalSeconds).toBeLessThan(3.2);
  });
  test('permits the frame at no data rate that keeps it longer than 400 ms on the air', () => {
    const permitted = dossier.law.dataRates.filter((row) => row.permitted);
    expect(permitted.length).toBeGreaterThanOrEqual(4);
    for (const row of permitted) expect(row.airtimeSeconds).toBeLessThanOrEqual(0.4);
  });
  test('stops nothing, predicts coverage and says that there is no walk yet', () => {
    expect(dossier.verdict.findings.filter(({ severity }) => severity === 'stop')).toEqual([]);
    expect(dossier.walk).toBeUndefined();
    expect(dossier.beacon).toBeUndefined();
    expect(dossier.coverage?.sites?.rows).toHaveLength(2);
    expect(dossier.missing.map(({ part }) => part)).toEqual(expect.arrayContaining(['walk', 'beacon']));
  });
});
