import { checkInteger, checkList, checkObject, checkOneOf, checkRange, InputError } from '@finial/units';
import { checkPosition } from '../groundDistance.js';
import type { Position } from '../Observation.js';
import { checkThreshold, type ThresholdDbm } from './frameThresholds.js';
import type { FitPathLossOptions } from './PathLossFit.js';

/** Checked options, with defaults in place. */
export interface FitSettings {
  readonly gateway: Position | undefined;
  readonly minimumDistanceM: number;
  readonly signal: 'effective' | 'rssi';
  readonly censored: boolean | 'truncated';
  readonly thresholdDbm: ThresholdDbm | undefined;
  readonly referencePowerDbm: number | undefined;
  readonly slopeCount: 1 | 2;
  readonly breakpointM: number | undefined;
  readonly constantLoss: boolean;
  readonly confidence: number | undefined;
  readonly statedDistancesM: readonly number[] | undefined;
}

/** Refuses options that are wrong, and those that the kind of fit has no use for. */
export function fitSettings(options: FitPathLossOptions): FitSettings {
  const given = checkObject(options, 'options');
  const { gateway, thresholdDbm, referencePowerDbm, breakpointM, confidence, statedDistancesM } = given;
  const { minimumDistanceM = 50, signal = 'effective', censored = false } = given;
  const { slopeCount = 1, constantLoss = false } = given;
  if (gateway !== undefined) checkPosition(gateway, 'gateway');
  checkRange(minimumDistanceM, 'minimumDistanceM', { min: 1, max: 1e6, unit: 'metres' });
  checkOneOf(signal, 'signal', ['effective', 'rssi']);
  checkOneOf(censored, 'censored', [false, true, 'truncated']);
  checkThreshold(thresholdDbm);
  checkInteger(slopeCount, 'slopeCount', { min: 1, max: 2, unit: 'slopes' });
  checkOneOf(constantLoss, 'constantLoss', [false, true]);
  ifGiven(referencePowerDbm, 'referencePowerDbm', -60, 60, 'dBm');
  ifGiven(breakpointM, 'breakpointM', 1, 1e6, 'metres');
  ifGiven(confidence, 'confidence', 0.5, 0.9999, 'as a probability');
  if (statedDistancesM !== undefined) {
    checkList(statedDistancesM, 'statedDistancesM').forEach((distanceM, index) => {
      ifGiven(distanceM, `statedDistancesM[${index}]`, 1, 20_100_000, 'metres');
    });
  }
  if (censored === false) {
    refuseWithout(
      { thresholdDbm, breakpointM, confidence, statedDistancesM },
      "censored: true or 'truncated'",
    );
  }
  if (censored !== true) {
    refuseWithout(
      { slopeCount: slopeCount === 2 || undefined, constantLoss: constantLoss || undefined },
      'censored: true',
    );
  }
  if (slopeCount === 1) refuseWithout({ breakpointM }, 'slopeCount: 2');
  return {
    gateway,
    minimumDistanceM,
    signal,
    censored,
    thresholdDbm,
    referencePowerDbm,
    slopeCount,
    breakpointM,
    constantLoss,
    confidence,
    statedDistancesM,
  };
}

function ifGiven(value: unknown, argument: string, min: number, max: number, unit: string): void {
  // A hole in a list is no default.
  if (value !== undefined || argument.endsWith(']')) checkRange(value, argument, { min, max, unit });
}

/** An option without effect would be believed to have one. */
function refuseWithout(options: Readonly<Record<string, unknown>>, need: string): void {
  for (const [argument, received] of Object.entries(options)) {
    if (received === undefined) continue;
    throw new InputError({ code: 'unknown-option', argument, received, expected: `nothing without ${need}` });
  }
}
