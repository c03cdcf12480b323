import { reflectionCoefficientToVswr, vswrToMismatchLossDb } from '@finial/radio';
import { amplitudeRatioToDb } from '@finial/units';
import { magnitudeOf, minus, one, over, plus } from './complex.js';
import { interpolateSeries } from './interpolateSeries.js';
import { knowsPhase, type MagnitudeSweep, type OnePortSweep } from './OnePortSweep.js';

/** A sweep at one frequency, between its points too. */
export interface SweepPoint {
  /** Frequency in hertz. */
  readonly frequencyHz: number;
  /** Magnitude of the reflection coefficient, 0 or more. */
  readonly reflectionCoefficient: number;
  /** Real part of the reflection coefficient. Left out where the sweep has no phase. */
  readonly reflectionReal?: number | undefined;
  /** Imaginary part of the reflection coefficient. Left out where the sweep has no phase. */
  readonly reflectionImaginary?: number | undefined;
  /** Resistance in ohms. Left out where the sweep has no phase, and at an open end, whose impedance is infinite. */
  readonly resistanceOhm?: number | undefined;
  /** Reactance in ohms: positive inductive, negative capacitive. Left out where the resistance is. */
  readonly reactanceOhm?: number | undefined;
  /** Voltage standing wave ratio, 1 or more. Left out where everything or more comes back. */
  readonly vswr?: number | undefined;
  /** Return loss in dB, positive; negative where more comes back than was sent. Left out where nothing comes back at all. */
  readonly returnLossDb?: number | undefined;
  /** Loss by reflection in dB, for a matched generator. Left out where everything or more comes back. */
  readonly mismatchLossDb?: number | undefined;
  /**
   * Doubt of the interpolation, as a part of the wave sent: by how much the cubic through the four nearest points differs from a
   * parabola. 0 on a point of the sweep; where it is small, the interpolation is better than it says.
   */
  readonly interpolationErrorRatio: number;
}

/** Part of the power that comes back at a frequency inside the sweep. */
export function reflectedPowerAt(sweep: OnePortSweep | MagnitudeSweep, frequencyHz: number): number {
  return reflectionAt(sweep, frequencyHz).coefficient ** 2;
}

/** Imaginary part of the reflection at a frequency inside the sweep; it has the sign of the reactance. */
export function reflectionImaginaryAt(sweep: OnePortSweep, frequencyHz: number): number {
  return interpolateSeries(
    sweep.frequencyHz,
    (index) => sweep.reflectionImaginary[index] as number,
    frequencyHz,
  ).value;
}

/** The sweep at a frequency inside it. */
export function sweepPointAt(sweep: OnePortSweep | MagnitudeSweep, frequencyHz: number): SweepPoint {
  const { coefficient, doubt, real, imaginary } = reflectionAt(sweep, frequencyHz);
  // What the radio package takes as a reflection: above, the VSWR has no meaning left.
  const vswr = coefficient <= 0.999_998 ? reflectionCoefficientToVswr(coefficient) : undefined;
  const impedance =
    real === undefined || imaginary === undefined
      ? undefined
      : impedanceOf({ real, imaginary }, sweep.referenceOhm);
  return {
    frequencyHz,
    reflectionCoefficient: coefficient,
    reflectionReal: real,
    reflectionImaginary: imaginary,
    resistanceOhm: impedance?.real,
    reactanceOhm: impedance?.imaginary,
    vswr,
    returnLossDb: coefficient < 1e-150 ? undefined : 0 - amplitudeRatioToDb(coefficient),
    mismatchLossDb: vswr === undefined ? undefined : vswrToMismatchLossDb(vswr),
    interpolationErrorRatio: doubt,
  };
}

/** Impedance in ohms of a reflection, (1 + Γ)/(1 − Γ) times the reference; nothing at an open end. */
export function impedanceOf(
  reflection: { readonly real: number; readonly imaginary: number },
  referenceOhm: number,
): { readonly real: number; readonly imaginary: number } | undefined {
  const below = minus(one, reflection);
  if (magnitudeOf(below) < 1e-9) return undefined;
  const ratio = over(plus(one, reflection), below);
  return { real: ratio.real * referenceOhm, imaginary: ratio.imaginary * referenceOhm };
}

function reflectionAt(
  sweep: OnePortSweep | MagnitudeSweep,
  frequencyHz: number,
): {
  readonly coefficient: number;
  readonly doubt: number;
  readonly real?: number | undefined;
  readonly imaginary?: number | undefined;
} {
  const at = (series: Float64Array) =>
    interpolateSeries(sweep.frequencyHz, (index) => series[index] as number, frequencyHz);
  if (knowsPhase(sweep)) {
    const real = at(sweep.reflectionReal);
    const imaginary = at(sweep.reflectionImaginary);
    return {
      coefficient: Math.hypot(real.value, imaginary.value),
      doubt: Math.hypot(real.doubt, imaginary.doubt),
      real: real.value,
      imaginary: imaginary.value,
    };
  }
  // The magnitude has a kink where the match is perfect, its square has none.
  const { reflectionCoefficient } = sweep;
  const square = interpolateSeries(
    sweep.frequencyHz,
    (index) => (reflectionCoefficient[index] as number) ** 2,
    frequencyHz,
  );
  const coefficient = Math.sqrt(Math.max(square.value, 0));
  const doubt =
    coefficient > 0
      ? Math.min(square.doubt / (2 * coefficient), Math.sqrt(square.doubt))
      : Math.sqrt(square.doubt);
  return { coefficient, doubt };
}
