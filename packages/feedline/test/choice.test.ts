import { isInputError } from '@finial/units';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import vectors from '../../../tests/reference/hardware-vectors.json' with { type: 'json' };
import type { Cable } from '../src/catalogue/parts.js';
import { compareCables } from '../src/choice/compareCables.js';
import { gatewayAtAntenna } from '../src/choice/gatewayAtAntenna.js';
import { improveRun } from '../src/choice/improveRun.js';

const question = { lengthM: 10, frequencyHz: 868.1e6 };

function codeOf(call: () => unknown): string {
  try {
    call();
  } catch (error) {
    if (isInputError(error)) return `${error.code} ${error.argument}`;
    throw error;
  }
  return 'accepted';
}

/** A cable whose loss is one published point, so that a test can do the sum by hand. */
function plainCable(designation: string, attenuationDbPerM: number, impedanceOhm = 50): Cable {
  return {
    kind: 'cable',
    designation,
    source: 'invented',
    status: 'computed',
    construction: 'invented',
    impedanceOhm,
    velocityFactor: 0.8,
    dielectric: 'foam PE',
    outerDiameterM: 0.01 / (1 + attenuationDbPerM),
    bendRadiusM: 0.05,
    attenuation: [{ frequencyHz: 868.1e6, attenuationDbPerM }],
    attenuationUncertaintyRatio: 0,
  };
}

