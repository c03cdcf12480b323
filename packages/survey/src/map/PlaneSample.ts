import { checkInteger, checkList, checkObject, checkRange } from '@finial/units';

/** A place on the plane around the gateway. */
export interface PlanePlace {
  /** Metres to the east of the gateway, -2.1e7 to 2.1e7. */
  readonly eastM: number;
  /** Metres to the north of the gateway, -2.1e7 to 2.1e7. */
  readonly northM: number;
}

/** What was measured at one place. */
export interface PlaneSample extends PlanePlace {
  /** Level in dBm, or residual (measured less predicted) in dB, -1000 to 1000: the mean over the frames of the place. */
  readonly levelDb: number;
  /** Frames that the mean was taken over, a whole number from 1 to 1e6. @defaultValue `1` */
  readonly frames?: number | undefined;
}

/** Refuses a place off the plane. */
export function checkPlace(place: PlanePlace, argument: string): PlanePlace {
  const { eastM, northM } = checkObject(place, argument);
  checkRange(eastM, `${argument}.eastM`, { min: -2.1e7, max: 2.1e7, unit: 'metres' });
  checkRange(northM, `${argument}.northM`, { min: -2.1e7, max: 2.1e7, unit: 'metres' });
  return place;
}

/** Most samples that the functions of this package solve for together: the work grows with the cube of it. */
export const maximumSamples = 2000;

/** Refuses samples that no walk could have given. */
export function checkSamples(samples: readonly PlaneSample[], argument: string): readonly PlaneSample[] {
  checkList(samples, argument).forEach((sample, index) => {
    const name = `${argument}[${index}]`;
    checkPlace(sample, name);
    checkRange(sample.levelDb, `${name}.levelDb`, { min: -1000, max: 1000, unit: 'dB' });
    checkFrameCount(sample.frames, `${name}.frames`);
  });
  checkInteger(samples.length, `${argument}.length`, { min: 1, max: maximumSamples, unit: 'samples' });
  return samples;
}

/** Refuses a count of frames that is given and none. */
export function checkFrameCount(frames: number | undefined, argument: string): void {
  if (frames !== undefined) checkInteger(frames, argument, { min: 1, max: 1e6, unit: 'frames' });
}
