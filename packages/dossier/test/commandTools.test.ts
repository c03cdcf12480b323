import { mkdtemp, readdir, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { beforeEach, describe, expect, test } from 'vitest';
import { finial, refusalLine } from './commandTerminal.js';
import { exampleLog, examplePlan } from './examplePlan.js';

let folder = '';
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'finial-'));
});

/** Writes a file and returns its path. */
async function file(name: string, text: string): Promise<string> {
  await writeFile(join(folder, name), text);
  return join(folder, name);
}

async function json(words: readonly string[]) {
  const { code, out, err } = await finial([...words, '--json']);
  expect(err).toBe('');
  return { code, data: JSON.parse(out) };
}

const flags = (given: Readonly<Record<string, string | number>>): string[] =>
  Object.entries(given).flatMap(([name, value]) => [`--${name}`, String(value)]);

describe('finial airtime', () => {
  const frame = {
    ...{ region: 'EU868', jurisdiction: 'EU', 'data-rate': 3, bytes: 12 },
    ...{ 'conducted-power-dbm': 14, 'antenna-gain-dbi': 2.15, 'feedline-loss-db': 0.5 },
  };

  test('tells the parts of every modulation in words', async () => {
    const fsk = await finial(['airtime', ...flags({ ...frame, 'data-rate': 7, 'frequency-hz': 868.8e6 })]);
    // FSK at 50 kbit/s: preamble of 5 bytes, then sync word, length, frame and check (SX1276 data sheet, 4.2.13).
    expect(fsk.out).toMatch(/FSK.*\n/);
    expect(fsk.out).toMatch(/preamble \S+ \S+ \+ payload/);
    const hopped = await finial(['airtime', ...flags({ ...frame, 'data-rate': 8, 'frequency-hz': 868.1e6 })]);
    // LR-FHSS with code rate 1/3 sends its header three times (RP002, LR-FHSS parameters).
    expect(hopped.out).toMatch(/3 headers \S+ \S+ \+ payload/);
  });

  test('says so where no rule sets an interval', async () => {
    const us = { region: 'US915', jurisdiction: 'US', 'data-rate': 4, 'frequency-hz': 903e6 };
    const { out } = await finial(['airtime', ...flags({ ...frame, ...us })]);
    expect(out).toContain('no known rule sets one');
  });

  test.each([
    [0, 12],
    [1, 11],
    [2, 10],
    [3, 9],
    [4, 8],
    [5, 7],
  ])('at DR%i is the time of the SX1276 data sheet', async (dataRate, spreadingFactor) => {
    const { code, data } = await json(['airtime', ...flags({ ...frame, 'data-rate': dataRate })]);
    // Section 4.1.1.7: header explicit, CRC on, code rate 4/5, preamble 8 + 4.25; 13 bytes of LoRaWAN round 12 of the application.
    const symbolSeconds = 2 ** spreadingFactor / 125e3;
    const slow = spreadingFactor > 10 ? 2 : 0;
    const bits = 8 * 25 - 4 * spreadingFactor + 28 + 16;
    const payloadSymbols = 8 + 5 * Math.ceil(bits / (4 * (spreadingFactor - slow)));
    expect(code).toBe(0);
    expect(data.timeOnAir.preambleSeconds).toBeCloseTo(12.25 * symbolSeconds, 9);
    expect(data.timeOnAir.totalSeconds).toBeCloseTo((12.25 + payloadSymbols) * symbolSeconds, 9);
    // One per cent of the time: ERC/REC 70-03, 868.0 to 868.6 MHz.
    expect(data.minimumIntervalSeconds).toBeCloseTo(100 * data.timeOnAir.totalSeconds, 6);
    expect(data.eirpDbm).toBeCloseTo(14 - 0.5 + 2.15, 9);
    expect(data).toMatchObject({ region: 'EU868', frequencyHz: 868_100_000, phyPayloadBytes: 25 });
  });

  test('in words', async () => {
    const { code, out } = await finial(['airtime', ...flags(frame)]);
    expect(code).toBe(0);
    expect(out).toMatch(/^EU868 DR3 uplink, LoRa, 868\.100 MHz: nothing found that forbids it\.\n/);
    expect(out).toMatch(/time on air +205\.8 ms = preamble 50\.18 ms \+ 38 symbols 155\.6 ms/);
    expect(out).toMatch(/15\.65 dBm EIRP, 13\.50 dBm ERP/);
  });

  test('takes the first channel that is made for the data rate', async () => {
    const wide = { ...frame, region: 'US915', jurisdiction: 'US', 'data-rate': 4 };
    expect((await json(['airtime', ...flags(wide)])).data.frequencyHz).toBe(903_000_000);
    const down = { ...wide, 'data-rate': 8, direction: 'downlink' };
    expect((await json(['airtime', ...flags(down)])).data.frequencyHz).toBe(923_300_000);
  });

  test('too much power is exit code 1, with the finding', async () => {
    const strong = ['airtime', ...flags({ ...frame, 'antenna-gain-dbi': 6 })];
    const { code, out } = await finial(strong);
    expect(code).toBe(1);
    expect(out).toMatch(/must not be sent like this[\s\S]* {2}stop {2}/);
    expect((await json(strong)).data.permitted).toBe(false);
  });

  test('a frame too often is exit code 1', async () => {
    expect((await finial(['airtime', ...flags({ ...frame, 'interval-seconds': 20 })])).code).toBe(1);
    expect((await finial(['airtime', ...flags({ ...frame, 'interval-seconds': 21 })])).code).toBe(0);
  });

  test.each([
    [{ ...frame, region: 'XX1' }, /^--region: expected .*EU868.*, got "XX1"$/],
    [{ ...frame, jurisdiction: 'XX' }, /^--jurisdiction: expected .*got "XX"$/],
    [{ ...frame, 'data-rate': 12 }, /^--data-rate: expected a data rate of EU868/],
    [{ ...frame, bytes: 500 }, /^--bytes: expected/],
    [{ ...frame, 'frequency-hz': 868.1 }, /^--frequency-hz: expected/],
    [{ ...frame, bytes: 'twelve' }, /^--bytes: expected a number without its unit.*got "twelve"$/],
  ])('refuses %j by its option', async (words, message) => {
    expect(refusalLine(await finial(['airtime', ...flags(words)]))).toMatch(message);
  });

  test('names an option that is missing', async () => {
    const { code, err } = await finial(['airtime', '--region', 'EU868']);
    expect(code).toBe(2);
    expect(err).toContain('--jurisdiction');
  });
});

