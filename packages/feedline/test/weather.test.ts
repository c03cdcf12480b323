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

  test.each(['tieSpacingM', 'tightestBendRadiusM', 'leastBendRadiusM'])('%s is refused by name', (field) => {
    for (const value of [0, -1, Number.NaN, Number.POSITIVE_INFINITY, '1', 1e9]) {
      expect(() => weatherFindings({ ...good, [field]: value })).toThrow(
        expect.objectContaining({ name: 'InputError', argument: `run.${field}` }),
      );
    }
  });
});
