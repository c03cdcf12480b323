import { describe, expect, test } from 'vitest';
import { bundled } from '../../../tests/support/bundled.js';
import type { RadialGround, RadialModel } from '../src/sweep/radial/RadialGround.js';
import { fractal, groundOf, randomFrom } from '../test/sweptRadials.js';

// As a bundle, loaded by Node itself, which is how users have it: the test runner would wrap each import in a getter.
const { code } = await bundled(`
  export { p526Radials } from './packages/propagation/src/sweep/p526/p526Radials.js';
  export { PredictionSweep } from './packages/propagation/src/sweep/p1812/PredictionSweep.js';
`);
const { p526Radials, PredictionSweep } = (await import(
  /* @vite-ignore */ `data:text/javascript,${encodeURIComponent(code)}`
)) as typeof import('../src/sweep/p526/p526Radials.js') &
  typeof import('../src/sweep/p1812/PredictionSweep.js');

// Radials of 20 km at 30 m with a receiver at every other point, as many as a raster has.
const stepM = 30;
const pointCount = 667;
const receiverCount = 333;
const radialCount = 40;

function radials(reliefM: number): readonly RadialGround[] {
  return Array.from({ length: radialCount }, (_, radial) => {
    const heightM = fractal(radial + 1, 10, reliefM).slice(0, pointCount);
    const random = randomFrom(radial + 1);
    const receivers = Array.from({ length: receiverCount }, (__, index) => ({
      distanceM: 45 + 2 * index * stepM + 25 * random(),
      heightM: (heightM[2 * index + 1] as number) + random(),
    }));
    return groundOf({ name: '', stepM, heightM, receivers }, 51);
  });
}

function diffraction(): RadialModel {
  const question = {
    gateway: { position: { latitudeDeg: 51, longitudeDeg: 0 }, antennaHeightM: 10 },
    frequencyHz: 868e6,
    model: { kind: 'p526', deltaN: 40 } as const,
    radiusM: 20_000,
    cellM: stepM,
    receiverHeightM: 1.5,
  };
  return p526Radials(question, 40, { pointCount, mostReceivers: receiverCount });
}

function prediction(timePercent: number): RadialModel {
  return new PredictionSweep({
    model: { kind: 'p1812', deltaN: 40, surfaceRefractivity: 325, timePercent },
    frequencyHz: 868e6,
    polarisation: 'vertical',
    transmitterHeightM: 10,
    receiverHeightM: 1.5,
    radiusM: 20_000,
    pointCapacity: pointCount,
    receiverCapacity: receiverCount,
  });
}

/** How often the cheapest run is tried, since the machine has other work. */
const attempts = 5;

function nanosecondsPerReceiver(model: RadialModel, grounds: readonly RadialGround[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (let attempt = 0; attempt < attempts; attempt += 1) {
    const start = performance.now();
    for (const ground of grounds) model.lossesAlong(ground);
    least = Math.min(least, performance.now() - start);
  }
  return (least * 1e6) / radialCount / receiverCount;
}

// Measured on Node 20, one server core: 280 to 440 ns for diffraction, 1.5 to 1.9 times as much for half of the time, 3.1 to 3.6 times for 10 %,
// as a second Earth radius has its own diffraction.
describe('the whole of P.1812 beside free space and diffraction alone', () => {
  test.each([
    ['mountains', 760],
    ['gentle hills', 77],
    ['flat land', 0],
  ])('%s', (name, reliefM) => {
    const grounds = radials(reliefM);
    const models = [diffraction(), prediction(50), prediction(10)] as const;
    for (const model of models) for (const ground of grounds) model.lossesAlong(ground);
    const [alone, median, tenth] = models.map((model) => nanosecondsPerReceiver(model, grounds)) as [
      number,
      number,
      number,
    ];
    const show = (ns: number) => `${ns.toFixed(0)} ns (${(ns / alone).toFixed(2)})`;
    console.info(`${name}: diffraction ${alone.toFixed(0)} ns, 50 % ${show(median)}, 10 % ${show(tenth)}`);
    expect(median / alone).toBeLessThan(2.5);
    expect(tenth / alone).toBeLessThan(5);
  });
});
