import {
  builtInCatalogue,
  type Cable,
  type CableRun,
  type ChainPart,
  cableNamed,
  checkChain,
  mates,
  partEnd,
  surgeArrestors,
} from '@finial/feedline';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import vectors from '../../../tests/reference/hardware-vectors.json' with { type: 'json' };

const port = (name: string, words: string): ChainPart => ({ kind: 'port', name, end: partEnd(words) });
function run(cable: Cable | string, lengthM: number, first: string, second: string): CableRun {
  const row = typeof cable === 'string' ? cableNamed(cable) : cable;
  return { kind: 'cable-run', cable: row, lengthM, ends: [partEnd(first), partEnd(second)] };
}
const arrestor = surgeArrestors.find(
  ({ designation }) => designation === 'gas-discharge arrestor, N jack to N jack',
) as (typeof surgeArrestors)[number];

/** The worked chains of the reference file as parts. The radio's pair counts as one of theirs. */
const workedChains: readonly (readonly ChainPart[])[] = [
  [
    port('gateway', 'SMA jack'),
    run('RG-316/U', 0.3, 'SMA plug', 'N plug'),
    arrestor,
    run('low-loss 10 mm class', 10, 'N plug', 'N plug'),
    port('antenna', 'N jack'),
  ],
  [
    port('gateway', 'SMA jack'),
    run('RG-316/U', 0.2, 'SMA plug', 'N jack'),
    run('low-loss 6 mm class', 6, 'N plug', 'N plug'),
    port('antenna', 'N jack'),
  ],
  [port('gateway', 'N jack'), run('RG-58C/U', 10, 'N plug', 'N plug'), port('antenna', 'N jack')],
];

describe('checkChain against worked chains', () => {
  test('the file still holds them', () => expect(vectors.chainExamples).toHaveLength(workedChains.length));

  test.each(vectors.chainExamples.map((example, index) => [index, example] as const))(
    'chain %i',
    (index, example) => {
      const parts = workedChains[index] ?? [];
      const pairs = example.parts.find(({ part }) => part[0] === 'pairs');
      const chain = checkChain(parts, { frequencyHz: example.frequencyMHz * 1e6 });
      expect(chain.joins).toBe(true);
      expect(chain.joints).toHaveLength(Number(pairs?.part[1]));
      expect(Math.abs(chain.lossDb - example.totalDb)).toBeLessThan(0.01);
      const jointsDb = chain.joints.reduce((sum, { lossDb }) => sum + lossDb, 0);
      expect(Math.abs(jointsDb - (pairs?.lossDb ?? Number.NaN))).toBeLessThan(0.001);
    },
  );

  test.each(Object.entries(vectors.connectorLossRule))('one pair of N at %s GHz', (gigahertz, lossDb) => {
    const pair = [port('radio', 'N jack'), port('antenna', 'N plug')];
    const chain = checkChain(pair, { frequencyHz: Number(gigahertz) * 1e9 });
    expect(Math.abs(chain.lossDb - lossDb)).toBeLessThan(0.000_06);
  });

  test('the loss costs radiated power once, and at 290 K it adds to the noise figure (reference, worked chains)', () => {
    const parts = workedChains[0] ?? [];
    const chain = checkChain(parts, {
      frequencyHz: 868.1e6,
      conductedPowerDbm: 14,
      antennaGainDbi: 5.15,
      receiverNoiseFigureDb: 6,
    });
    expect(Math.abs((chain.eirpDbm ?? Number.NaN) - (14 - 1.894 + 5.15))).toBeLessThan(0.01);
    expect(Math.abs((chain.systemNoiseFigureDb ?? Number.NaN) - (6 + 1.894))).toBeLessThan(0.01);
  });
});

