import {
  checkObject,
  checkOneOf,
  checkRange,
  dbToAmplitudeRatio,
  dbToRatio,
  InputError,
} from '@finial/units';

/** Which way the field of a circular or elliptical wave turns, seen along its way from the transmitter. */
export type PolarisationSense = 'right' | 'left';

/** A polarisation between linear and circular. */
export interface EllipticalPolarisation {
  /** Ratio of the long to the short axis of the ellipse in dB, 0 (circular) to 100. */
  readonly axialRatioDb: number;
  /** Which way the field turns. */
  readonly sense: PolarisationSense;
}

/** Polarisation of an antenna, as it transmits. */
export type Polarisation = 'linear' | 'right-circular' | 'left-circular' | EllipticalPolarisation;

/** Two antennas that face each other. */
export interface PolarisationPair {
  /** Polarisation of the transmitting antenna. */
  readonly transmit: Polarisation;
  /** Polarisation of the receiving antenna, as it would transmit. */
  readonly receive: Polarisation;
  /**
   * Angle in degrees between the two linear polarisations, or between the long axes of the ellipses, -360 to 360. It plays no
   * part where one of the two is circular.
   *
   * @defaultValue 0
   */
  readonly angleDeg?: number | undefined;
  /**
   * How far the wrong polarisation is suppressed between this pair in practice, in dB, 0 to 100. Real antennas and real paths
   * leave 10 to 30 dB (common practice, no source). Needed where the two would not couple at all.
   *
   * @defaultValue none: ideal antennas
   */
  readonly crossPolarDiscriminationDb?: number | undefined;
}

/** Below this coupling, as a power ratio, a loss by geometry alone says nothing about real antennas. */
const leastCouplingRatio = 1e-6;

/**
 * Loss in decibels because two antennas are polarised differently. Positive means loss; 0 when they match.
 *
 * Two linear antennas at right angles, and two circular ones of opposite sense, do not couple at all on paper. Such a pair (and any
 * that couples below −60 dB) is refused unless a cross-polar discrimination is given; then the suppressed part is added in power.
 *
 * @returns loss in dB, 0 to 100, error below 1e-9 dB
 * @throws {@link InputError} `wrong-type`, `unknown-option`, `not-a-finite-number`, `out-of-range`, or `missing` when the pair does
 * not couple and no cross-polar discrimination is given
 * @source IEEE Std 145-2013, polarization efficiency, evaluated on the Poincaré sphere (from memory)
 * @example A node lying on its side, 30° and 90° off the gateway's vertical
 * ```ts
 * import { polarisationMismatchDb } from '@finial/radio';
 *
 * polarisationMismatchDb({ transmit: 'linear', receive: 'linear', angleDeg: 30 }); // ≈ 1.249
 * polarisationMismatchDb({
 *   transmit: 'linear', receive: 'linear', angleDeg: 90, crossPolarDiscriminationDb: 20,
 * }); // ≈ 20
 * polarisationMismatchDb({ transmit: 'linear', receive: 'right-circular' }); // ≈ 3.01
 * ```
 */
export function polarisationMismatchDb(pair: PolarisationPair): number {
  checkObject(pair, 'pair');
  const { angleDeg = 0, crossPolarDiscriminationDb } = pair;
  const transmit = onSphere(pair.transmit, 'transmit');
  const receive = onSphere(pair.receive, 'receive');
  checkRange(angleDeg, 'angleDeg', { min: -360, max: 360, unit: 'degrees' });
  const cosine =
    transmit.sine * receive.sine + transmit.cosine * receive.cosine * Math.cos((angleDeg * Math.PI) / 90);
  // The cosine of two unit vectors can come out a rounding beyond ±1.
  const coupling = Math.min(Math.max((1 + cosine) / 2, 0), 1);
  return 10 * Math.log10(1 / (coupling + leakage(coupling, crossPolarDiscriminationDb)));
}

/** What still comes through of the orthogonal part, as a power ratio. */
function leakage(coupling: number, discriminationDb: number | undefined): number {
  const argument = 'crossPolarDiscriminationDb';
  if (discriminationDb !== undefined) {
    checkRange(discriminationDb, argument, { min: 0, max: 100, unit: 'dB' });
    return (1 - coupling) / dbToRatio(discriminationDb);
  }
  if (coupling >= leastCouplingRatio) return 0;
  throw new InputError({
    code: 'missing',
    argument,
    received: discriminationDb,
    expected: 'a stated discrimination in dB (these two do not couple on paper; in practice 10 to 30 dB)',
  });
}

/** Sine and cosine of the latitude (twice the ellipticity angle) on the Poincaré sphere, without the rounding of an arctangent. */
function onSphere(polarisation: Polarisation, argument: string): { sine: number; cosine: number } {
  if (typeof polarisation === 'object') return ellipseOnSphere(polarisation, argument);
  const name = checkOneOf(polarisation, argument, ['linear', 'right-circular', 'left-circular']);
  if (name === 'linear') return { sine: 0, cosine: 1 };
  return { sine: name === 'right-circular' ? 1 : -1, cosine: 0 };
}

function ellipseOnSphere(
  ellipse: EllipticalPolarisation,
  argument: string,
): { sine: number; cosine: number } {
  checkObject(ellipse, argument);
  const bounds = { min: 0, max: 100, unit: 'dB' };
  const ratio = dbToAmplitudeRatio(checkRange(ellipse.axialRatioDb, `${argument}.axialRatioDb`, bounds));
  const sense = checkOneOf(ellipse.sense, `${argument}.sense`, ['right', 'left']);
  const sum = ratio * ratio + 1;
  return { sine: ((sense === 'right' ? 2 : -2) * ratio) / sum, cosine: (ratio * ratio - 1) / sum };
}
