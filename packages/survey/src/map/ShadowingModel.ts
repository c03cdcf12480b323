import { checkObject, checkRange } from '@finial/units';

/**
 * How the levels of a walk scatter about their trend: shadows that neighbouring places share, and what single frames add.
 *
 * Covariance of two places at distance h: shadowingDb² · exp(-h / decorrelationM).
 */
export interface ShadowingModel {
  /** Standard deviation of the shadowing in dB, 0.01 to 100: the root of the variogram's partial sill. */
  readonly shadowingDb: number;
  /** Distance in metres, 0.1 to 1e6, over which the correlation falls to 1/e. A variogram levels off (95 %) at three times that. */
  readonly decorrelationM: number;
  /** Standard deviation in dB, 0 to 100, of one frame about the mean of its place: the root of the variogram's nugget. */
  readonly nuggetDb: number;
}

/** Refuses what is no model of shadowing. */
export function checkShadowing(model: ShadowingModel, argument: string): ShadowingModel {
  const { shadowingDb, decorrelationM, nuggetDb } = checkObject(model, argument);
  checkRange(shadowingDb, `${argument}.shadowingDb`, { min: 0.01, max: 100, unit: 'dB' });
  checkRange(decorrelationM, `${argument}.decorrelationM`, { min: 0.1, max: 1e6, unit: 'metres' });
  checkRange(nuggetDb, `${argument}.nuggetDb`, { min: 0, max: 100, unit: 'dB' });
  return model;
}
