import { isInputError } from '@finial/units';
import { describe, expect, test } from 'vitest';
import { assembleDossier } from '../src/assembleDossier.js';
import type { FeedlinePlan } from '../src/feedlinePlan.js';
import type { Plan } from '../src/plan.js';
import { renderHtml } from '../src/renderHtml.js';
import { examplePlan } from './examplePlan.js';

const run: FeedlinePlan = {
  parts: [
    { port: 'gateway', end: 'N jack' },
    { cable: 'low-loss 10 mm class', lengthM: 10, ends: ['N plug', 'N plug'] },
    { port: 'antenna', end: 'N jack' },
  ],
};

function planWith(feedline: FeedlinePlan): Plan {
  const { feedlineLossDb: _, ...gateway } = examplePlan.gateway;
  return { ...examplePlan, gateway, feedline };
}

const refusalOf = async (plan: Plan, files: Record<string, string> = {}) => {
  const error = await assembleDossier(plan, files).catch((thrown: unknown) => thrown);
  if (!isInputError(error)) throw new Error(`not refused: ${String(error)}`);
  return error;
};

describe('a run of parts', () => {
  test('loses what the published chain loses', async () => {
    // hardware-vectors.json, chainExamples: 10 m of the 10 mm class at 868.1 MHz 1.256 dB; a joined pair 0.0466 dB.
    const { feedline, linkBudget } = await assembleDossier(planWith(run), {});
    expect(feedline?.lossDb).toBeCloseTo(1.256 + 2 * 0.0466, 2);
    const item = linkBudget.uplink.items.find(({ name }) => /gateway.*feedline/.test(name));
    expect(item?.valueDb).toBe(feedline?.lossDb);
  });

  test('lowers the power that the law sees', async () => {
    const { law, feedline } = await assembleDossier(planWith(run), {});
    expect(law.downlink?.eirpDbm).toBeCloseTo(14 + 2.15 - (feedline?.lossDb ?? 0), 12);
  });

  test('compares the cables of the same impedance for the longest piece', async () => {
    const { feedline } = await assembleDossier(planWith(run), {});
    const names = feedline?.choices?.rows.map(({ designation }) => designation) ?? [];
    expect(names).toContain('RG-58C/U');
    expect(names.filter((name) => /RG-6|RG-11/.test(name))).toEqual([]);
    expect(names[0]).toBe('low-loss 15 mm class');
  });

  test('stops where a part does not join, and draws the place', async () => {
    const [gateway, , antenna] = run.parts;
    const cable = { cable: 'RG-58C/U', lengthM: 2, ends: ['SMA plug', 'N plug'] } as const;
    const parts = [
      { ...gateway, port: 'gateway', end: 'RP-SMA jack' },
      cable,
      antenna as { port: string; end: string },
    ];
    const dossier = await assembleDossier(planWith({ parts }), {});
    expect(dossier.verdict.severity).toBe('stop');
    expect(dossier.verdict.findings[0]?.message).toMatch(/RP-SMA/);
    expect(renderHtml(dossier)).toContain('does not join');
  });

  test('hears about the weather only where the plan tells of it', async () => {
    const rulesOf = async (feedline: FeedlinePlan) =>
      (await assembleDossier(planWith(feedline), {})).verdict.findings.map(({ rule }) => rule);
    expect(await rulesOf(run)).not.toContain('drip-loop');
    const outdoors = { joints: [], hasDripLoops: false, tightestBendRadiusM: 0.02 };
    const rules = await rulesOf({ ...run, outdoors });
    expect(rules).toContain('drip-loop');
    // The class is bent no tighter than 25.4 mm: taken from its row.
    expect(rules).toContain('tight-bend');
  });
});

describe('own parts', () => {
  const own = {
    cables: [],
    connectors: [],
    adapters: [],
    pigtails: [],
    arrestors: [],
    filters: [
      {
        kind: 'filter',
        designation: 'home-made notch',
        ends: [
          { series: 'N', gender: 'plug' },
          { series: 'N', gender: 'jack' },
        ],
        lossDb: 0.7,
        lossUncertaintyDb: 0.1,
        lowestFrequencyHz: 860e6,
        highestFrequencyHz: 880e6,
        source: 'measured by its builder',
        status: 'read',
      },
    ],
  };
  const [gateway, cable, antenna] = run.parts as [never, never, never];
  const withNotch = { catalogue: 'own.json', parts: [gateway, { part: 'home-made notch' }, cable, antenna] };

  test('join the built-in ones', async () => {
    const { feedline } = await assembleDossier(planWith(withNotch), { 'own.json': JSON.stringify(own) });
    expect(feedline?.parts.map(({ lossDb }) => lossDb)).toContain(0.7);
    expect(feedline?.joins).toBe(true);
  });

  test('are refused by name and place where they are wrong', async () => {
    const wrong = { ...own, filters: [{ ...own.filters[0], lossDb: -1 }] };
    const error = await refusalOf(planWith(withNotch), { 'own.json': JSON.stringify(wrong) });
    expect([error.file, error.argument]).toEqual(['own.json', 'filters[0].lossDb']);
    expect((await refusalOf(planWith(withNotch), { 'own.json': '{' })).code).toBe('malformed-file');
  });
});

describe('a plan that says too little or too much of the run', () => {
  test('needs either the loss or the parts', async () => {
    const { feedlineLossDb: _, ...gateway } = examplePlan.gateway;
    expect((await refusalOf({ ...examplePlan, gateway })).code).toBe('missing');
    const both = await refusalOf({ ...examplePlan, feedline: run });
    expect([both.code, both.argument]).toEqual(['unknown-option', 'gateway.feedlineLossDb']);
  });

  test.each([
    ['feedline.parts[1].cable', { cable: 'RG-0', lengthM: 1, ends: ['N plug', 'N plug'] } as const],
    [
      'feedline.parts[1].ends[1].series',
      { cable: 'RG-58C/U', lengthM: 1, ends: ['N plug', 'M plug'] } as const,
    ],
    ['feedline.parts[1].part', { part: 'nothing of the kind' }],
    ['feedline.parts[1].end', { port: 'wall', end: 'hole' }],
  ])('is refused at %s', async (argument, part) => {
    const [gateway, , antenna] = run.parts as [never, never, never];
    expect((await refusalOf(planWith({ parts: [gateway, part, antenna] }))).argument).toBe(argument);
  });
});
