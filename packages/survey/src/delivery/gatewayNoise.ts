import { requiredSnrDb, sensitivityDbm } from '@finial/lora';
import { checkObject, checkRange, type Finding, InputError } from '@finial/units';
import { checkObservations } from '../checkObservations.js';
import { noisePowerDbm } from '../effectiveSignalPower.js';
import type { Observation } from '../Observation.js';

/** How the noise of a gateway is judged. */
export interface GatewayNoiseOptions {
  /** Noise figure of the gateway's receiver in dB, 0 to 60, cable and preamplifier included. @defaultValue `6` */
  readonly noiseFigureDb?: number | undefined;
  /** Frames with more SNR than this are left out, in dB, -20 to 30: receivers stop reporting near 10 dB. @defaultValue `5` */
  readonly highestSnrDb?: number | undefined;
  /** Rise in dB above the receiver's own noise that makes a finding, 0 to 60. @defaultValue `3` */
  readonly loudNoiseDb?: number | undefined;
  /** Bandwidth in hertz of frames that do not say theirs: 125e3, 250e3, 500e3 or narrower LoRa ones. @defaultValue `125e3` */
  readonly bandwidthHz?: number | undefined;
}

/** Noise at the gateway within one bandwidth. */
export interface GatewayNoise {
  /** Bandwidth of the frames in hertz. */
  readonly bandwidthHz: number;
  /** Frames that the figures are of. */
  readonly usedFrames: number;
  /** Median of the noise in dBm. */
  readonly medianNoiseDbm: number;
  /** A tenth of the frames had less noise than this, in dBm. */
  readonly quietNoiseDbm: number;
  /** A tenth of the frames had more noise than this, in dBm. */
  readonly loudNoiseDbm: number;
  /** What the receiver makes itself: thermal noise at 290 K raised by the noise figure, in dBm. */
  readonly noiseFloorDbm: number;
  /** Median over that floor in dB. */
  readonly noiseRiseDb: number;
}

/** Noise at the gateway, as the frames of a walk tell it. */
export interface GatewayNoiseReport {
  /** One entry per bandwidth, the most frames first. */
  readonly byBandwidth: readonly GatewayNoise[];
  /** Received frames without RSSI or SNR. */
  readonly noLevelFrames: number;
  /** Received frames left out for their high SNR. */
  readonly highSnrFrames: number;
  /** Noise above the floor, or below what can be. */
  readonly findings: readonly Finding[];
}

/** Frames from which a median is worth a finding. */
const fewestFrames = 10;

/** Noise in dB below the floor that errors of the reports explain. */
const reportErrorDb = 3;

/**
 * Noise floor of the gateway from the RSSI and SNR of the frames it received: RSSI less 10 lg(1 + SNR), bandwidth by bandwidth.
 *
 * Frames come through in quiet moments rather than loud ones, so the true noise is this or more. Reports of a chip are good to a few decibels;
 * a constant error of its RSSI looks like noise. Medians of fewer than ten frames make no finding.
 *
 * @param observations - at least one; at least one received frame with RSSI and SNR at or below `highestSnrDb`
 * @returns levels in dBm within each bandwidth
 * @throws {@link InputError} `wrong-type`, `missing` (no such frame), `not-a-finite-number`, `out-of-range` or `unknown-option`
 * @source Identity of powers as in `noisePowerDbm`; thermal noise: Recommendation ITU-R P.372, section 2 (k t0 b); taking the median,
 * and the bounds of findings: common practice, no source
 * @example
 * ```ts
 * import { gatewayNoise } from '@finial/survey';
 *
 * const frame = { latitudeDeg: 45.7, longitudeDeg: 4.9, received: true };
 * const { byBandwidth } = gatewayNoise([
 *   { ...frame, rssiDbm: -112, snrDb: -4 },
 *   { ...frame, rssiDbm: -113, snrDb: -9 },
 *   { ...frame, rssiDbm: -109, snrDb: 2 },
 * ]);
 * byBandwidth[0]?.medianNoiseDbm; // ≈ -113.46
 * byBandwidth[0]?.noiseRiseDb; // ≈ 3.55
 * ```
 */
