import { thermalNoiseDbm } from '@finial/radio';
import { checkObject, checkRange, type Finding } from '@finial/units';
import { exactBandwidthHz } from './loraBandwidth.js';
import { requiredSnrDb } from './requiredSnrDb.js';
import { signalAndNoiseDbm } from './signalAndNoiseDbm.js';
import { checkedSpreadingFactor } from './spreadingFactor.js';

/** What a receiver reported about one LoRa frame. */
export interface Reception {
  /** RSSI of the frame in dBm, -200 to 50: signal and noise together. */
  readonly rssiDbm: number;
  /** Signal-to-noise ratio in dB, -60 to 60. */
  readonly snrDb: number;
  /** Spreading factor of the frame, a whole number from 5 to 12. */
  readonly spreadingFactor: number;
  /**
   * Bandwidth of the frame in hertz, one of {@link loraBandwidthsHz}.
   *
   * @defaultValue 125 000
   */
  readonly bandwidthHz?: number | undefined;
  /** Noise figure of the receiver in dB, 0 to 60, where it is known: the noise is then compared with what the receiver makes itself. */
  readonly noiseFigureDb?: number | undefined;
}

/** What these reports mean. */
export interface ReceptionDescription {
  /** SNR above what the demodulator needs at this spreading factor, in dB; negative below it. */
  readonly marginDb: number;
  /** SNR in dB that the demodulator needs at this spreading factor. */
  readonly requiredSnrDb: number;
  /** Power of the signal alone in dBm. */
  readonly signalPowerDbm: number;
  /** Power of noise and interference in dBm within the bandwidth. */
  readonly noisePowerDbm: number;
  /** Noise in dBm that there is in any case: thermal noise at 290 K, raised by the noise figure where that is given. */
  readonly noiseFloorDbm: number;
  /** Noise above that floor in dB. Without a noise figure it holds the receiver's own noise, too. */
  readonly noiseRiseDb: number;
  /**
   * Fastest spreading factor, from SF7 (or that of the frame, if faster) up, that would still have been decoded at this SNR; undefined
   * where even SF12 would not.
   */
  readonly fastestSpreadingFactor: number | undefined;
  /** How many spreading factors faster than the frame that is; negative where only slower ones would do, undefined where none. */
  readonly fasterStepCount: number | undefined;
  /** All of it for a person, in plain words. */
  readonly sentence: string;
  /** What stands out; empty where nothing does. */
  readonly findings: readonly Finding[];
}

/** Margin in dB under which a frame is called close to the limit. */
const thinMarginDb = 3;

/** Noise in dB above the floor from which it is worth a look. */
const loudNoiseDb = 6;

/** Noise in dB below the thermal floor that errors of the reports explain. */
const reportErrorDb = 3;

/** SNR in dB from which receivers tend to stop counting. */
const highestReportedSnrDb = 10;

const commonPractice = 'common practice, no source';

/**
 * What RSSI, SNR and spreading factor of a received LoRa frame say: how far it was from being lost, how strong signal and noise were,
 * and how much faster it could have been sent.
 *
 * One frame is one sample: fading moves it by several decibels either way, and frames that were lost report nothing. Reports of a chip are
 * good to a few decibels, and stop at about 10 dB SNR; above, the margin is a least value. The faster spreading factor is judged at
 * the same bandwidth, and with no allowance for fading: networks keep 10 dB or so in hand (common practice, no source). The bounds between
 * words (thin margin under 3 dB, loud noise from 6 dB) are of this function.
 *
 * @returns figures exact to 1e-12 dB of what was reported, and their meaning in words
 * @throws {@link InputError} `not-a-finite-number`, `out-of-range` or `wrong-type`: a field is not what {@link Reception} says
 * @source {@link signalAndNoiseDbm}, {@link requiredSnrDb} and thermal noise k T B at 290 K, with their sources
 * @example
 * ```ts
 * import { describeReception } from '@finial/lora';
 *
 * const heard = describeReception({ rssiDbm: -115, snrDb: -2, spreadingFactor: 10, noiseFigureDb: 3 });
 * heard.marginDb; // → 13
 * heard.signalPowerDbm; // ≈ -119.12
 * heard.fastestSpreadingFactor; // → 7
 * heard.sentence;
 * // → 'Decoded with 13 dB to spare at SF10; SF7 would still have been decoded. The signal came in at -119.1 dBm, 2 dB below the noise of -117.1 dBm.'
 * ```
 */
