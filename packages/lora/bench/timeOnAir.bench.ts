import type { Frame, FrameSettings, TimeOnAir } from '@finial/lora';
import { describe, expect, test } from 'vitest';
import { bundled } from '../../../tests/support/bundled.js';

// As a bundle, loaded by Node itself, which is how users have it: the test runner would wrap each import in a getter.
const { code } = await bundled("export { timeOnAir, timesOnAirSeconds } from '@finial/lora';");
const { timeOnAir, timesOnAirSeconds } = (await import(
  /* @vite-ignore */ `data:text/javascript,${encodeURIComponent(code)}`
)) as typeof import('@finial/lora');

const frameCount = 4096;

/** Park-Miller generator, so that every run sees the same frames. */
function randomNumbers(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (state * 48_271) % 2_147_483_647;
    // Small whole numbers, as a program would read them from a frame, and not results of a division.
    return (state % below) | 0;
  };
}

/** Frames of every kind that LoRaWAN sends below 1 GHz, in one order at random, all settings written out. */
function mixedFrames(): Frame[] {
  const random = randomNumbers(20_240_229);
  return Array.from({ length: frameCount }, () => ({
    spreadingFactor: 7 + random(6),
    bandwidthHz: [125e3, 125e3, 250e3, 500e3][random(4)] as number,
    codingRate: random(4) === 0 ? 5 + random(4) : 5,
    payloadBytes: random(256),
    preambleSymbols: random(8) === 0 ? 10 : 8,
    header: random(8) === 0 ? 'implicit' : 'explicit',
    crc: random(2) === 0,
  }));
}

/** The formula as anybody would write it into a loop, without a check: what the function is measured against. */
function writtenByHand(frames: readonly Frame[]): number {
  let sum = 0;
  for (let index = 0; index < frames.length; index++) {
    const { spreadingFactor, bandwidthHz, codingRate, payloadBytes, preambleSymbols, header, crc } = frames[
      index
    ] as Frame;
    const symbolSeconds = (1 << spreadingFactor) / bandwidthHz;
    const optimized = symbolSeconds > 0.016;
    const bits =
      8 * payloadBytes -
      4 * spreadingFactor +
      (spreadingFactor < 7 ? 0 : 8) +
      (crc ? 16 : 0) +
      (header === 'explicit' ? 20 : 0);
    const payloadSymbols =
      8 +
      Math.ceil(Math.max(bits, 0) / (4 * (optimized ? spreadingFactor - 2 : spreadingFactor))) * codingRate;
    const preamble = (preambleSymbols as number) + (spreadingFactor < 7 ? 6.25 : 4.25);
    const preambleSeconds = preamble * symbolSeconds;
    const payloadSeconds = payloadSymbols * symbolSeconds;
    const totalSeconds = (preamble + payloadSymbols) * symbolSeconds;
    // The sum keeps the engine from leaving out what nobody would read.
    sum += symbolSeconds + preambleSeconds + payloadSymbols + payloadSeconds + totalSeconds;
    sum += optimized ? 1 : 0;
  }
  return sum;
}

function byTheFunction(frames: readonly Frame[]): number {
  let sum = 0;
  for (let index = 0; index < frames.length; index++) {
    const got: TimeOnAir = timeOnAir(frames[index] as Frame);
    sum +=
      got.symbolSeconds + got.preambleSeconds + got.payloadSymbols + got.payloadSeconds + got.totalSeconds;
    sum += got.lowDataRateOptimize ? 1 : 0;
  }
  return sum;
}

