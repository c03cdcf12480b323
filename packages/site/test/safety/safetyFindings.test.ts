import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type SafetyQuestion, safetyFindings } from '../../src/index.js';

const { rfExposureExamples } = JSON.parse(
  readFileSync(new URL('../../../../tests/reference/hardware-vectors.json', import.meta.url), 'utf8'),
) as { rfExposureExamples: { eirpDbm: number; frequencyMHz: number; fccReflect256M: number }[] };

const severities = (question: SafetyQuestion) =>
  Object.fromEntries(safetyFindings(question).map(({ rule, severity }) => [rule, severity]));

describe('safety findings', () => {
  test('what is not stated is asked for, and every finding has a source', () => {
    const findings = safetyFindings({});
    expect(findings.map(({ rule }) => rule)).toEqual([
      'roof-work-caution',
      'rf-exposure-not-stated',
      'overhead-line-not-stated',
      'ladder-not-stated',
      'lightning-not-stated',
      'mains-not-stated',
    ]);
    expect(findings.every(({ source }) => source.length > 0)).toBe(true);
  });

  // tests/reference/hardware-vectors.json, rfExposureExamples: 47 CFR 1.1310 with the factor 2.56 of OET 65
  test.each(rfExposureExamples)('exposure at $eirpDbm dBm, $frequencyMHz MHz', (example) => {
    const { eirpDbm, frequencyMHz, fccReflect256M } = example;
    const exposure = { eirpDbm, frequencyHz: frequencyMHz * 1e6, limit: 'fcc-general' } as const;
    const inside = severities({ exposure: { ...exposure, nearestPersonM: fccReflect256M - 0.0001 } });
    expect(inside['rf-exposure-limit']).toBe('stop');
    const outside = severities({ exposure: { ...exposure, nearestPersonM: fccReflect256M + 0.0001 } });
    expect(outside).not.toHaveProperty('rf-exposure-limit');
  });

  test('an overhead line within mast height and ten feet is a stop, at any height', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.2, max: 90, noNaN: true }), (mastHeightM) => {
        // FCC amateur question pool T0B06: no part of a falling antenna nearer than 10 feet, 3.048 m
        const at = (distanceM: number) => severities({ overheadLines: { distanceM, mastHeightM } });
        expect(at(mastHeightM + 3.047)['overhead-line-fall-circle']).toBe('stop');
        expect(at(mastHeightM + 3.049)).not.toHaveProperty('overhead-line-fall-circle');
        expect(at(mastHeightM + 3.049)).toHaveProperty('overhead-line-caution');
      }),
    );
  });

  test('nearer than twice a tall mast is a note', () => {
    const lines = { distanceM: 15, mastHeightM: 10 };
    expect(severities({ overheadLines: lines })['overhead-line-near']).toBe('note');
    expect(severities({ overheadLines: { ...lines, distanceM: 21 } })).not.toHaveProperty(
      'overhead-line-near',
    );
  });

  test('ladder: one in four of its length is right, flat and steep are told; memory never stops', () => {
    // 29 CFR 1926.1053(b)(5)(i) (from memory): a ladder of 4 m, foot 1 m out
    const right = { supportHeightM: Math.sqrt(15), footDistanceM: 1 };
    expect(severities({ ladder: right })).not.toHaveProperty('ladder-angle');
    expect(severities({ ladder: { ...right, footDistanceM: 2 } })['ladder-angle']).toBe('note');
    expect(severities({ ladder: { ...right, footDistanceM: 0.3 } })['ladder-angle']).toBe('note');
    const short = severities({ ladder: { ...right, beyondEdgeM: 0.5, isConducting: true } });
    expect(short).toMatchObject({ 'ladder-beyond-edge': 'note', 'ladder-conducts': 'note' });
  });

  test('lightning: cites, asks, and never says how', () => {
    const all = severities({
      lightning: { protectionSystem: 'present', hasArrestor: true, hasCopperData: true },
    });
    expect(all).toMatchObject({
      'lightning-protection-system': 'note',
      'mast-bonding': 'note',
      'arrestor-without-bond': 'note',
      'copper-data-cable': 'note',
    });
    const bonded = severities({
      lightning: { protectionSystem: 'absent', isBonded: true, hasArrestor: true },
    });
    expect(Object.keys(bonded)).toContain('lightning-caution');
    expect(bonded).not.toHaveProperty('mast-bonding');
    expect(bonded).not.toHaveProperty('arrestor-without-bond');
  });

  test('mains outdoors is to be mended', () => {
    expect(severities({ mains: { isOutdoors: true } })['mains-outdoors']).toBe('fix');
    expect(severities({ mains: { isOutdoors: false } })).not.toHaveProperty('mains-outdoors');
  });
});