describe('uncertainty of a chain', () => {
  // Round figures, so that the sums below are done by hand: 1 dB per metre at any frequency, known to 10 %.
  const plain = (designation: string): Cable => ({
    ...cableNamed('RG-213/U'),
    designation,
    attenuationUncertaintyRatio: 0.1,
    attenuation: [{ frequencyHz: 1e9, attenuationDbPerM: 1 }],
  });
  const free = {
    ...builtInCatalogue,
    connectors: builtInCatalogue.connectors.map((row) => ({
      ...row,
      pairLossAtOneGigahertzDb: 0,
      leastPairLossDb: 0,
      greatestPairLossDb: 0,
    })),
  };
  const twoRuns = (first: Cable, second: Cable) =>
    checkChain([run(first, 3, 'N plug', 'N jack'), run(second, 4, 'N plug', 'N jack')], {
      frequencyHz: 1e9,
      catalogue: free,
    });

  test('one make errs together: 0.3 + 0.4 = 0.7 dB', () => {
    const chain = twoRuns(plain('one'), plain('one'));
    expect(chain.lossDb).toBeCloseTo(7, 9);
    expect(chain.lossUncertaintyDb).toBeCloseTo(0.7, 9);
    expect(chain.leastLossDb).toBeCloseTo(6.3, 9);
    expect(chain.greatestLossDb).toBeCloseTo(7.7, 9);
  });

  test('two makes err apart: 3-4-5 makes 0.5 dB', () => {
    expect(twoRuns(plain('one'), plain('two')).lossUncertaintyDb).toBeCloseTo(0.5, 9);
  });

  test('joints err apart: two pairs of half range 0.05 dB', () => {
    const chain = checkChain(
      [port('radio', 'N jack'), run(plain('one'), 1e-3, 'N plug', 'N plug'), port('antenna', 'N jack')],
      { frequencyHz: 1e9 },
    );
    expect(chain.lossUncertaintyDb).toBeCloseTo(Math.hypot(0.05, 0.05, 0.0001), 6);
  });

  test('75 ohm cable between 50 ohm connectors: no more than VSWR 2.25 can reflect', () => {
    const cable = { ...plain('75'), impedanceOhm: 75 };
    const chain = checkChain([run(cable, 1e-3, 'N plug', 'N plug')], { frequencyHz: 1e9, catalogue: free });
    // (75/50)² is the greatest VSWR, a quarter wave apart: −10 lg(1 − ((2.25 − 1)/(2.25 + 1))²) = 0.695 dB, by hand.
    expect(chain.greatestLossDb).toBeGreaterThan(0.695);
    expect(chain.greatestLossDb).toBeLessThan(0.75);
    expect(chain.findings.map(({ rule }) => rule)).toContain('cable-impedance');
  });
});

describe('findings of a chain', () => {
  const rulesOf = (parts: readonly ChainPart[], frequencyHz = 868.1e6) =>
    checkChain(parts, { frequencyHz, outsideValidity: 'allow' }).findings.map(
      ({ rule, severity }) => `${rule} ${severity}`,
    );

  test('a joint that does not mate is a stop that names the adapter, and counts with its loss', () => {
    const chain = checkChain(
      [port('gateway', 'RP-SMA jack'), run('RG-213/U', 5, 'N plug', 'N plug'), port('antenna', 'N jack')],
      {
        frequencyHz: 868.1e6,
      },
    );
    const [joint] = chain.joints;
    expect(chain.joins).toBe(false);
    expect(joint?.adapters?.parts).toHaveLength(1);
    const finding = chain.findings.find(({ severity }) => severity === 'stop');
    expect(finding).toMatchObject({ rule: 'joint-does-not-mate' });
    expect(finding?.message).toContain(joint?.adapters?.parts[0]?.part.designation);
    // Two pairs of 0.0466 dB at least.
    expect(joint?.lossDb).toBeGreaterThan(0.09);
  });

  test.each([
    ['SMA plug', 'RP-SMA jack', 'joint-damages'],
    ['RP-SMA plug', 'SMA jack', 'joint-only-looks-joined'],
    ['TNC plug', 'BNC jack', 'joint-does-not-mate'],
    ['N plug', 'N jack 75 ohm', 'joint-damages'],
  ])('%s on %s: %s', (a, b, rule) => {
    expect(rulesOf([port('radio', a), port('antenna', b)])).toContain(`${rule} stop`);
  });

  test('an adapter that joins two impedances is said to reflect', () => {
    const rules = rulesOf([port('radio', 'BNC jack 75 ohm'), port('antenna', 'N jack')]);
    expect(rules).toContain('joint-does-not-mate stop');
    expect(rules).toContain('impedance-step fix');
    expect(rulesOf([port('radio', 'BNC jack 75 ohm'), port('antenna', 'BNC plug')])).toContain(
      'impedance-step fix',
    );
    expect(rulesOf([port('radio', 'SMA jack'), port('antenna', 'N jack')])).not.toContain(
      'impedance-step fix',
    );
  });

  test('a joint that nothing mends is said to be left out', () => {
    const none = { ...builtInCatalogue, adapters: [], pigtails: [] };
    const chain = checkChain([port('radio', 'N jack'), port('antenna', 'SMA jack')], {
      frequencyHz: 868.1e6,
      catalogue: none,
    });
    expect(chain.lossDb).toBe(0);
    expect(chain.warnings).toEqual([expect.stringContaining('leaves out the joint of radio (N jack)')]);
  });

  test('UHF connectors at 868 MHz are advised against, and no more: the limit is from memory', () => {
    const rules = rulesOf([port('radio', 'UHF jack'), port('antenna', 'UHF plug')]);
    expect(rules).toContain('connector-beyond-frequency note');
    expect(rules.filter((rule) => rule.endsWith('stop'))).toEqual([]);
    expect(rulesOf([port('radio', 'UHF jack'), port('antenna', 'UHF plug')], 144e6)).toEqual([
      'unverified-figures note',
    ]);
  });

  test('a filter for another band', () => {
    const filter = builtInCatalogue.filters.find(
      ({ lowestFrequencyHz }) => lowestFrequencyHz === 863e6,
    ) as ChainPart;
    expect(rulesOf([filter], 915e6)).toContain('part-outside-band note');
    expect(rulesOf([filter], 868e6)).not.toContain('part-outside-band note');
  });

  test('a quarter-wave arrestor blocks a supply', () => {
    const stub = surgeArrestors.find(({ principle }) => principle === 'quarter-wave') as ChainPart;
    expect(rulesOf([stub])).toContain('direct-current-blocked note');
    expect(rulesOf([arrestor])).not.toContain('direct-current-blocked note');
  });

  test('open ends are what is missing from the basket', () => {
    const { findings } = checkChain([run('RG-58C/U', 1, 'SMA plug', 'N plug')], { frequencyHz: 868.1e6 });
    expect(findings.find(({ rule }) => rule === 'open-end')?.message).toContain('SMA plug, N plug');
  });

  test('a cable hotter than its insulation, and one that takes half the power', () => {
    const hot = { ...run('RG-58C/U', 10, 'N plug', 'N plug'), temperatureC: 120 };
    const rules = rulesOf([port('radio', 'N jack'), hot, port('antenna', 'N jack')]);
    expect(rules).toContain('cable-too-hot note');
    expect(rules).toContain('half-the-power-lost note');
  });
});

