import { bitRateBps, loraBandwidthsHz, requiredSnrDb, sensitivityDbm } from '@finial/lora';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import vectors from '../../../tests/reference/lorawan-vectors.json' with { type: 'json' };

const spreadingFactor = fc.integer({ min: 5, max: 12 });
const bandwidthHz = fc.constantFrom(...loraBandwidthsHz);

describe('bit rate against SX1276 datasheet rev 7, section 4.1.1', () => {
  test('the file still holds its cases', () => expect(vectors.bitRate).toHaveLength(13));

  test.each(vectors.bitRate)(
    'SF$spreadingFactor at $bandwidthHz Hz, 4/$codingRate: $bitRateBps bit/s',
    ({ bitRateBps: expected, source: _, ...modulation }) => {
      // Printed to a thousandth.
      expect(Math.abs(bitRateBps(modulation) - expected)).toBeLessThanOrEqual(0.5e-3 + 1e-9);
    },
  );

  test('the rule chooses the optimisation where nothing is said', () => {
    // RP002 prints 440 and 250 bit/s as indicative rates of SF11 and SF12 at 125 kHz.
    expect(bitRateBps({ spreadingFactor: 11, bandwidthHz: 125e3, codingRate: 5 })).toBeCloseTo(439.453, 3);
    expect(bitRateBps({ spreadingFactor: 12, bandwidthHz: 125e3, codingRate: 5 })).toBeCloseTo(244.141, 3);
  });

  test('the rate is in proportion to the bandwidth', () =>
    fc.assert(
      fc.property(spreadingFactor, fc.integer({ min: 5, max: 8 }), (sf, codingRate) => {
        const settings = { spreadingFactor: sf, codingRate, lowDataRateOptimize: false };
        const rate = bitRateBps({ ...settings, bandwidthHz: 125e3 });
        expect(bitRateBps({ ...settings, bandwidthHz: 500e3 })).toBeCloseTo(4 * rate, 6);
      }),
    ));

  test.each(['spreadingFactor', 'bandwidthHz', 'codingRate'])('%s: NaN is refused by name', (argument) => {
    const modulation = { spreadingFactor: 7, bandwidthHz: 125e3, codingRate: 5, [argument]: Number.NaN };
    expect(() => bitRateBps(modulation)).toThrow(expect.objectContaining({ name: 'InputError', argument }));
  });
});

describe('required SNR against the spreading-factor tables of the datasheets', () => {
  test('the file still holds its cases', () => expect(vectors.requiredSnrDb).toHaveLength(8));

  test.each(vectors.requiredSnrDb)('SF$spreadingFactor: $snrDb dB', ({ spreadingFactor: sf, snrDb }) =>
    expect(requiredSnrDb(sf)).toBe(snrDb),
  );

  test.each([4, 13, 7.5, Number.NaN, Number.POSITIVE_INFINITY, '7', undefined, null])(
    '%s is refused',
    (value) =>
      expect(() => requiredSnrDb(value as number)).toThrow(
        expect.objectContaining({ name: 'InputError', argument: 'spreadingFactor' }),
      ),
  );
});

describe('sensitivity', () => {
  test('-124.5 and -137.0 dBm at 125 kHz with 6 dB (-174 dBm/Hz + bandwidth + noise figure + SNR)', () => {
    // The formula with the round -174 dBm/Hz; kTB at 290 K lies 0.025 dB above it.
    const byHand = (snrDb: number) => -174 + 10 * Math.log10(125e3) + 6 + snrDb;
    const at = (sf: number) => sensitivityDbm({ spreadingFactor: sf, bandwidthHz: 125e3, noiseFigureDb: 6 });
    expect(at(7) - byHand(-7.5)).toBeCloseTo(0.025, 3);
    expect(at(12) - byHand(-20)).toBeCloseTo(0.025, 3);
  });

  // First-generation end-node chips; SF6 there has a sync part of its own and is left out.
  const rows = vectors.sensitivity.filter(
    ({ chip, spreadingFactor: sf }) => ['SX1272', 'SX1276'].includes(chip) && sf >= 7,
  );
  test('the file still holds its rows', () => expect(rows).toHaveLength(24));

  test.each(rows)('$chip SF$spreadingFactor at $bandwidthHz Hz: $sensitivityDbm dBm', (row) => {
    const { spreadingFactor: sf, bandwidthHz: width } = row;
    const got = sensitivityDbm({ spreadingFactor: sf, bandwidthHz: width, noiseFigureDb: 6 });
    // The tables are whole decibels and no noise figure is printed; measured worst: 1.506 and 2.485 dB.
    const allowedDb = width === 500e3 ? 2.5 : 1.51;
    expect(Math.abs(got - row.sensitivityDbm), `formula ${got}`).toBeLessThanOrEqual(allowedDb);
  });

  test('a chip table gains less from SF10 to SF11 at 125 kHz than the 2.5 dB of the formula', () => {
    for (const chip of ['SX1272', 'SX1276']) {
      const row = (sf: number) =>
        rows.find((each) => each.chip === chip && each.bandwidthHz === 125e3 && each.spreadingFactor === sf)
          ?.sensitivityDbm as number;
      expect(row(10) - row(11)).toBeLessThanOrEqual(2);
    }
  });

  test('a decibel of noise figure costs a decibel, four times the bandwidth 6.02 dB', () =>
    fc.assert(
      fc.property(
        spreadingFactor,
        bandwidthHz,
        fc.double({ min: 0, max: 59, noNaN: true }),
        (sf, width, nf) => {
          const receiver = { spreadingFactor: sf, bandwidthHz: width, noiseFigureDb: nf };
          const got = sensitivityDbm(receiver);
          expect(sensitivityDbm({ ...receiver, noiseFigureDb: nf + 1 }) - got).toBeCloseTo(1, 9);
          const at = (widthHz: number) => sensitivityDbm({ ...receiver, bandwidthHz: widthHz });
          expect(at(500e3) - at(125e3)).toBeCloseTo(6.0206, 4);
        },
      ),
    ));

  test.each([
    ['spreadingFactor', 13],
    ['bandwidthHz', 125],
    ['noiseFigureDb', -1],
    ['noiseFigureDb', Number.NaN],
    ['noiseFigureDb', undefined],
  ] as const)('%s = %s is refused by name', (argument, value) => {
    const receiver = { spreadingFactor: 7, bandwidthHz: 125e3, noiseFigureDb: 6, [argument]: value };
    expect(() => sensitivityDbm(receiver as never)).toThrow(
      expect.objectContaining({ name: 'InputError', argument }),
    );
  });
});