describe('finial chain', () => {
  const { feedlineLossDb: _, ...gateway } = examplePlan.gateway;
  const run = (end: string) => ({
    ...{ ...examplePlan, gateway },
    feedline: {
      parts: [
        { port: 'gateway', end },
        { cable: 'low-loss 6 mm class', lengthM: 4, ends: ['N plug', 'N plug'] },
        { port: 'antenna', end: 'N jack' },
      ],
    },
  });

  test('lists parts and joints, whose losses make the whole', async () => {
    const path = await file('plan.json', JSON.stringify(run('N jack')));
    const { code, data } = await json(['chain', path]);
    expect(code).toBe(0);
    const losses: number[] = [...data.parts, ...data.joints].map(({ lossDb }) => lossDb);
    expect(data.lossDb).toBeCloseTo(
      losses.reduce((sum, each) => sum + each, 0),
      9,
    );
    expect(data.eirpDbm).toBeCloseTo(gateway.conductedPowerDbm + gateway.antennaGainDbi - data.lossDb, 9);
    const { out } = await finial(['chain', path]);
    expect(out).toContain(`Loss ${data.lossDb.toFixed(2)} dB`);
    expect(out).toMatch(/every joint mates[\s\S]*4 m of low-loss 6 mm class +\d\.\d\d dB/);
  });

  test('parts that do not join are exit code 1', async () => {
    const path = await file('plan.json', JSON.stringify(run('SMA jack')));
    const { code, out } = await finial(['chain', path]);
    expect(code).toBe(1);
    expect(out).toMatch(/does not +gateway \(SMA jack\)/);
  });

  test('a plan without a feedline is refused', async () => {
    const path = await file('plan.json', JSON.stringify(examplePlan));
    expect(refusalLine(await finial(['chain', path]))).toMatch(/^plan\.json: feedline: expected the parts/);
  });

  test('a catalogue that is no JSON is refused by its name', async () => {
    const plan = { ...run('N jack'), feedline: { ...run('N jack').feedline, catalogue: 'mine.json' } };
    await file('mine.json', 'cables');
    const path = await file('plan.json', JSON.stringify(plan));
    expect(refusalLine(await finial(['chain', path]))).toMatch(/^mine\.json: expected valid JSON/);
  });
});