describe('compareCables', () => {
  // Hardware reference, worked chains: 10 m of each at 868.1 MHz (from a fit made outside this project).
  test.each([
    ['low-loss 10 mm class', 1.256],
    ['RG-58C/U', 6.343],
  ])('10 m of %s lose what the worked chains say', (cable, lossDb) => {
    const [row] = compareCables({ ...question, cables: [cable] }).rows;
    expect(row?.lossDb).toBeCloseTo(lossDb, 2);
  });

  test('every built-in cable is compared or left out with its reason, the least loss first', () => {
    const { rows, leftOut } = compareCables(question);
    expect(leftOut.map(({ designation }) => designation)).toContain('RG-8X (foam)');
    const losses = rows.map(({ lossDb }) => lossDb);
    expect(losses).toEqual([...losses].sort((a, b) => a - b));
    const all = compareCables({ ...question, outsideValidity: 'allow' });
    expect(all.leftOut).toEqual([]);
    expect(all.rows).toHaveLength(rows.length + leftOut.length);
    expect(all.rows.find(({ designation }) => designation === 'RG-8X (foam)')?.warnings).not.toEqual([]);
  });

  test('6.02 dB halve a range in free space, 12.04 dB where the exponent is 4', () => {
    const cables = [plainCable('a', 2 * Math.log10(2))];
    expect(compareCables({ ...question, cables }).rows[0]?.rangeRatio).toBeCloseTo(0.5, 12);
    const far = compareCables({ ...question, lengthM: 20, cables, pathLossExponent: 4 });
    expect(far.rows[0]?.rangeRatio).toBeCloseTo(0.5, 12);
  });

  // Closed form of a 75 ohm line of half a wave and of a quarter wave between 50 ohms: 0 dB, and 75²/50 = 112.5 ohms against 50, VSWR 2.25.
  test('75 ohms between 50 ohms: the mean of every length, and its spread reaches both ends', () => {
    const cables = [plainCable('tv', 1e-6, 75)]; // ten metres lose 0.00001 dB
    const [row] = compareCables({ ...question, cables }).rows;
    const quarterWaveDb = -10 * Math.log10(1 - (1.25 / 3.25) ** 2);
    // Chain matrix of a line without loss, averaged over one wave; the hardware reference, section 1.2, prints 0.18 dB per joint.
    const steps = 3600;
    const mean = Array.from({ length: steps }, (_, step) => (2 * Math.PI * step) / steps).reduce(
      (sum, angleRad) =>
        sum +
        (10 * Math.log10(Math.cos(angleRad) ** 2 + ((1.5 + 1 / 1.5) * Math.sin(angleRad)) ** 2 / 4)) / steps,
      0,
    );
    expect(row?.mismatchLossDb).toBeCloseTo(mean, 9);
    expect((row?.mismatchLossDb ?? 0) / 2).toBeCloseTo(0.18, 2);
    const { mismatchLossDb = 0, lossUncertaintyDb = 0 } = row ?? {};
    expect(mismatchLossDb - lossUncertaintyDb).toBeCloseTo(0, 5);
    expect(mismatchLossDb + lossUncertaintyDb).toBeGreaterThan(quarterWaveDb);
    expect(mismatchLossDb + lossUncertaintyDb).toBeLessThan(quarterWaveDb + 0.02);
    expect(row?.warnings.at(-1)).toContain('75 ohms between 50 ohms');
    expect(compareCables({ ...question, cables, systemImpedanceOhm: 75 }).rows[0]?.mismatchLossDb).toBe(0);
  });

  test('a cable that halves the power weakens what travels there and back: spread -20 lg(1 - 0.2² / 2) = 0.175 dB', () => {
    const cables = [plainCable('tv', Math.log10(2), 75)]; // 3.0103 dB in ten metres
    const [row] = compareCables({ ...question, cables, jointsLossDb: 0.5 }).rows;
    expect(row?.lossUncertaintyDb).toBeCloseTo(-20 * Math.log10(0.98), 9);
    expect(row?.warnings.at(-1)).toContain('up to 0.18 dB more or less');
    // Twice the 0.1773 dB of VSWR 1.5 in the mismatch table.
    expect(row?.lossDb).toBeCloseTo(3.0103 + 0.5 + 2 * 0.1773, 3);
  });

  test('ten kilometres are answered too, for every cable: a thousand times the loss of ten metres', () => {
    const cables = ['low-loss 10 mm class', 'RG-58C/U', plainCable('tv', 0.5, 75)];
    const far = compareCables({ ...question, cables, lengthM: 10_000 }).rows;
    const near = compareCables({ ...question, cables }).rows;
    expect(far).toHaveLength(3);
    far.forEach((row, place) => {
      expect(row.cableLossDb / (near[place]?.cableLossDb ?? 0)).toBeCloseTo(1000, 6);
      expect(row.rangeRatio).toBeLessThan(1e-60);
    });
  });

  test('a cable of the same impedance has nothing to warn of', () => {
    expect(compareCables({ ...question, cables: ['RG-213/U'] }).rows[0]).toMatchObject({
      mismatchLossDb: 0,
      warnings: [],
    });
  });

  test('property: the cable part is proportional to length, and joints add', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 400, noNaN: true }),
        fc.double({ min: 0, max: 10, noNaN: true }),
        (lengthM, jointsLossDb) => {
          const cables = ['RG-213/U'];
          const [one] = compareCables({ ...question, lengthM, cables }).rows;
          const [two] = compareCables({ ...question, lengthM: 2 * lengthM, jointsLossDb, cables }).rows;
          expect(two?.cableLossDb).toBeCloseTo(2 * (one?.cableLossDb ?? 0), 9);
          expect(two?.lossDb).toBeCloseTo(2 * (one?.lossDb ?? 0) + jointsLossDb, 9);
          expect(two?.rangeRatio).toBeLessThan(one?.rangeRatio ?? 0);
        },
      ),
    );
  });

  test('refuses by name', () => {
    expect(codeOf(() => compareCables({ ...question, cables: ['no such cable'] }))).not.toBe('accepted');
    expect(codeOf(() => compareCables({ ...question, cables: [] }))).toBe('missing cables');
    expect(codeOf(() => compareCables(null as never))).toBe('wrong-type question');
    expect(codeOf(() => compareCables({ ...question, pathLossExponent: 0.5 }))).toBe(
      'out-of-range pathLossExponent',
    );
    expect(codeOf(() => compareCables({ ...question, frequencyHz: 868.1 }))).toContain('frequencyHz');
  });
});

