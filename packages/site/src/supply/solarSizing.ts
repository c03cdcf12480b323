import { checkObject, checkRange, type Finding } from '@finial/units';

/** A gateway that lives on sunshine. */
export interface SolarLoad {
  /** Power in watts that the gateway draws on average over a day, converter included, 1e-3 to 1000. */
  readonly meanLoadW: number;
  /**
   * Sunshine on the tilted panel in the worst month, as a mean over day and night in W/m2, 5 to 500. One kilowatt hour per square metre and
   * day (one "peak sun hour") is 41.7 W/m2.
   */
  readonly worstMonthWPerM2: number;
  /** How many days without any sunshine the battery must bridge, 0.5 to 60. */
  readonly autonomyDays: number;
  /** Nominal voltage in volts of the battery, 1 to 60. */
  readonly batteryV: number;
  /**
   * Share of the battery's capacity that may be used, above 0.05 to 1: 0.5 for lead-acid, 0.8 for lithium iron phosphate (common practice, no source).
   *
   * @defaultValue 0.5
   */
  readonly usableRatio?: number | undefined;
  /**
   * Share of its capacity that the battery still has at the coldest and at the end of its life, 0.05 to 1 (common practice, no source).
   *
   * @defaultValue 0.7
   */
  readonly coldAndAgedRatio?: number | undefined;
  /**
   * Share of the energy put into battery and converter that comes out again, 0.3 to 1 (common practice, no source).
   *
   * @defaultValue 0.85
   */
  readonly storageEfficiencyRatio?: number | undefined;
  /**
   * Share of its nameplate that the panel delivers: heat, dust, wiring, controller, 0.1 to 1 (common practice, no source).
   *
   * @defaultValue 0.7
   */
  readonly panelPerformanceRatio?: number | undefined;
  /**
   * How much more than the worst month's need the panel yields, so that an empty battery fills again, 1 to 10 (common practice, no source).
   *
   * @defaultValue 1.3
   */
  readonly arrayToLoadRatio?: number | undefined;
}

/** Panel and battery of a solar gateway. */
export interface SolarSizing {
  /** Energy in joules that the gateway uses in a day. */
  readonly dailyLoadJ: number;
  /** Energy in joules that the battery must give over the days of autonomy. */
  readonly autonomyJ: number;
  /** Energy in joules that the battery must have on its label. */
  readonly batteryJ: number;
  /** The same as ampere hours at `batteryV`. */
  readonly batteryAh: number;
  /** Power in watts on the label of the panel (at 1000 W/m2 and 25 degrees C). */
  readonly panelW: number;
  /** What the panel yields in the worst month, as a mean over day and night in watts, after its own losses. */
  readonly panelMeanW: number;
  /** Days of worst-month sunshine that refill the battery after the days of autonomy; not there where the panel only covers the load. */
  readonly recoveryDays?: number | undefined;
  /** What to mind. */
  readonly findings: readonly Finding[];
}

const secondsPerDay = 86_400;
const joulePerWattHour = 3600;
/** Sunshine at which the power on a panel's label is stated. */
const standardWPerM2 = 1000;
const insolationBounds = {
  min: 5,
  max: 500,
  unit: 'W/m2 as a mean over day and night',
  hints: [{ name: 'kilowatt hours per square metre and day', ratio: 1000 / 24 }],
};
const unsourced = 'common practice, no source';

/**
 * Battery for some days of darkness, and panel for the worst month, by an energy balance.
 *
 * Battery: load x days / (usable share x what cold and age leave x efficiency). Panel: its mean yield in the worst month is the load's
 * need, stored energy's loss included, times `arrayToLoadRatio`. All energy is taken to pass through the battery, which
 * is on the safe side. A month's mean says nothing about a run of dark days longer than `autonomyDays`, nor about snow or shade on the panel.
 *
 * @returns panel and battery, about 20 % uncertain with measured sunshine, since every default is practice; the arithmetic adds less than 1e-9
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number` or `out-of-range`
 * @source energy balance (own derivation); defaults: common practice, no source; panel label at 1000 W/m2: IEC 61215 standard test conditions (from memory)
 * @example 5 W all winter on 2 kWh/m2 a day
 * ```ts
 * import { solarSizing } from '@finial/site';
 *
 * const sized = solarSizing({ meanLoadW: 5, worstMonthWPerM2: 83.3, autonomyDays: 5, batteryV: 12 });
 * sized.batteryAh; // ≈ 168.1
 * sized.panelW; // ≈ 131
 * ```
 */
