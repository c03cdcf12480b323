import {
  describeReception,
  type Reception,
  receptionTerms,
  requiredSnrDb,
  signalAndNoiseDbm,
} from '@finial/lora';
import { sumPowersDbm } from '@finial/units';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

const rssiDbm = fc.double({ min: -150, max: 10, noNaN: true });
const snrDb = fc.double({ min: -30, max: 30, noNaN: true });
const spreadingFactor = fc.integer({ min: 5, max: 12 });

describe('signal and noise', () => {
  // 10 lg 2 = 3.0103 dB (OEIS A007524): at 0 dB each has half of the power. At 10 dB the parts are 10/11 and 1/11: 0.4139 and 10.4139 dB
  // below, by hand with lg 11 = 1.04139.
  test.each([
    [-100, 0, -103.0103, -103.0103],
    [-100, 10, -100.4139, -110.4139],
    [-120, -10, -130.4139, -120.4139],
  ])('RSSI %f dBm, SNR %f dB: %f and %f dBm', (rssi, snr, signal, noise) => {
    const got = signalAndNoiseDbm({ rssiDbm: rssi, snrDb: snr });
    expect(got.signalPowerDbm).toBeCloseTo(signal, 4);
    expect(got.noisePowerDbm).toBeCloseTo(noise, 4);
  });

  test('they add up to the RSSI and differ by the SNR', () =>
    fc.assert(
      fc.property(rssiDbm, snrDb, (rssi, snr) => {
        const { signalPowerDbm, noisePowerDbm } = signalAndNoiseDbm({ rssiDbm: rssi, snrDb: snr });
        expect(sumPowersDbm([signalPowerDbm, noisePowerDbm])).toBeCloseTo(rssi, 9);
        expect(signalPowerDbm - noisePowerDbm).toBeCloseTo(snr, 9);
      }),
    ));

  test('far from the noise one of them is the RSSI', () => {
    expect(signalAndNoiseDbm({ rssiDbm: -100, snrDb: 3000 }).signalPowerDbm).toBe(-100);
    expect(signalAndNoiseDbm({ rssiDbm: -100, snrDb: -3000 })).toEqual({
      signalPowerDbm: -3100,
      noisePowerDbm: -100,
    });
  });

  test.each([
    ['rssiDbm', Number.NaN],
    ['rssiDbm', '-100'],
    ['snrDb', undefined],
    ['snrDb', 1e9],
  ])('%s = %s is refused by name', (argument, value) =>
    expect(() => signalAndNoiseDbm({ rssiDbm: -100, snrDb: 0, [argument]: value } as never)).toThrow(
      expect.objectContaining({ name: 'InputError', argument }),
    ),
  );
});