describe('improveRun', () => {
  const thick = plainCable('thick', 0.1);
  const thin = plainCable('thin', 0.5);
  const run = { ...question, cable: thin, cables: [thin, thick, plainCable('middle', 0.25)] };

  test('enough', () => {
    expect(improveRun({ ...run, wantedLossDb: 6 })).toMatchObject({ advice: 'enough', shortenByM: 0 });
  });

  test('shorten or step up, to the thinnest that does', () => {
    const better = improveRun({ ...run, wantedLossDb: 3, jointsLossDb: 0.2 });
    expect(better.advice).toBe('shorten-or-step-up');
    // 0.5 dB/m: 2.8 dB are 5.6 m.
    expect(better.longestLengthM).toBeCloseTo(5.6, 9);
    expect(better.shortenByM).toBeCloseTo(4.4, 9);
    expect(better.thinnestCable?.designation).toBe('middle');
    expect(better.leastLossCable.designation).toBe('thick');
    expect(better.message).toContain('4.4 m');
  });

  test('only shorten, only step up, or neither', () => {
    expect(improveRun({ ...run, wantedLossDb: 0.5 }).advice).toBe('shorten');
    expect(improveRun({ ...run, wantedLossDb: 0.5, jointsLossDb: 0.6 })).toMatchObject({
      advice: 'out-of-reach',
      longestLengthM: 0,
      shortenByM: 10,
    });
  });

  test('says what it found, with its figures', () => {
    const sentence = (change: object) => improveRun({ ...run, ...change, wantedLossDb: 3 }).message;
    expect(sentence({ lengthM: 2 })).toBe('thin loses 1.0 ± 0.0 dB of the 3 dB wanted: enough.');
    expect(sentence({})).toBe(
      'thin loses 5.0 ± 0.0 dB of the 3 dB wanted: shorten it by 4.0 m or step up to middle (invented; 2.5 ± 0.0 dB).',
    );
    expect(sentence({ cables: [thin] })).toMatch(/shorten it by 4\.0 m; no cable of the list/);
    expect(sentence({ jointsLossDb: 3.1 })).toMatch(/the joints alone lose more, and thick still loses 4\.1/);
  });

  test('enough on paper is not enough within the uncertainty of the row', () => {
    // 5 dB give or take 10 %: 5.5 dB may come.
    const loose = { ...run, cable: { ...thin, attenuationUncertaintyRatio: 0.1 } };
    expect(improveRun({ ...loose, wantedLossDb: 5.4 }).message).toContain('enough on paper, not within');
    const { lossDb, lossUncertaintyDb } = improveRun({ ...loose, wantedLossDb: 1 }).present;
    expect(improveRun({ ...loose, wantedLossDb: lossDb + lossUncertaintyDb }).message).toMatch(/: enough\.$/);
    expect(improveRun({ ...loose, wantedLossDb: 5.6 }).message).toMatch(/5\.0 ± 0\.5 dB .*: enough\.$/);
  });

  test('a loss that is just what was wanted is enough, and a cable that reaches it does', () => {
    const [thinDb = 0, middleDb = 0] = [thin, plainCable('middle', 0.25)].map(
      (cable) => compareCables({ ...question, cables: [cable] }).rows[0]?.lossDb,
    );
    expect(improveRun({ ...run, wantedLossDb: thinDb }).advice).toBe('enough');
    expect(improveRun({ ...run, wantedLossDb: middleDb }).thinnestCable?.designation).toBe('middle');
  });

  test('the thinnest is offered wherever it stands; of two alike the one that loses less, of two losses alike the present', () => {
    const slim = { ...thick, designation: 'slim', outerDiameterM: 0.003 };
    const alike = { ...plainCable('alike', 0.2), outerDiameterM: 0.003 };
    const better = improveRun({ ...run, cables: [slim, thick, alike], wantedLossDb: 3 });
    expect(better.thinnestCable?.designation).toBe('slim');
    const twin = { ...thin, designation: 'twin' };
    expect(improveRun({ ...run, cables: [twin], wantedLossDb: 3 }).leastLossCable.designation).toBe('thin');
  });

  test('a cable of another impedance is not offered', () => {
    const cables = [plainCable('tv', 0.05, 75)];
    expect(improveRun({ ...run, cables, wantedLossDb: 3 }).thinnestCable).toBeUndefined();
  });

  test('the row of the present cable must cover the frequency', () => {
    expect(codeOf(() => improveRun({ ...question, cable: 'RG-8X (foam)', wantedLossDb: 3 }))).toContain(
      'outside-validity',
    );
  });

  test('property: a run of the longest length loses exactly what is wanted', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.5, max: 8, noNaN: true }),
        fc.double({ min: 0, max: 0.4, noNaN: true }),
        (wantedLossDb, jointsLossDb) => {
          const { longestLengthM } = improveRun({
            ...question,
            cable: 'RG-58C/U',
            wantedLossDb,
            jointsLossDb,
          });
          const again = compareCables({
            ...question,
            lengthM: longestLengthM,
            jointsLossDb,
            cables: ['RG-58C/U'],
          });
          expect(again.rows[0]?.lossDb).toBeCloseTo(wantedLossDb, 9);
        },
      ),
      { numRuns: 30 },
    );
  });
});

