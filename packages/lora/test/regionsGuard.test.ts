import {
  checkTransmission,
  citationOf,
  firstWindowDataRate,
  isInputError,
  maxPayload,
  onChannelPlan,
  type Region,
  regions,
} from '@finial/lora';
import { describe, expect, test } from 'vitest';
import { everyRegion } from './regionTables.js';

type Path = readonly (string | number)[];

function leavesOf(value: unknown, path: Path = []): Path[] {
  const inside =
    typeof value === 'object' && value !== null
      ? Object.entries(value).flatMap(([key, item]) => leavesOf(item, [...path, key]))
      : [];
  return path.length === 0 ? inside : [path, ...inside];
}

function withValue(value: unknown, [key, ...rest]: Path, replacement: unknown): unknown {
  if (key === undefined) return replacement;
  const copy = (Array.isArray(value) ? [...value] : { ...(value as object) }) as Record<string, unknown>;
  copy[key] = withValue(copy[key], rest, replacement);
  return copy;
}

function answers(region: Region): unknown[] {
  return [
    ...Array.from({ length: 15 }, (_, dataRate) =>
      maxPayload({ region, dataRate, direction: 'uplink', repeater: true }),
    ),
    ...Array.from({ length: 15 }, (_, dataRate) =>
      maxPayload({ region, dataRate, direction: 'uplink', dwellLimited: true }),
    ),
    ...Object.keys(region.firstWindow.dataRates).map((up) =>
      firstWindowDataRate({ region, uplinkDataRate: Number(up), rx1DrOffset: 1 }),
    ),
    citationOf({ region, group: 'payloads', dataRate: 1 }),
    ...(region.channelPlans ?? []).map(
      ({ name }) => onChannelPlan({ region, channelPlan: name }).secondWindow,
    ),
  ];
}

describe('a region that somebody damaged', () => {
  test.each(everyRegion)('%s itself is taken', (_, region) =>
    expect(answers(region).length).toBeGreaterThan(30),
  );

  // A new region from a file or a JavaScript caller: every member, replaced by everything that could stand there instead.
  test.each([regions.EU868, regions.US915, regions.AS923_1, regions.KR920, regions.CN470])(
    '$name: ends in an answer without NaN or in an InputError',
    (region) => {
      const paths = leavesOf(region).filter(([first]) => first !== 'sources');
      expect(paths.length).toBeGreaterThan(150);
      let refused = 0;
      for (const path of paths) {
        for (const replacement of [Number.NaN, 'twelve', null, undefined, {}, -1e12]) {
          const damaged = withValue(region, path, replacement) as Region;
          try {
            const text = JSON.stringify(answers(damaged), (_, value) =>
              typeof value === 'number' && !Number.isFinite(value) ? 'not finite' : value,
            );
            expect(text, path.join('.')).not.toContain('not finite');
          } catch (error) {
            if (!isInputError(error))
              throw new Error(`${path.join('.')} = ${String(replacement)}`, { cause: error });
            expect(error.argument).toMatch(/^region/);
            refused++;
          }
        }
      }
      expect(refused).toBeGreaterThan(paths.length);
    },
  );

  test('a transmission in it ends in a check or in an InputError', () => {
    const plan = {
      jurisdiction: 'US',
      dataRate: 1,
      frequencyHz: 902.5e6,
      applicationBytes: 60,
      conductedPowerDbm: 31,
      feedlineLossDb: 0,
      antennaGainDbi: 0,
    } as const;
    expect(checkTransmission({ ...plan, region: regions.US915 }).permitted).toBe(false);
    const paths = leavesOf(regions.US915).filter((path) => path.length < 6);
    let refused = 0;
    for (const path of paths) {
      for (const replacement of [Number.NaN, 'twelve', null, undefined, {}]) {
        const region = withValue(regions.US915, path, replacement) as Region;
        try {
          const check = checkTransmission({ ...plan, region });
          for (const { source, message } of check.findings)
            expect(`${source} ${message}`).not.toMatch(/NaN|undefined|object/);
        } catch (error) {
          if (!isInputError(error))
            throw new Error(`${path.join('.')} = ${String(replacement)}`, { cause: error });
          refused++;
        }
      }
    }
    expect(refused).toBeGreaterThan(paths.length);
  });

  test.each([
    ['region', null],
    ['region', 'AU915'],
    ['region', []],
    ['region', {}],
    ['region', { name: 'X' }],
    ['region.plan', { ...regions.EU868, plan: undefined }],
    ['region.minHz', { ...regions.EU868, minHz: Number.NaN }],
    ['region.dataRates[0]', { ...regions.EU868, dataRates: [null] }],
    ['region.dataRates[0].dataRate', { ...regions.EU868, dataRates: [{}] }],
    ['region.channels', { ...regions.EU868, channels: undefined }],
    ['region.power.txPowersDbm', { ...regions.EU868, power: { quantity: 'EIRP' } }],
    ['region.firstWindow', { ...regions.EU868, firstWindow: undefined }],
    [
      'region.firstWindow.dataRates.0',
      { ...regions.EU868, firstWindow: { channel: 'same', dataRates: { 0: 1 } } },
    ],
    ['region.dwell.when', { ...regions.US915, dwell: { dwellSeconds: 1 } }],
    ['region.sources', { ...regions.EU868, sources: undefined }],
    ['region.sources.payloads', { ...regions.EU868, sources: { payloads: 'a book' } }],
    [
      'region.sources.payloads[0].edition',
      { ...regions.EU868, sources: { payloads: [{ document: 'a book' }] } },
    ],
    ['region.channelPlans[0].name', { ...regions.CN470, channelPlans: [{}] }],
  ])('%s is named', (argument, region) =>
    expect(() => maxPayload({ region: region as never, dataRate: 0, direction: 'uplink' })).toThrow(
      expect.objectContaining({ name: 'InputError', argument }),
    ),
  );

  test('a scale that slipped is asked about', () =>
    expect(() =>
      maxPayload({ region: { ...regions.EU868, minHz: 863 }, dataRate: 0, direction: 'uplink' }),
    ).toThrow('megahertz?'));
});

test('citationOf refuses by name', () => {
  const rows = { region: regions.EU868, group: 'payloads' } as const;
  for (const [argument, change] of [
    ['group', { group: 'prices' }],
    ['group', { group: undefined }],
    ['dataRate', { dataRate: 15 }],
    ['dataRate', { dataRate: Number.NaN }],
    ['dataRate', { dataRate: null }],
    ['region', { region: 'EU868' }],
  ] as const) {
    expect(() => citationOf({ ...rows, ...change } as never)).toThrow(
      expect.objectContaining({ name: 'InputError', argument }),
    );
  }
});
