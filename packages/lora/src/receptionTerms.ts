/** What a word of reception reports means, for help texts and legends. */
export interface ReceptionTerm {
  /** The word as reports use it. */
  readonly term: string;
  /** What it tells, in a sentence or two for a person who has never met it. */
  readonly says: string;
  /** Unit in words; `none` for a plain number. */
  readonly unit: string;
  /** What is usual for LoRa at 125 kHz, with its unit. */
  readonly typical: string;
  /** Where the usual range comes from, or `common practice, no source`. */
  readonly source: string;
}

const practice = 'common practice, no source';
const snrTable =
  'SX1276/77/78/79 datasheet rev 7, section 4.1.1, spreading-factor table (as quoted by others)';

/**
 * The words of reception reports explained, as data: what RSSI, SNR, spreading factor, data rate, margin, signal power, noise power and
 * noise floor say. The figures of one frame are told by {@link describeReception}.
 *
 * @source Each entry names its own
 * @example
 * ```ts
 * import { receptionTerms } from '@finial/lora';
 *
 * receptionTerms.snr.unit; // → 'decibels'
 * Object.keys(receptionTerms).length; // → 9
 * ```
 */
export const receptionTerms: {
  /** RSSI. */
  readonly rssi: ReceptionTerm;
  /** SNR. */
  readonly snr: ReceptionTerm;
  /** Spreading factor. */
  readonly spreadingFactor: ReceptionTerm;
  /** Bandwidth. */
  readonly bandwidth: ReceptionTerm;
  /** Data rate. */
  readonly dataRate: ReceptionTerm;
  /** Margin. */
  readonly margin: ReceptionTerm;
  /** Signal power. */
  readonly signalPower: ReceptionTerm;
  /** Noise power. */
  readonly noisePower: ReceptionTerm;
  /** Noise floor. */
  readonly noiseFloor: ReceptionTerm;
} = {
  rssi: {
    term: 'RSSI',
    says:
      'How much power came in on the channel while the frame was received: signal and noise together. Close to zero is strong. ' +
      'On weak frames it shows the noise more than the signal, so that it stops falling.',
    unit: 'decibels over one milliwatt',
    typical: '-120 to -30 dBm',
    source: practice,
  },
  snr: {
    term: 'SNR',
    says:
      'How far the signal stood above the noise. LoRa can be read below the noise, so that the figure may be negative; how far below ' +
      'depends on the spreading factor.',
    unit: 'decibels',
    typical: '-20 to 10 dB; receivers report little above that',
    source: practice,
  },
  spreadingFactor: {
    term: 'Spreading factor (SF)',
    says: 'How much each symbol is stretched in time. One step more makes frames last about twice as long and reach 2.5 dB farther down into the noise.',
    unit: 'none',
    typical: 'SF7 (fast) to SF12 (far)',
    source: snrTable,
  },
  bandwidth: {
    term: 'Bandwidth',
    says: 'How wide a channel the frame sweeps over. Twice the width halves the duration and lets in 3 dB more noise.',
    unit: 'hertz',
    typical: '125 kHz, also 250 and 500 kHz',
    source: 'LoRaWAN regional parameters, data-rate tables',
  },
  dataRate: {
    term: 'Data rate (DR)',
    says:
      'A number that stands for a spreading factor and a bandwidth. What it stands for differs from region to region: DR0 is SF12 in ' +
      'Europe and SF10 in the United States.',
    unit: 'none',
    typical: 'DR0 (far) to DR5 (fast)',
    source: 'LoRaWAN regional parameters, data-rate tables',
  },
  margin: {
    term: 'Margin',
    says:
      'How many decibels the SNR was above the least with which this spreading factor can be read. Near zero the next frame may be ' +
      'lost to a little fading; a link that should last keeps some in hand.',
    unit: 'decibels',
    typical: '0 to 20 dB; 10 dB in hand for a link that should last',
    source: practice,
  },
  signalPower: {
    term: 'Signal power',
    says:
      'The power of the frame alone, with the noise taken out of the RSSI. It goes on falling with distance where the RSSI no longer ' +
      'does: use it for maps and for comparing places.',
    unit: 'decibels over one milliwatt',
    typical: '-140 to -30 dBm',
    source: practice,
  },
  noisePower: {
    term: 'Noise power',
    says: 'What came in besides the frame, within its bandwidth: heat, the receiver itself, electronics nearby and other transmitters.',
    unit: 'decibels over one milliwatt',
    typical: '-120 to -105 dBm, more in towns than outside',
    source: practice,
  },
  noiseFloor: {
    term: 'Noise floor',
    says:
      'The least noise there can be: that of heat in the bandwidth (-123 dBm at 125 kHz) and what the receiver adds (its noise figure). ' +
      'Noise above it comes from outside.',
    unit: 'decibels over one milliwatt',
    typical: '-121 to -117 dBm with noise figures of 2 to 6 dB',
    source:
      'Recommendation ITU-R P.372, section 2 (noise power k t0 b); noise figures: common practice, no source',
  },
};
