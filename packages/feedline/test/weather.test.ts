import { type OutdoorRun, weatherFindings } from '@finial/feedline';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

const good: OutdoorRun = {
  joints: [{ name: 'antenna', sealing: 'gasket', seal: 'mastic-and-tape' }],
  hasDripLoops: true,
  isSunlightResistant: true,
  isInTheSun: true,
  tieSpacingM: 0.5,
  tightestBendRadiusM: 0.06,
  leastBendRadiusM: 0.05,
  arrestor: { place: 'building-entry', isBonded: true, bondLengthM: 0.3 },
  isMastBonded: true,
};
const always = ['work-at-height', 'lightning'];
const rulesOf = (run: OutdoorRun) => weatherFindings(run).map(({ rule }) => rule);

describe('weatherFindings', () => {
  test('says only the two cautions of good work', () => expect(rulesOf(good)).toEqual(always));

  // The faults that the reference page lists under weather sealing and surge arrestors.
  const faults: readonly (readonly [string, Partial<OutdoorRun>])[] = [
    ['joint-unsealed', { joints: [{ name: 'antenna', sealing: 'none', seal: 'nothing' }] }],
    ['joint-unsealed', { joints: [{ name: 'antenna', sealing: 'splash', seal: 'nothing' }] }],
    ['no-gasket', { joints: [{ name: 'antenna', sealing: 'none', seal: 'own-gasket' }] }],
    ['gasket-only', { joints: [{ name: 'antenna', sealing: 'gasket', seal: 'own-gasket' }] }],
    [
      'open-connector',
      { joints: [{ name: 'spare', sealing: 'gasket', seal: 'mastic-and-tape', isOpen: true }] },
    ],
    ['drip-loop', { hasDripLoops: false }],
    ['sunlight', { isSunlightResistant: false }],
    ['strain-relief', { tieSpacingM: 1.5 }],
    ['tight-bend', { tightestBendRadiusM: 0.04 }],
    ['no-arrestor', { arrestor: 'none' }],
    ['arrestor-place', { arrestor: { place: 'radio', isBonded: true } }],
    ['arrestor-place', { arrestor: { place: 'antenna', isBonded: true } }],
    ['arrestor-not-bonded', { arrestor: { place: 'building-entry', isBonded: false } }],
    ['long-bond', { arrestor: { place: 'building-entry', isBonded: true, bondLengthM: 4 } }],
    ['mast-not-bonded', { isMastBonded: false }],
  ];
  test.each(faults)('%s', (rule, fault) => expect(rulesOf({ ...good, ...fault })).toEqual([rule, ...always]));

  test.each(['mastic-and-tape', 'adhesive-shrink-sleeve'] as const)('%s keeps any joint dry', (seal) => {
    for (const sealing of ['gasket', 'splash', 'none'] as const) {
      expect(rulesOf({ ...good, joints: [{ name: 'antenna', sealing, seal }] })).toEqual(always);
    }
  });

  test('a gasket with nothing around it is only noted', () => {
    expect(rulesOf({ ...good, joints: [{ name: 'antenna', sealing: 'gasket', seal: 'nothing' }] })).toEqual([
      'gasket-only',
      ...always,
    ]);
  });

  test('what lies at a limit is within it', () => {
    const arrestor = { place: 'building-entry', isBonded: true, bondLengthM: 1 } as const;
    expect(rulesOf({ ...good, tieSpacingM: 1, tightestBendRadiusM: 0.05, arrestor })).toEqual(always);
  });

  test.each<[Partial<OutdoorRun>, string, string]>([
    [{ tieSpacingM: 1.5 }, '1.5 m', '1 m'],
    [{ tightestBendRadiusM: 0.04 }, '0.04 m', '0.05 m'],
    [{ arrestor: { place: 'building-entry', isBonded: true, bondLengthM: 4 } }, '4 m', '1 m'],
  ])('%j is told with its limit', (fault, measured, limit) => {
    expect(weatherFindings({ ...good, ...fault })[0]).toMatchObject({ measured, limit });
  });

  test('an arrestor at the radio has let the surge in; one at the antenna guards nothing indoors', () => {
    const said = (place: 'radio' | 'antenna') =>
      weatherFindings({ ...good, arrestor: { place, isBonded: true } })[0]?.message;
    expect(said('radio')).toContain('already inside');
    expect(said('antenna')).toContain('one at the building entry as well');
  });

  test.each<[Partial<OutdoorRun>, string[]]>([
    [{ tightestBendRadiusM: undefined }, ['bend radius']],
    [{ leastBendRadiusM: undefined }, ['bend radius']],
    [{ isSunlightResistant: undefined }, ['sunlight on the jacket']],
    [{ isSunlightResistant: undefined, isInTheSun: undefined }, ['sunlight on the jacket']],
    [{ isSunlightResistant: undefined, isInTheSun: false }, []],
  ])('%j leaves open: %j', (silence, subjects) => {
    const notTold = weatherFindings({ ...good, ...silence }).filter(({ rule }) => !always.includes(rule));
    expect(notTold.map(({ message }) => message)).toEqual(
      subjects.map((subject) => `Not judged, since not told: ${subject}.`),
    );
  });

  test('a jacket in the shade need not withstand the sun', () => {
    expect(rulesOf({ ...good, isInTheSun: false, isSunlightResistant: false })).toEqual(always);
  });

  test('silence is not approval', () => {
    const [finding] = weatherFindings({ joints: [] });
    expect(finding).toMatchObject({ rule: 'not-told', severity: 'note' });
    for (const subject of ['drip loops', 'sunlight', 'ties', 'bend', 'arrestor', 'mast']) {
      expect(finding?.message).toContain(subject);
    }
  });

  test('bonding always defers to the local code', () => {
    const messages = weatherFindings({ ...good, isMastBonded: false }).map(({ message }) => message);
    expect(messages.filter((message) => message.includes('local electrical code'))).toHaveLength(2);
  });

  test('never stops anyone, and always warns of heights', () => {
    fc.assert(
      fc.property(fc.subarray([...faults]), (chosen) => {
        const run = Object.assign({}, good, ...chosen.map(([, fault]) => fault)) as OutdoorRun;
        const findings = weatherFindings(run);
        expect(findings.filter(({ severity }) => severity === 'stop')).toEqual([]);
        expect(findings.map(({ rule }) => rule)).toEqual(expect.arrayContaining(always));
        expect(findings.every(({ source }) => source === 'common practice, no source')).toBe(true);
      }),
    );
  });

  const [joint] = good.joints;
  const arrestor = good.arrestor as object;
  test.each<[string, string, unknown]>([
    ['wrong-type', 'run', null],
    ['wrong-type', 'run.joints', {}],
    ['wrong-type', 'run.joints', { joints: 'none' }],
    ['wrong-type', 'run.joints[0]', { joints: [null] }],
    ['wrong-type', 'run.joints[0].name', { joints: [{ ...joint, name: 5 }] }],
    ['unknown-option', 'run.joints[0].sealing', { joints: [{ ...joint, sealing: 'rubber' }] }],
    ['unknown-option', 'run.joints[0].seal', { joints: [{ ...joint, seal: 'silicone' }] }],
    ['unknown-option', 'run.joints[0].isOpen', { joints: [{ ...joint, isOpen: 'no' }] }],
    ['unknown-option', 'run.hasDripLoops', { ...good, hasDripLoops: 'yes' }],
    ['unknown-option', 'run.isSunlightResistant', { ...good, isSunlightResistant: 1 }],
    ['unknown-option', 'run.isInTheSun', { ...good, isInTheSun: 'often' }],
    ['unknown-option', 'run.isMastBonded', { ...good, isMastBonded: null }],
    ['wrong-type', 'run.arrestor', { ...good, arrestor: 'gas-discharge' }],
    ['unknown-option', 'run.arrestor.place', { ...good, arrestor: { ...arrestor, place: 'mast' } }],
    ['unknown-option', 'run.arrestor.isBonded', { ...good, arrestor: { ...arrestor, isBonded: undefined } }],
    ['out-of-range', 'run.arrestor.bondLengthM', { ...good, arrestor: { ...arrestor, bondLengthM: -1 } }],
  ])('%s %s', (code, argument, run) => {
    expect(() => weatherFindings(run as OutdoorRun)).toThrow(
      expect.objectContaining({ name: 'InputError', code, argument }),
    );
  });

  test.each(['tieSpacingM', 'tightestBendRadiusM', 'leastBendRadiusM'])('%s is refused by name', (field) => {
    for (const value of [0, -1, Number.NaN, Number.POSITIVE_INFINITY, '1', 1e9]) {
      expect(() => weatherFindings({ ...good, [field]: value })).toThrow(
        expect.objectContaining({ name: 'InputError', argument: `run.${field}` }),
      );
    }
  });
});