function secondsByHand(frames: readonly Frame[]): number {
  let sum = 0;
  for (let index = 0; index < frames.length; index++) {
    const { spreadingFactor, bandwidthHz, codingRate, payloadBytes, preambleSymbols, header, crc } = frames[
      index
    ] as Frame;
    const symbolSeconds = (1 << spreadingFactor) / bandwidthHz;
    const bitsPerSymbol = symbolSeconds > 0.016 ? spreadingFactor - 2 : spreadingFactor;
    const bits =
      8 * payloadBytes -
      4 * spreadingFactor +
      (spreadingFactor < 7 ? 0 : 8) +
      (crc ? 16 : 0) +
      (header === 'explicit' ? 20 : 0);
    const symbols = 8 + Math.ceil(Math.max(bits, 0) / (4 * bitsPerSymbol)) * codingRate;
    sum += ((preambleSymbols as number) + (spreadingFactor < 7 ? 6.25 : 4.25) + symbols) * symbolSeconds;
  }
  return sum;
}

function secondsByTheFunction(frames: readonly Frame[]): number {
  let sum = 0;
  for (let index = 0; index < frames.length; index++) sum += timeOnAir(frames[index] as Frame).totalSeconds;
  return sum;
}

/** How fast the second is, measured by the first; the fastest of three runs, since the machine has other work. */
const attempts = 3;

describe('timeOnAir against a loop written by hand', () => {
  const frames = mixedFrames();

  test('all six results', async ({ bench }) => {
    expect(byTheFunction(frames)).toBeCloseTo(writtenByHand(frames), 6);
    let ratio = 0;
    for (let attempt = 0; attempt < attempts; attempt++) {
      const result = await bench.compare(
        bench('by hand, six results', () => void writtenByHand(frames)),
        bench('timeOnAir, six results', () => void byTheFunction(frames)),
      );
      const rate = (name: 'by hand, six results' | 'timeOnAir, six results') =>
        result.get(name).throughput.mean;
      ratio = Math.max(ratio, rate('timeOnAir, six results') / rate('by hand, six results'));
    }
    console.log(`timeOnAir runs at ${ratio.toFixed(2)} of the speed of the loop by hand, for six results`);
    expect(ratio).toBeGreaterThan(0.8);
  });

  test('seconds only', async ({ bench }) => {
    expect(secondsByTheFunction(frames)).toBeCloseTo(secondsByHand(frames), 6);
    let ratio = 0;
    for (let attempt = 0; attempt < attempts; attempt++) {
      const result = await bench.compare(
        bench('by hand, seconds', () => void secondsByHand(frames)),
        bench('timeOnAir, seconds', () => void secondsByTheFunction(frames)),
      );
      const rate = (name: 'by hand, seconds' | 'timeOnAir, seconds') => result.get(name).throughput.mean;
      ratio = Math.max(ratio, rate('timeOnAir, seconds') / rate('by hand, seconds'));
    }
    console.log(`timeOnAir runs at ${ratio.toFixed(2)} of the speed of the loop by hand, for seconds only`);
    expect(ratio).toBeGreaterThan(0.6);
  });

  test('a series of equal settings', async ({ bench }) => {
    const settings: FrameSettings = { spreadingFactor: 9, bandwidthHz: 125e3, codingRate: 5, crc: true };
    const payloadBytes = Uint8Array.from(frames, (frame) => frame.payloadBytes);
    const series = frames.map((frame) => ({
      ...frame,
      ...settings,
      preambleSymbols: 8,
      header: 'explicit' as const,
    }));
    const outSeconds = new Float64Array(frameCount);
    const total = timesOnAirSeconds({ ...settings, payloadBytes }).reduce((sum, seconds) => sum + seconds, 0);
    expect(total).toBeCloseTo(secondsByHand(series), 6);
    const result = await bench.compare(
      bench('by hand, series', () => void secondsByHand(series)),
      bench('timesOnAirSeconds', () => void timesOnAirSeconds({ ...settings, payloadBytes, outSeconds })),
    );
    const ratio =
      result.get('timesOnAirSeconds').throughput.mean / result.get('by hand, series').throughput.mean;
    console.log(`timesOnAirSeconds runs at ${ratio.toFixed(2)} of the speed of the loop by hand`);
    expect(ratio).toBeGreaterThan(0.8);
  });
});