export function gatewayNoise(
  observations: readonly Observation[],
  options: GatewayNoiseOptions = {},
): GatewayNoiseReport {
  const {
    noiseFigureDb = 6,
    highestSnrDb = 5,
    loudNoiseDb = 3,
    bandwidthHz = 125e3,
  } = checkObject(options, 'options');
  checkRange(noiseFigureDb, 'noiseFigureDb', { min: 0, max: 60, unit: 'dB' });
  checkRange(highestSnrDb, 'highestSnrDb', { min: -20, max: 30, unit: 'dB' });
  checkRange(loudNoiseDb, 'loudNoiseDb', { min: 0, max: 60, unit: 'dB' });
  ownNoiseDbm(bandwidthHz, noiseFigureDb);
  const levels = new Map<number, number[]>();
  let noLevelFrames = 0;
  let highSnrFrames = 0;
  for (const { received, rssiDbm, snrDb, bandwidthHz: own = bandwidthHz } of checkObservations(
    observations,
  )) {
    if (!received) continue;
    if (rssiDbm === undefined || snrDb === undefined) noLevelFrames += 1;
    else if (snrDb > highestSnrDb) highSnrFrames += 1;
    else {
      const noise = noisePowerDbm({ rssiDbm, snrDb });
      const others = levels.get(own);
      if (others === undefined) levels.set(own, [noise]);
      else others.push(noise);
    }
  }
  if (levels.size === 0) {
    const expected = `a received frame with RSSI and an SNR of at most ${highestSnrDb} dB (${noLevelFrames} without a level, ${highSnrFrames} above)`;
    throw new InputError({ code: 'missing', argument: 'observations', received: observations, expected });
  }
  const byBandwidth = [...levels]
    .map(([width, noises]) => noiseOf(width, noises, ownNoiseDbm(width, noiseFigureDb)))
    .sort((one, other) => other.usedFrames - one.usedFrames);
  return {
    byBandwidth,
    noLevelFrames,
    highSnrFrames,
    findings: byBandwidth.flatMap((noise) => findingsOf(noise, loudNoiseDb)),
  };
}

/** k T B raised by the noise figure: the sensitivity without the SNR that the demodulator needs, the same at any spreading factor. */
function ownNoiseDbm(bandwidthHz: number, noiseFigureDb: number): number {
  const spreadingFactor = 7;
  return sensitivityDbm({ spreadingFactor, bandwidthHz, noiseFigureDb }) - requiredSnrDb(spreadingFactor);
}

function noiseOf(bandwidthHz: number, noises: readonly number[], noiseFloorDbm: number): GatewayNoise {
  const sorted = Float64Array.from(noises).sort();
  const medianNoiseDbm = quantileOf(sorted, 0.5);
  return {
    bandwidthHz,
    usedFrames: sorted.length,
    medianNoiseDbm,
    quietNoiseDbm: quantileOf(sorted, 0.1),
    loudNoiseDbm: quantileOf(sorted, 0.9),
    noiseFloorDbm,
    noiseRiseDb: medianNoiseDbm - noiseFloorDbm,
  };
}

/** Between neighbours in proportion. */
function quantileOf(sorted: Float64Array, share: number): number {
  const place = share * (sorted.length - 1);
  const below = Math.floor(place);
  const low = sorted[below] as number;
  const high = sorted[Math.min(below + 1, sorted.length - 1)] as number;
  return low + (place - below) * (high - low);
}

function findingsOf(noise: GatewayNoise, loudNoiseDb: number): readonly Finding[] {
  const { usedFrames, medianNoiseDbm, noiseFloorDbm, noiseRiseDb, bandwidthHz } = noise;
  if (usedFrames < fewestFrames) return [];
  const within = `within ${bandwidthHz / 1000} kHz (median of ${usedFrames} frames)`;
  if (noiseRiseDb > loudNoiseDb) {
    return [
      {
        rule: 'gateway-noise',
        severity: 'note',
        message:
          `The gateway hears ${noiseRiseDb.toFixed(1)} dB more noise than it makes itself ${within}: look for electronics near its ` +
          'antenna, a strong transmitter, or a receiver with a higher noise figure than stated.',
        measured: `${medianNoiseDbm.toFixed(1)} dBm`,
        limit: `${(noiseFloorDbm + loudNoiseDb).toFixed(1)} dBm`,
        source: 'common practice, no source',
      },
    ];
  }
  if (noiseRiseDb >= -reportErrorDb) return [];
  return [
    {
      rule: 'gateway-noise-below-floor',
      severity: 'note',
      message:
        `The noise comes out ${(-noiseRiseDb).toFixed(1)} dB below its floor ${within}: the noise figure is lower than stated, the RSSI is ` +
        'not calibrated, or it is that of the signal alone.',
      measured: `${medianNoiseDbm.toFixed(1)} dBm`,
      limit: `${(noiseFloorDbm - reportErrorDb).toFixed(1)} dBm`,
      source: 'Recommendation ITU-R P.372, section 2 (noise power k t0 b)',
    },
  ];
}
