import {
  bitRateBps,
  loraBandwidthsHz,
  loraSymbol,
  processingGainDb,
  requiredSnrDb,
  sensitivityDbm,
} from '@finial/lora';
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

describe('a symbol against SX1276 datasheet rev 7, section 4.1.1', () => {
  // Chips per symbol of the spreading-factor table: 64 to 4096 for SF6 to SF12.
  test.each([
    [6, 64],
    [7, 128],
    [8, 256],
    [9, 512],
    [10, 1024],
    [11, 2048],
    [12, 4096],
  ])('SF%i: %i chips', (sf, symbolChips) => {
    const got = loraSymbol({ spreadingFactor: sf, bandwidthHz: 125e3 });
    expect(got.symbolChips).toBe(symbolChips);
    expect(got.chipRateHz).toBe(125e3);
  });

  test.each(vectors.airtime)('SF$spreadingFactor at $bandwidthHz Hz: $symbolMs ms', (row) => {
    const { spreadingFactor: sf, bandwidthHz: width, lowDataRateOptimize, symbolMs } = row;
    const got = loraSymbol({ spreadingFactor: sf, bandwidthHz: width, lowDataRateOptimize });
    // Printed to a microsecond.
    expect(Math.abs(got.symbolSeconds * 1e3 - symbolMs)).toBeLessThanOrEqual(0.5e-3 + 1e-9);
    expect(got.codedBits).toBe(lowDataRateOptimize ? sf - 2 : sf);
  });

  test('rate and duration are each other inverted, and the bit rate follows from them', () =>
    fc.assert(
      fc.property(spreadingFactor, bandwidthHz, fc.integer({ min: 5, max: 8 }), (sf, width, codingRate) => {
        const modulation = { spreadingFactor: sf, bandwidthHz: width };
        const got = loraSymbol(modulation);
        expect(got.symbolRateHz * got.symbolSeconds).toBeCloseTo(1, 12);
        const fromSymbols = (got.symbolRateHz * got.codedBits * 4) / codingRate;
        expect(bitRateBps({ ...modulation, codingRate }) / fromSymbols).toBeCloseTo(1, 12);
      }),
    ));

  test.each([
    ['spreadingFactor', 4],
    ['bandwidthHz', 125],
    ['lowDataRateOptimize', 'on'],
    ['lowDataRateOptimize', null],
  ])('%s = %s is refused by name', (argument, value) =>
    expect(() => loraSymbol({ spreadingFactor: 7, bandwidthHz: 125e3, [argument]: value } as never)).toThrow(
      expect.objectContaining({ name: 'InputError', argument }),
    ),
  );
});

describe('processing gain', () => {
  // lg 2 = 0.30102999566398119521 (OEIS A007524).
  test.each([
    [5, 15.0514997832],
    [7, 21.0720996965],
    [10, 30.1029995664],
    [12, 36.123599479677],
  ])('SF%i: %f dB', (sf, gainDb) => expect(processingGainDb(sf)).toBeCloseTo(gainDb, 9));

  test('a step doubles the chips: 3.01 dB', () =>
    fc.assert(
      fc.property(fc.integer({ min: 5, max: 11 }), (sf) => {
        expect(processingGainDb(sf + 1) - processingGainDb(sf)).toBeCloseTo(3.0103, 4);
        const { symbolChips } = loraSymbol({ spreadingFactor: sf, bandwidthHz: 125e3 });
        expect(10 ** (processingGainDb(sf) / 10) / symbolChips).toBeCloseTo(1, 12);
      }),
    ));

  test.each([4, 13, 7.5, Number.NaN, '7', undefined])('%s is refused', (value) =>
    expect(() => processingGainDb(value as number)).toThrow(
      expect.objectContaining({ name: 'InputError', argument: 'spreadingFactor' }),
    ),
  );
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

  // All datasheet rows. The tables are whole or half decibels and print no noise figure: each chip gets the one that fits its rows. What
  // is printed here is the measured worst difference: the README and the comment of the function quote it.
  const chips = [
    { chip: 'SX1272', bandwidthHz: 125e3, spreadingFactors: [7, 12], noiseFigureDb: 6, worstDb: 0.994 },
    { chip: 'SX1272', bandwidthHz: 250e3, spreadingFactors: [7, 12], noiseFigureDb: 6, worstDb: 1.504 },
    { chip: 'SX1272', bandwidthHz: 500e3, spreadingFactors: [7, 12], noiseFigureDb: 6, worstDb: 2.485 },
    { chip: 'SX1276', bandwidthHz: 125e3, spreadingFactors: [7, 12], noiseFigureDb: 6, worstDb: 1.506 },
    { chip: 'SX1302', bandwidthHz: 125e3, spreadingFactors: [7, 12], noiseFigureDb: 3, worstDb: 1.006 },
    { chip: 'SX1261/2', bandwidthHz: 125e3, spreadingFactors: [7, 12], noiseFigureDb: 6, worstDb: 0.506 },
    { chip: 'SX1261/2', bandwidthHz: 250e3, spreadingFactors: [7, 12], noiseFigureDb: 6, worstDb: 0.496 },
    { chip: 'SX1261/2', bandwidthHz: 500e3, spreadingFactors: [7, 12], noiseFigureDb: 6, worstDb: 1.985 },
    // SF6 of the first generation has a sync part and an SNR limit of its own: the formula is up to 5 dB too hopeful.
    { chip: 'SX1272', bandwidthHz: 125e3, spreadingFactors: [6, 6], noiseFigureDb: 6, worstDb: 1.006 },
    { chip: 'SX1272', bandwidthHz: 250e3, spreadingFactors: [6, 6], noiseFigureDb: 6, worstDb: 0.996 },
    { chip: 'SX1272', bandwidthHz: 500e3, spreadingFactors: [6, 6], noiseFigureDb: 6, worstDb: 4.985 },
    { chip: 'SX1276', bandwidthHz: 125e3, spreadingFactors: [6, 6], noiseFigureDb: 6, worstDb: 4.006 },
  ] as const;
  const rowsOf = ({ chip, bandwidthHz: width, spreadingFactors: [from, to] }: (typeof chips)[number]) =>
    vectors.sensitivity.filter(
      (row) =>
        row.chip === chip &&
        row.bandwidthHz === width &&
        row.spreadingFactor >= from &&
        row.spreadingFactor <= to,
    );
  const rows = vectors.sensitivity;

  test('every row of the file is compared once', () => {
    expect(rows).toHaveLength(40);
    expect(chips.flatMap(rowsOf)).toHaveLength(40);
    expect(new Set(chips.flatMap(rowsOf))).toEqual(new Set(rows));
  });

  test.each(chips)(
    '$chip at $bandwidthHz Hz, SF$spreadingFactors, $noiseFigureDb dB: $worstDb dB at worst',
    (chip) => {
      const differences = rowsOf(chip).map((row) => {
        const { spreadingFactor: sf, bandwidthHz: width } = row;
        const receiver = { spreadingFactor: sf, bandwidthHz: width, noiseFigureDb: chip.noiseFigureDb };
        return sensitivityDbm(receiver) - row.sensitivityDbm;
      });
      const worstDb = Math.max(...differences.map(Math.abs));
      const shown = differences.map((difference) => difference.toFixed(3)).join(' ');
      expect(worstDb, shown).toBeCloseTo(chip.worstDb, 3);
    },
  );

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
