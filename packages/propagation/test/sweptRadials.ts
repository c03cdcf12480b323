import type { p1812, RadioPath, RadioZone } from '@finial/propagation';
import type { RadialGround } from '../src/sweep/radial/RadialGround.js';

/** A radial as a test describes it: ground at even distances, and receivers between them. */
export interface TestRadial {
  readonly name: string;
  readonly stepM: number;
  /** Bare ground at 0, 1, 2 ... steps. */
  readonly heightM: readonly number[];
  /** Clutter at the same places; none counts at the gateway. */
  readonly clutterM?: readonly number[];
  /** 0 inland, 1 sea, 2 land near a coast. */
  readonly zone?: readonly number[];
  readonly receivers: readonly TestReceiver[];
}

export interface TestReceiver {
  readonly distanceM: number;
  readonly heightM: number;
  readonly zone?: number;
}

const zoneNames: readonly RadioZone[] = ['inland', 'sea', 'coastal-land'];

/** Latitude along a radial that runs due north. */
export function latitudeDeg(startDeg: number, distanceM: number): number {
  return startDeg + (distanceM / 6_371_000) * (180 / Math.PI);
}

/** The radial in the form that a swept model takes. */
export function groundOf(radial: TestRadial, startLatitudeDeg: number): RadialGround {
  const { heightM, clutterM, zone, stepM, receivers } = radial;
  const distanceM = Float64Array.from(heightM, (_, index) => index * stepM);
  return {
    stepM,
    pointCount: heightM.length,
    distanceM,
    heightM: Float64Array.from(heightM),
    obstacleM: Float64Array.from(heightM, (m, index) => m + (index === 0 ? 0 : (clutterM?.[index] ?? 0))),
    isSea: Uint8Array.from(heightM, (_, index) => zone?.[index] ?? 0),
    latitudeDeg: distanceM.map((m) => latitudeDeg(startLatitudeDeg, m)),
    longitudeDeg: new Float64Array(heightM.length),
    receiverCount: receivers.length,
    receiverDistanceM: Float64Array.from(receivers, (receiver) => receiver.distanceM),
    receiverHeightM: Float64Array.from(receivers, (receiver) => receiver.heightM),
    receiverIsSea: Uint8Array.from(receivers, (receiver) => receiver.zone ?? 0),
    lossDb: new Float64Array(receivers.length).fill(Number.NaN),
  };
}

/** The receiver's own profile: the gateway, the points nearer than it, and itself. */
export function pathTo(
  radial: TestRadial,
  receiver: TestReceiver,
  antennas: Pick<RadioPath, 'frequencyHz' | 'transmitterHeightM' | 'receiverHeightM' | 'polarisation'>,
): RadioPath {
  const { heightM, clutterM, zone, stepM } = radial;
  const count = Math.min(heightM.length, Math.ceil(receiver.distanceM / stepM));
  const upTo = <Value>(values: readonly Value[], last: Value): Value[] => [...values.slice(0, count), last];
  return {
    ...antennas,
    distanceM: upTo(
      heightM.map((_, index) => index * stepM),
      receiver.distanceM,
    ),
    heightM: upTo(heightM, receiver.heightM),
    ...(clutterM && { clutterHeightM: upTo(clutterM, 0) }),
    ...(zone && { zone: upTo(zone, receiver.zone ?? 0).map((number) => zoneNames[number] as RadioZone) }),
  };
}

/** Numbers from 0 to 1 that look random and are the same in every run. */
export function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}

/** Rough ground by halving: 2^levels + 1 heights. */
export function fractal(seed: number, levels: number, reliefM: number, roughness = 0.55): number[] {
  const random = randomFrom(seed);
  const count = 2 ** levels + 1;
  const heights = new Array<number>(count).fill(0);
  heights[0] = reliefM * random();
  heights[count - 1] = reliefM * random();
  let spreadM = reliefM;
  for (let step = count - 1; step > 1; step /= 2) {
    for (let at = step / 2; at < count; at += step) {
      const middle = ((heights[at - step / 2] as number) + (heights[at + step / 2] as number)) / 2;
      heights[at] = middle + spreadM * (random() - 0.5);
    }
    spreadM *= roughness;
  }
  return heights;
}

/** Receivers in the gaps and exactly on points, on the ground of the radial and somewhat beside it. */
export function receiversOn(
  { heightM, stepM, zone }: Pick<TestRadial, 'heightM' | 'stepM' | 'zone'>,
  random: () => number,
  besideM: number,
): TestReceiver[] {
  const receivers: TestReceiver[] = [];
  for (let index = 1; index < heightM.length; index += 1) {
    const onPoint = random() < 0.2;
    const distanceM = onPoint ? index * stepM : (index - random()) * stepM;
    receivers.push({
      distanceM: Math.max(distanceM, 2),
      heightM: (heightM[index] as number) + besideM * (random() - 0.5),
      zone: zone?.[index] ?? 0,
    });
  }
  return receivers;
}

/** Settings of the point-to-point method that a swept model stands for, with what the sweep allows. */
export function settingsFor(
  model: Omit<p1812.PredictionSettings, 'centreLatitudeDeg'>,
  startLatitudeDeg: number,
  distanceM: number,
): p1812.PredictionSettings {
  return {
    ...model,
    centreLatitudeDeg: latitudeDeg(startLatitudeDeg, distanceM / 2),
    outsideValidity: 'allow',
  };
}