export function solarSizing(load: SolarLoad): SolarSizing {
  checkObject(load, 'load');
  const meanLoadW = checkRange(load.meanLoadW, 'meanLoadW', { min: 1e-3, max: 1000, unit: 'watts' });
  const sunWPerM2 = checkRange(load.worstMonthWPerM2, 'worstMonthWPerM2', insolationBounds);
  const autonomyDays = checkRange(load.autonomyDays, 'autonomyDays', { min: 0.5, max: 60, unit: 'days' });
  const batteryV = checkRange(load.batteryV, 'batteryV', { min: 1, max: 60, unit: 'volts' });
  const shares = checkedShares(load);

  const dailyLoadJ = meanLoadW * secondsPerDay;
  const autonomyJ = (dailyLoadJ * autonomyDays) / shares.efficiencyRatio;
  const batteryJ = autonomyJ / (shares.usableRatio * shares.coldRatio);
  const panelMeanW = (meanLoadW / shares.efficiencyRatio) * shares.arrayRatio;
  const surplusW = panelMeanW - meanLoadW / shares.efficiencyRatio;
  // What the battery gave must be put back with its own loss, which autonomyJ already holds.
  const recoveryDays = shares.arrayRatio > 1 ? autonomyJ / surplusW / secondsPerDay : undefined;
  return {
    dailyLoadJ,
    autonomyJ,
    batteryJ,
    batteryAh: batteryJ / joulePerWattHour / batteryV,
    panelW: panelMeanW / ((sunWPerM2 / standardWPerM2) * shares.performanceRatio),
    panelMeanW,
    recoveryDays,
    findings: [...recoveryFindings(recoveryDays), ...autonomyFindings(autonomyDays), ...batteryCautions],
  };
}

function checkedShares(load: SolarLoad): {
  readonly usableRatio: number;
  readonly coldRatio: number;
  readonly efficiencyRatio: number;
  readonly performanceRatio: number;
  readonly arrayRatio: number;
} {
  const { usableRatio = 0.5, coldAndAgedRatio = 0.7, storageEfficiencyRatio = 0.85 } = load;
  const { panelPerformanceRatio = 0.7, arrayToLoadRatio = 1.3 } = load;
  const share = (value: number, argument: string, min: number, max = 1): number =>
    checkRange(value, argument, { min, max, unit: 'as a ratio' });
  return {
    usableRatio: share(usableRatio, 'usableRatio', 0.05),
    coldRatio: share(coldAndAgedRatio, 'coldAndAgedRatio', 0.05),
    efficiencyRatio: share(storageEfficiencyRatio, 'storageEfficiencyRatio', 0.3),
    performanceRatio: share(panelPerformanceRatio, 'panelPerformanceRatio', 0.1),
    arrayRatio: share(arrayToLoadRatio, 'arrayToLoadRatio', 1, 10),
  };
}

const greatestRecoveryDays = 21;
const leastAutonomyDays = 3;

function recoveryFindings(recoveryDays: number | undefined): readonly Finding[] {
  if (recoveryDays !== undefined && recoveryDays <= greatestRecoveryDays) return [];
  const measured = recoveryDays === undefined ? undefined : `${recoveryDays.toFixed(0)} days`;
  const limit = `${greatestRecoveryDays} days`;
  const message = `In the worst month the battery needs ${measured ?? 'for ever'} to fill again after a dark spell: take a larger panel (a greater arrayToLoadRatio), or the next spell finds it empty.`;
  return [{ rule: 'solar-recovery', severity: 'note', message, measured, limit, source: unsourced }];
}

function autonomyFindings(autonomyDays: number): readonly Finding[] {
  if (autonomyDays >= leastAutonomyDays) return [];
  const [measured, limit] = [`${autonomyDays} days`, `${leastAutonomyDays} days`];
  const message = `${measured} of autonomy is less than the ${limit} usual for an unattended site: expect it to go dark in overcast weather.`;
  return [{ rule: 'solar-autonomy', severity: 'note', message, measured, limit, source: unsourced }];
}

const batteryCautions: readonly Finding[] = [
  {
    rule: 'battery-safety',
    severity: 'note',
    message:
      'A battery can feed hundreds of amperes into a short: fuse it at its terminal, vent lead-acid, keep lithium cells out of heat, and do not charge lithium below 0 degrees C unless its maker allows it. Installation follows the local code.',
    source: unsourced,
  },
  {
    rule: 'panel-wind',
    severity: 'note',
    message: 'A panel is a sail: count its area in the wind load of mast and roof.',
    source: unsourced,
  },
];