describe('gatewayAtAntenna', () => {
  const placement = {
    ...question,
    cable: 'RG-58C/U',
    shortLinkLossDb: 0.4,
    supplyV: 12,
    loadW: 8,
    wireLengthM: 20,
    wireOhmPerM: 0.0133,
    leastLoadV: 10.8,
  };

  // Hardware reference, voltageDropConstantPower: computed outside this project, printed to 0.1 mV.
  test.each(vectors.voltageDropConstantPower)('$supplyV V, $loadW W, $oneWayM m: $loadV V', (row) => {
    const { supplyV, loadW, oneWayM, ohmPerKm, loadV } = row;
    const wire = { supplyV, loadW, wireLengthM: oneWayM, wireOhmPerM: ohmPerKm / 1000, leastLoadV: 4.5 };
    const got = gatewayAtAntenna({ ...placement, ...wire });
    expect(Math.abs((got.loadV ?? 0) - loadV)).toBeLessThanOrEqual(0.5e-4);
  });

  test('10 m of RG-58C/U less 0.4 dB, both ways (6.343 dB: worked chains)', () => {
    const choice = gatewayAtAntenna(placement);
    expect(choice.recommendation).toBe('at-antenna');
    expect(choice.uplinkGainDb).toBeCloseTo(6.343 - 0.4, 2);
    expect(choice.downlinkGainDb).toBe(choice.uplinkGainDb);
    expect(choice.findings.map(({ rule }) => rule)).toEqual([
      'radiated-power',
      'outdoor-radio',
      'supply-safety',
    ]);
  });

  test('property: voltages, powers and the supply agree', () => {
    const supplyV = fc.double({ min: 1, max: 60, noNaN: true });
    const loadW = fc.double({ min: 0.1, max: 50, noNaN: true });
    const wireLengthM = fc.double({ min: 0.1, max: 200, noNaN: true });
    fc.assert(
      fc.property(supplyV, loadW, wireLengthM, (volts, watts, metres) => {
        const line = { supplyV: volts, loadW: watts, wireLengthM: metres };
        const { loadV, dropV, currentA, wirePowerW, loopResistanceOhm, supplyHolds } = gatewayAtAntenna({
          ...placement,
          ...line,
        });
        expect(supplyHolds).toBe(volts ** 2 >= 4 * watts * loopResistanceOhm);
        if (loadV === undefined || dropV === undefined || currentA === undefined || wirePowerW === undefined)
          return;
        expect(loadV + dropV).toBeCloseTo(volts, 9);
        expect(loadV * currentA).toBeCloseTo(watts, 9);
        expect(volts * currentA).toBeCloseTo(watts + wirePowerW, 6);
        expect(loadV).toBeGreaterThanOrEqual(volts / 2);
      }),
    );
  });

  test('a line that cannot carry the power says so, without a voltage', () => {
    const choice = gatewayAtAntenna({ ...placement, supplyV: 5.1, wireLengthM: 100, leastLoadV: 4.75 });
    expect(choice).toMatchObject({ recommendation: 'below', supplyHolds: false });
    expect(choice.loadV).toBeUndefined();
    expect(choice.findings).toMatchObject([{ rule: 'supply-line', severity: 'fix' }]);
  });

  test('too low a voltage, and too little to gain, leave the radio below', () => {
    const low = gatewayAtAntenna({ ...placement, leastLoadV: 11.8 });
    expect(low).toMatchObject({
      recommendation: 'below',
      findings: [{ measured: '11.63 V', limit: '11.8 V' }],
    });
    const short = gatewayAtAntenna({ ...placement, lengthM: 1 });
    expect(short).toMatchObject({ recommendation: 'below', findings: [] });
  });

  // 10 V through 1 ohm into 9 W: 9 V and 1 A, since 9 + 1 = 10. No cable, so that the joints alone decide.
  const round = {
    ...placement,
    lengthM: 0,
    jointsLossDb: 1.5,
    shortLinkLossDb: 0.5,
    supplyV: 10,
    loadW: 9,
    wireLengthM: 1,
    wireOhmPerM: 0.5,
    leastLoadV: 9,
  };

  test('a voltage that just does and a gain that is just worth it move the radio', () => {
    const choice = gatewayAtAntenna(round);
    expect(choice).toMatchObject({ recommendation: 'at-antenna', loadV: 9, currentA: 1, uplinkGainDb: 1 });
    expect(choice.findings.map(({ rule }) => rule)).not.toContain('supply-line');
    expect(choice.message).toBe(
      'Move the radio: at the antenna the radio gains 1.0 dB each way and has 9.00 V.',
    );
  });

  test('the greatest power that a line carries, V² / 4R, leaves half the voltage', () => {
    const line = { supplyV: 2, loadW: 1, leastLoadV: 1.5 };
    expect(gatewayAtAntenna({ ...round, ...line })).toMatchObject({ supplyHolds: true, loadV: 1 });
  });

  test('20 dB hear ten times as far in free space', () => {
    const choice = gatewayAtAntenna({ ...round, jointsLossDb: 20, shortLinkLossDb: 0 });
    expect(choice.uplinkRangeRatio).toBeCloseTo(10, 12);
  });

  test('a sentence says why the radio stays below', () => {
    const said = (change: object) => gatewayAtAntenna({ ...round, ...change }).message;
    expect(said({ shortLinkLossDb: 1 })).toMatch(/^Leave the radio below: .* 0\.5 dB .* less than the 1 dB/);
    expect(said({ leastLoadV: 9.5 })).toMatch(/only 9\.00 V of the 9\.5 V it needs/);
    expect(said({ loadW: 26 })).toMatch(/cannot carry its power of the 9 V it needs/);
  });

  test('refuses by name', () => {
    expect(codeOf(() => gatewayAtAntenna(null as never))).toBe('wrong-type placement');
    // Ten kilometres of thin cable lose more than 6000 dB: no number holds that range.
    expect(codeOf(() => gatewayAtAntenna({ ...placement, lengthM: 10_000 }))).toBe('out-of-range lengthM');
  });

  test('two pairs halve the resistance; 40 degrees add 7.86 % (copper, 0.393 % per kelvin)', () => {
    const { loopResistanceOhm } = gatewayAtAntenna(placement);
    expect(loopResistanceOhm).toBeCloseTo(0.532, 12);
    expect(gatewayAtAntenna({ ...placement, conductorsCount: 2 }).loopResistanceOhm).toBeCloseTo(0.266, 12);
    const warm = gatewayAtAntenna({ ...placement, wireTemperatureC: 40 });
    expect(warm.loopResistanceOhm / loopResistanceOhm).toBeCloseTo(1.0786, 12);
  });
});
