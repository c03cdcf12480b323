import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { eirpDbm, eirpToErpDbm, erpDbm, erpToEirpDbm, maxConductedPowerDbm } from '../src/index.js';
import { expectNear, half } from './support.js';

const chain = fc.record({
  conductedPowerDbm: fc.double({ min: -30, max: 60, noNaN: true }),
  feedlineLossDb: fc.double({ min: 0, max: 30, noNaN: true }),
  antennaGainDbi: fc.double({ min: -20, max: 30, noNaN: true }),
});

describe('radiated power', () => {
  // LoRaWAN Regional Parameters RP002-1.0.4, EU868: the highest power is +16 dBm e.i.r.p.; 25 mW (14 dBm) e.r.p. in
  // ERC Recommendation 70-03, annex 1. The first prints whole decibels.
  test('25 mW e.r.p. of ERC/REC 70-03 is the 16 dBm e.i.r.p. of RP002', () => {
    expectNear(erpToEirpDbm(10 * Math.log10(25)), 16, half(0));
    expectNear(eirpToErpDbm(16.15), 14, 1e-12);
  });
  // 47 CFR 15.247(b)(3) and (4): 1 W conducted with 6 dBi; above that the power falls by as many dB as the gain exceeds 6 dBi.
  test('30 dBm into 6 dBi is the 36 dBm of 47 CFR 15.247, and 9 dBi asks for 27 dBm', () => {
    expectNear(eirpDbm({ conductedPowerDbm: 30, feedlineLossDb: 0, antennaGainDbi: 6 }), 36, 1e-12);
    expectNear(maxConductedPowerDbm({ eirpLimitDbm: 36, feedlineLossDb: 0, antennaGainDbi: 9 }), 27, 1e-12);
  });
  test('e.r.p. lies 2.15 dB below e.i.r.p. (Rec. ITU-R BS.561-2), both ways', () =>
    fc.assert(
      fc.property(chain, (c) => {
        expectNear(eirpDbm(c) - erpDbm(c), 2.15, 1e-12);
        expectNear(erpToEirpDbm(eirpToErpDbm(eirpDbm(c))), eirpDbm(c), 1e-12);
      }),
    ));
  test('the highest conducted power reaches the limit exactly', () =>
    fc.assert(
      fc.property(chain, ({ feedlineLossDb, antennaGainDbi }) => {
        const conductedPowerDbm = maxConductedPowerDbm({
          eirpLimitDbm: 16.15,
          feedlineLossDb,
          antennaGainDbi,
        });
        expectNear(eirpDbm({ conductedPowerDbm, feedlineLossDb, antennaGainDbi }), 16.15, 1e-12);
      }),
    ));
  test('a loss given as a negative number is refused', () => {
    expect(() => eirpDbm({ conductedPowerDbm: 14, feedlineLossDb: -2, antennaGainDbi: 3 })).toThrow(
      /feedlineLossDb: expected .*a loss is positive/,
    );
  });
});
