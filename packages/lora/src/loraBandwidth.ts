import { refused } from './refused.js';

/**
 * The bandwidths of LoRa chips in hertz, exact. The narrow ones are fractions of 500 kHz (divided by 64, 48, 32, 24, 16, 12, 8), so that
 * three of them are no whole number of hertz; the last four, multiples of 203125 Hz, belong to 2.4 GHz LoRa.
 *
 * @source SX1276/77/78/79 datasheet rev 7, bandwidth table (printed rounded; MAC stack sources agree); the four at 2.4 GHz from memory
 */
export const loraBandwidthsHz: readonly number[] = [
  500_000 / 64,
  500_000 / 48,
  500_000 / 32,
  500_000 / 24,
  500_000 / 16,
  500_000 / 12,
  500_000 / 8,
  500_000 / 4,
  500_000 / 2,
  500_000,
  203_125,
  203_125 * 2,
  203_125 * 4,
  203_125 * 8,
];

/**
 * The exact bandwidth that a caller means. Software writes 10417 or 10416.667 for 500 kHz / 48, so a value within half a hertz is
 * taken as the exact one; the rounded kilohertz of datasheets (10.4 kHz) are up to 0.4 % off and are refused.
 */
export function exactBandwidthHz(bandwidthHz: number): number {
  // One decision instead of three: in a mixed lot of frames the processor could guess none of the three.
  const usual = +(bandwidthHz === 125e3) | +(bandwidthHz === 250e3) | +(bandwidthHz === 500e3);
  return usual || loraBandwidthsHz.includes(bandwidthHz) ? bandwidthHz : nearestBandwidthHz(bandwidthHz);
}

function nearestBandwidthHz(bandwidthHz: number): number {
  for (const listed of loraBandwidthsHz) {
    // Of the text '125000' the subtraction would make a number, too.
    if (typeof bandwidthHz === 'number' && Math.abs(listed - bandwidthHz) <= 0.5) return listed;
  }
  throw refused(
    'bandwidthHz',
    bandwidthHz,
    `one of loraBandwidthsHz${bandwidthHz < 2e3 ? ' (kilohertz?)' : ''}`,
  );
}