describe('checkChain', () => {
  const frequencyHz = fc.double({ min: 10e6, max: 1e9, noNaN: true });
  const lengthM = fc.double({ min: 0.01, max: 400, noNaN: true });
  const line = (length: number) => [
    port('radio', 'N jack'),
    run('RG-58C/U', length, 'N plug', 'N plug'),
    port('antenna', 'N jack'),
  ];

  test('the whole is the sum of its parts and joints, and the shares make one', () => {
    fc.assert(
      fc.property(frequencyHz, lengthM, (f, length) => {
        const chain = checkChain(line(length), { frequencyHz: f });
        const all = [...chain.parts, ...chain.joints];
        expect(all.reduce((sum, { lossDb }) => sum + lossDb, 0)).toBeCloseTo(chain.lossDb, 9);
        expect(all.reduce((sum, { shareOfLossRatio }) => sum + shareOfLossRatio, 0)).toBeCloseTo(1, 9);
        expect(chain.greatestLossDb).toBeGreaterThanOrEqual(chain.lossDb);
        expect(chain.leastLossDb).toBeLessThanOrEqual(chain.lossDb);
      }),
    );
  });

  test('twice the cable costs twice as much besides its joints, and heat costs more', () => {
    fc.assert(
      fc.property(frequencyHz, lengthM, (f, length) => {
        const at = (metres: number, temperatureC = 20) =>
          checkChain(line(metres), { frequencyHz: f, temperatureC });
        const once = at(length);
        const jointsDb = once.joints.reduce((sum, { lossDb }) => sum + lossDb, 0);
        expect(at(2 * length).lossDb - jointsDb).toBeCloseTo(2 * (once.lossDb - jointsDb), 9);
        expect(at(length, 60).lossDb).toBeGreaterThan(once.lossDb);
      }),
    );
  });

  test('says which joints mate as mates does', () => {
    const words = ['N plug', 'N jack', 'SMA plug', 'RP-SMA jack', 'BNC jack 75 ohm', 'BNC plug', 'UHF jack'];
    const half = fc.constantFrom(...words);
    fc.assert(
      fc.property(half, half, (a, b) => {
        const chain = checkChain([port('radio', a), port('antenna', b)], { frequencyHz: 868.1e6 });
        expect(chain.joins).toBe(mates(partEnd(a), partEnd(b)).mates);
        expect(chain.findings.some(({ severity }) => severity === 'stop')).toBe(!chain.joins);
      }),
    );
  });

  test('a frequency beyond the figures of a cable is refused, or allowed and said', () => {
    const parts = [run('RG-8X', 5, 'N plug', 'N plug')];
    expect(() => checkChain(parts, { frequencyHz: 868.1e6 })).toThrow(
      expect.objectContaining({ code: 'outside-validity', argument: 'frequencyHz' }),
    );
    expect(checkChain(parts, { frequencyHz: 868.1e6, outsideValidity: 'allow' }).warnings).not.toEqual([]);
  });

  test('a port in the middle, an unknown series and a half-stated radiation are refused', () => {
    const conditions = { frequencyHz: 868.1e6 };
    const middle = [port('a', 'N jack'), port('b', 'N jack'), port('c', 'N jack')];
    expect(() => checkChain(middle, conditions)).toThrow(
      expect.objectContaining({ argument: 'parts[1].kind' }),
    );
    expect(() => checkChain([port('a', 'n jack')], conditions)).toThrow(
      expect.objectContaining({ argument: 'parts[0].end.series', expected: expect.stringContaining('SMA') }),
    );
    expect(() => checkChain([port('a', 'N jack')], { ...conditions, antennaGainDbi: 3 })).toThrow(
      expect.objectContaining({ code: 'missing', argument: 'conductedPowerDbm' }),
    );
    expect(() => checkChain([], conditions)).toThrow(
      expect.objectContaining({ code: 'missing', argument: 'parts' }),
    );
  });
});