export function describeReception(reception: Reception): ReceptionDescription {
  checkObject(reception, 'reception');
  const rssiDbm = checkRange(reception.rssiDbm, 'rssiDbm', { min: -200, max: 50, unit: 'dBm' });
  const snrDb = checkRange(reception.snrDb, 'snrDb', { min: -60, max: 60, unit: 'dB' });
  const spreadingFactor = checkedSpreadingFactor(reception.spreadingFactor);
  const { noiseFigureDb } = reception;
  const bandwidthHz = exactBandwidthHz(reception.bandwidthHz === undefined ? 125e3 : reception.bandwidthHz);
  if (noiseFigureDb !== undefined)
    checkRange(noiseFigureDb, 'noiseFigureDb', { min: 0, max: 60, unit: 'dB' });

  const { signalPowerDbm, noisePowerDbm } = signalAndNoiseDbm({ rssiDbm, snrDb });
  const needed = requiredSnrDb(spreadingFactor);
  const noiseFloorDbm = thermalNoiseDbm({ bandwidthHz }) + (noiseFigureDb ?? 0);
  const fastest = fastestSpreadingFactor(snrDb, spreadingFactor);
  const figures = {
    marginDb: snrDb - needed,
    requiredSnrDb: needed,
    signalPowerDbm,
    noisePowerDbm,
    noiseFloorDbm,
    noiseRiseDb: noisePowerDbm - noiseFloorDbm,
    fastestSpreadingFactor: fastest,
    fasterStepCount: fastest === undefined ? undefined : spreadingFactor - fastest,
  };
  return {
    ...figures,
    sentence: sentenceOf(figures, spreadingFactor, snrDb),
    findings: findingsOf(figures, snrDb, noiseFigureDb !== undefined),
  };
}

type Figures = Omit<ReceptionDescription, 'sentence' | 'findings'>;

function fastestSpreadingFactor(snrDb: number, ownSpreadingFactor: number): number | undefined {
  for (let candidate = Math.min(7, ownSpreadingFactor); candidate <= 12; candidate++) {
    if (snrDb >= requiredSnrDb(candidate)) return candidate;
  }
  return undefined;
}

function sentenceOf(figures: Figures, spreadingFactor: number, snrDb: number): string {
  const signal = tenths(figures.signalPowerDbm);
  const noise = tenths(figures.noisePowerDbm);
  const besides =
    snrDb === 0 ? 'as strong as' : `${tenths(Math.abs(snrDb))} dB ${snrDb < 0 ? 'below' : 'above'}`;
  return `${verdictOf(figures, spreadingFactor)}. The signal came in at ${signal} dBm, ${besides} the noise of ${noise} dBm.`;
}

function verdictOf({ marginDb, fastestSpreadingFactor: fastest }: Figures, spreadingFactor: number): string {
  const own = `SF${spreadingFactor}`;
  if (marginDb < 0) {
    const slower = fastest === undefined ? 'even SF12 needs more' : `SF${fastest} would do`;
    return `Reported ${tenths(-marginDb)} dB below what ${own} needs; ${slower}`;
  }
  const verdict = `Decoded with ${tenths(marginDb)} dB to spare at ${own}`;
  if (fastest !== spreadingFactor) return `${verdict}; SF${fastest} would still have been decoded`;
  return spreadingFactor > 7 ? `${verdict}; nothing faster would have been decoded` : verdict;
}

function findingsOf(figures: Figures, snrDb: number, noiseFigureKnown: boolean): readonly Finding[] {
  const { marginDb, noiseRiseDb } = figures;
  const findings: Finding[] = [];
  if (marginDb < 0) {
    findings.push({
      rule: 'snr-below-limit',
      severity: 'note',
      message: `The frame was decoded ${tenths(-marginDb)} dB below the datasheets' limit: the SNR report is off, or the log holds another spreading factor.`,
      measured: `${tenths(snrDb)} dB`,
      limit: `${figures.requiredSnrDb} dB`,
      source: 'SX1276/77/78/79 datasheet rev 7, section 4.1.1 (as quoted by others)',
    });
  } else if (marginDb < thinMarginDb) {
    findings.push({
      rule: 'thin-margin',
      severity: 'note',
      message: `Only ${tenths(marginDb)} dB to spare: a little fading, a leaf or a raised hand loses such frames.`,
      measured: `${tenths(marginDb)} dB`,
      limit: `${thinMarginDb} dB`,
      source: commonPractice,
    });
  }
  if (snrDb >= highestReportedSnrDb) {
    findings.push({
      rule: 'snr-at-its-end',
      severity: 'note',
      message:
        'Receivers report no more than about 10 to 15 dB SNR: the margin may be larger, and the noise lower, than said.',
      measured: `${tenths(snrDb)} dB`,
      limit: `${highestReportedSnrDb} dB`,
      source: commonPractice,
    });
  } else if (noiseFigureKnown && noiseRiseDb >= loudNoiseDb) {
    findings.push({
      rule: 'noise-rise',
      severity: 'note',
      message: `The noise is ${tenths(noiseRiseDb)} dB above what the receiver makes itself: look for electronics near the antenna, or another transmitter.`,
      measured: `${tenths(figures.noisePowerDbm)} dBm`,
      limit: `${tenths(figures.noiseFloorDbm + loudNoiseDb)} dBm`,
      source: commonPractice,
    });
  }
  if (noiseRiseDb < -reportErrorDb) {
    findings.push({
      rule: 'noise-below-floor',
      severity: 'note',
      message: `The noise comes out ${tenths(-noiseRiseDb)} dB below its floor, which cannot be: the RSSI is not calibrated, or is that of the signal alone.`,
      measured: `${tenths(figures.noisePowerDbm)} dBm`,
      limit: `${tenths(figures.noiseFloorDbm)} dBm`,
      source: 'Recommendation ITU-R P.372, section 2 (noise power k t0 b)',
    });
  }
  return findings;
}

function tenths(value: number): string {
  return String(Number(value.toFixed(1)));
}