describe('a reception described', () => {
  test('thermal noise at 125 kHz is -123.0 dBm (k T B at 290 K: -174 dBm/Hz and 51 dB, Rec. ITU-R P.372)', () => {
    const got = describeReception({ rssiDbm: -110, snrDb: 0, spreadingFactor: 7 });
    expect(got.noiseFloorDbm).toBeCloseTo(-174 + 10 * Math.log10(125e3), 1);
    const known = describeReception({ rssiDbm: -110, snrDb: 0, spreadingFactor: 7, noiseFigureDb: 6 });
    expect(known.noiseFloorDbm - got.noiseFloorDbm).toBeCloseTo(6, 12);
    expect(got.noiseRiseDb - known.noiseRiseDb).toBeCloseTo(6, 12);
  });

  // Required SNR by spreading factor as the datasheets have it: -7.5 dB at SF7 to -20 dB at SF12, in steps of 2.5 dB.
  test.each([
    [-7.5, 7],
    [-7.6, 8],
    [-10, 8],
    [-12.6, 10],
    [-20, 12],
    [-20.1, undefined],
    [9, 7],
  ])('at %f dB SNR the fastest is SF%s', (snr, fastest) => {
    const got = describeReception({ rssiDbm: -118, snrDb: snr, spreadingFactor: 12 });
    expect(got.fastestSpreadingFactor).toBe(fastest);
    expect(got.fasterStepCount).toBe(fastest === undefined ? undefined : 12 - fastest);
    expect(got.marginDb).toBeCloseTo(snr + 20, 9);
  });

  test('frames faster than SF7 are compared with themselves', () => {
    const got = describeReception({ rssiDbm: -90, snrDb: 0, spreadingFactor: 5, bandwidthHz: 500e3 });
    expect(got).toMatchObject({ fastestSpreadingFactor: 5, fasterStepCount: 0 });
  });

  test.each([
    [{ rssiDbm: -60, snrDb: 5, spreadingFactor: 7 }, /^Decoded with 12\.5 dB to spare at SF7\. The signal/],
    [{ rssiDbm: -117, snrDb: -17, spreadingFactor: 11 }, /; nothing faster would have been decoded\./],
    [{ rssiDbm: -117, snrDb: -17, spreadingFactor: 12 }, /; SF11 would still have been decoded\./],
    [
      { rssiDbm: -117, snrDb: -10, spreadingFactor: 7 },
      /^Reported 2\.5 dB below what SF7 needs; SF8 would do\./,
    ],
    [{ rssiDbm: -117, snrDb: -23, spreadingFactor: 12 }, /; even SF12 needs more\./],
    [{ rssiDbm: -100, snrDb: 0, spreadingFactor: 9 }, /-103 dBm, as strong as the noise of -103 dBm\.$/],
    [{ rssiDbm: -100, snrDb: 4, spreadingFactor: 9 }, /, 4 dB above the noise of /],
  ])('%j in words', (reception, words) => expect(describeReception(reception).sentence).toMatch(words));

  const rulesOf = (reception: Reception) => describeReception(reception).findings.map(({ rule }) => rule);
  test.each([
    ['nothing', { rssiDbm: -100, snrDb: 5, spreadingFactor: 9 }, []],
    ['a thin margin', { rssiDbm: -117, snrDb: -18, spreadingFactor: 12 }, ['thin-margin']],
    ['an SNR below the limit', { rssiDbm: -117, snrDb: -23, spreadingFactor: 12 }, ['snr-below-limit']],
    [
      'an SNR at its end',
      { rssiDbm: -60, snrDb: 12, spreadingFactor: 7, noiseFigureDb: 6 },
      ['snr-at-its-end'],
    ],
    ['a noisy place', { rssiDbm: -100, snrDb: 0, spreadingFactor: 9, noiseFigureDb: 6 }, ['noise-rise']],
    ['noise that cannot be told from the receiver', { rssiDbm: -100, snrDb: 0, spreadingFactor: 9 }, []],
    ['noise below the thermal floor', { rssiDbm: -125, snrDb: 3, spreadingFactor: 9 }, ['noise-below-floor']],
  ])('%s is found', (_, reception, rules) => expect(rulesOf(reception)).toEqual(rules));

  test('findings are notes: a report of one frame stops nothing', () =>
    fc.assert(
      fc.property(rssiDbm, snrDb, spreadingFactor, (rssi, snr, sf) => {
        const got = describeReception({ rssiDbm: rssi, snrDb: snr, spreadingFactor: sf, noiseFigureDb: 6 });
        for (const finding of got.findings) {
          expect(finding.severity).toBe('note');
          expect(finding.message).toMatch(/^[A-Z].*\.$/);
        }
        expect(got.sentence).not.toMatch(/NaN|undefined|-0 dB/);
      }),
    ));

  test('the fastest is decoded and one step faster is not', () =>
    fc.assert(
      fc.property(snrDb, fc.integer({ min: 7, max: 12 }), (snr, sf) => {
        const { fastestSpreadingFactor: fastest } = describeReception({
          rssiDbm: -110,
          snrDb: snr,
          spreadingFactor: sf,
        });
        if (fastest !== undefined) expect(snr).toBeGreaterThanOrEqual(requiredSnrDb(fastest));
        if (fastest !== 7) expect(snr).toBeLessThan(requiredSnrDb((fastest ?? 13) - 1));
      }),
    ));

  test.each([
    ['rssiDbm', [-201, 51, Number.NaN, '-100', null, undefined]],
    ['snrDb', [-61, 61, Number.NaN, '0', null, undefined]],
    ['spreadingFactor', [4, 13, 7.5, Number.NaN, 'SF7', null, undefined]],
    ['bandwidthHz', [0, 125, Number.NaN, '125000', null]],
    ['noiseFigureDb', [-1, 61, Number.NaN, '6', null]],
  ])('%s is refused by name', (argument, values) => {
    const reception = { rssiDbm: -100, snrDb: 0, spreadingFactor: 9, bandwidthHz: 125e3, noiseFigureDb: 6 };
    for (const value of values) {
      expect(() => describeReception({ ...reception, [argument]: value } as never), String(value)).toThrow(
        expect.objectContaining({ name: 'InputError', argument }),
      );
    }
  });
});

describe('the words explained', () => {
  test.each(Object.entries(receptionTerms))(
    '%s says what it is in sentences, with its range and source',
    (_, entry) => {
      expect(entry.says).toMatch(/^[A-Z].*\.$/);
      expect(entry.term.length).toBeGreaterThan(2);
      for (const text of [entry.unit, entry.typical, entry.source]) expect(text).not.toBe('');
    },
  );

  test('what they say of figures is what the functions compute', () => {
    const step = requiredSnrDb(11) - requiredSnrDb(12);
    expect(receptionTerms.spreadingFactor.says).toContain(`${step} dB`);
    const { noiseFloorDbm } = describeReception({ rssiDbm: -100, snrDb: 0, spreadingFactor: 7 });
    expect(receptionTerms.noiseFloor.says).toContain(`${Math.round(noiseFloorDbm)} dBm`);
  });
});