describe('finial sweep', () => {
  // Reflection -0.1 + j(f - 874)/100: the lowest VSWR lies at 874 MHz, where it is (1 + 0.1)/(1 - 0.1).
  const sweepText = (centreMHz: number): string =>
    [
      '# MHz S RI R 50',
      ...[-50, -40, -30, -20, -10, 0, 10, 20, 30, 40, 50].map(
        (off) => `${centreMHz + off} -0.1 ${off / 100}`,
      ),
      '',
    ].join('\n');
  const target = ['--target-hz', '868.1e6'];

  test('reads resonance and VSWR', async () => {
    const { code, data } = await json(['sweep', await file('a.s1p', sweepText(874)), ...target]);
    expect(code).toBe(0);
    const [{ reading }] = data.cuts;
    expect(reading.resonanceHz / 874e6).toBeCloseTo(1, 4);
    expect(reading.minimumVswr).toBeCloseTo(1.1 / 0.9, 4);
    const reflected = Math.hypot(0.1, (868.1 - 874) / 100);
    expect(reading.atTarget.vswr).toBeCloseTo((1 + reflected) / (1 - reflected), 4);
    expect(data.trim).toBeUndefined();
  });

  test('two sweeps show the slope of this antenna, and the cut stays on the long side', async () => {
    // Resonance as length to the power of -0.8.
    const resonanceMHz = (lengthM: number) => 868.1 * (0.08 / lengthM) ** 0.8;
    const first = await file('cut-1.s1p', sweepText(resonanceMHz(0.086)));
    const second = await file('cut-2.s1p', sweepText(resonanceMHz(0.083)));
    const words = ['sweep', first, second, ...target, '--length-m', '0.086', '--length-m', '0.083'];
    const { data } = await json(words);
    expect(data.trim).toMatchObject({ action: 'cut', slopeFrom: 'cuts' });
    expect(data.trim.likeliestLengthM).toBeCloseTo(0.08, 4);
    expect(data.trim.newLengthM).toBeGreaterThan(0.08);
    expect(data.trim.newLengthM).toBeLessThan(0.083);
    const { out } = await finial(words);
    expect(out).toMatch(/cut-1\.s1p +86\.0 mm +8\d\d\.\d+ MHz/);
    expect(out).toMatch(/trim +.*below 868\.10 MHz/);
  });

  test('reads the example', async () => {
    const path = fileURLToPath(new URL('../../../examples/fennimara/antenna.s1p', import.meta.url));
    const { code, out } = await finial(['sweep', path, ...target]);
    expect(code).toBe(0);
    expect(out).toMatch(/antenna\.s1p +- +\d+\.\d{3} MHz/);
    expect(out.replace(/\s+/g, ' ')).toContain('no advice without the length');
  });

  test('refuses what it cannot read, by file and line or option', async () => {
    const good = await file('a.s1p', sweepText(874));
    const bad = await file('bad.s1p', '# MHz S RI R 50\n850 -0.1 x\n');
    expect(refusalLine(await finial(['sweep', bad, ...target]))).toMatch(/^bad\.s1p \(line 2/);
    expect(refusalLine(await finial(['sweep', good, '--target-hz', '2.4e9']))).toMatch(
      /^--target-hz: expected .*inside the sweep/,
    );
    expect(refusalLine(await finial(['sweep', good, good, ...target, '--length-m', '0.08']))).toMatch(
      /^--length-m: expected one length for each of the 2/,
    );
    expect(refusalLine(await finial(['sweep', join(folder, 'no.s1p'), ...target]))).toMatch(/ENOENT/);
  });
});

describe('finial walk', () => {
  test('names its own option where a coordinate is out of range', async () => {
    const words = [await file('walk.csv', exampleLog), '--latitude-deg', '41200', '--longitude-deg', '-37.4'];
    expect(refusalLine(await finial(['walk', ...words]))).toBe(
      '--latitude-deg: expected -90 to 90 degrees, got 41200',
    );
  });

  const roof = ['--latitude-deg', '41.2', '--longitude-deg', '-37.4'];

  test('counts frames with the interval of Wilson', async () => {
    const { code, data } = await json(['walk', await file('walk.csv', exampleLog), ...roof]);
    expect(code).toBe(0);
    expect(data.delivery).toMatchObject({ received: 13, sent: 18, missed: 5 });
    // Wilson, Journal of the American Statistical Association 22 (1927) 209, at 95 %.
    const [share, z2, sent] = [13 / 18, 1.959963985 ** 2, 18];
    const middle = (share + z2 / (2 * sent)) / (1 + z2 / sent);
    const half = Math.sqrt(z2 * ((share * (1 - share)) / sent + z2 / (4 * sent ** 2))) / (1 + z2 / sent);
    expect(data.delivery.lowerRatio).toBeCloseTo(middle - half, 6);
    expect(data.delivery.upperRatio).toBeCloseTo(middle + half, 6);
    expect(data.spots.map(({ spot }: { spot: string }) => spot)).toEqual(['quay', 'mill', 'cut']);
    expect(data.fit.usedFrames).toBe(18);
    expect(data.fit.censoring).toBeDefined();
  });

  test('in words', async () => {
    const { out } = await finial(['walk', await file('walk.csv', exampleLog), ...roof]);
    expect(out).toMatch(/^walk\.csv: 13 of 18 frames received, 72 % /);
    expect(out).toMatch(/ {2}cut +\d+ m +1 of 6 +17 %/);
    expect(out).toContain('Law of distance:');
  });

  test('without the place of the gateway there is no law, and a note says why', async () => {
    const { code, data } = await json(['walk', await file('walk.csv', exampleLog)]);
    expect(code).toBe(0);
    expect(data.fit).toBeUndefined();
    expect(data.findings).toEqual([expect.objectContaining({ rule: 'walk-no-law', severity: 'note' })]);
  });

  test('bad rows stop it, or are skipped and listed', async () => {
    const path = await file('walk.csv', exampleLog.replace('-117,-11', '-117,weak'));
    expect(refusalLine(await finial(['walk', path]))).toMatch(/^walk\.csv \(line 16, column 9\): snrDb/);
    const { code, out } = await finial(['walk', path, ...roof, '--skip-bad-rows']);
    expect(code).toBe(0);
    expect(out).toMatch(/1 of 18 rows could not be used:\n {2}line 16 {2}snrDb/);
  });

  test('a log of received frames only proves nothing, and a note says so', async () => {
    const log = 'latitudeDeg;longitudeDeg;rssiDbm\n41,201;-37,401;-90\n41,202;-37,402;-95\n';
    const { out } = await finial(['walk', await file('heard.csv', log), '--received-only', '--decimal', ',']);
    expect(out).toMatch(/2 of 2 frames[\s\S]*proves nothing/);
  });

  test('refuses half a position, a wrong mark and an empty log', async () => {
    const path = await file('walk.csv', exampleLog);
    expect(refusalLine(await finial(['walk', path, '--latitude-deg', '41']))).toMatch(
      /^--longitude-deg: expected both/,
    );
    expect(refusalLine(await finial(['walk', path, ...roof, '--decimal', ';']))).toMatch(
      /^--decimal: expected/,
    );
    expect(refusalLine(await finial(['walk', path, '--latitude-deg', '91', '--longitude-deg', '0']))).toMatch(
      /91/,
    );
    expect(refusalLine(await finial(['walk', await file('empty.csv', '')]))).toMatch(/^empty\.csv.*expected/);
    expect((await readdir(folder)).sort()).toEqual(['empty.csv', 'walk.csv']);
  });
});
