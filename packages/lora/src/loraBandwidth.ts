import { InputError } from '@finial/units';

/**
 * The bandwidths of LoRa chips in hertz, exact. The narrow ones are fractions of 500 kHz (divided by 64, 48, 32, 24, 16, 12, 8), so that
 * three of them are no whole number of hertz; the last four belong to 2.4 GHz LoRa.
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
  125_000,
  250_000,
  500_000,
  203_125,
  406_250,
  812_500,
  1_625_000,
];

/**
 * The exact bandwidth that a caller means. Software writes 10417 or 10416.667 for 500 kHz / 48, so a value within half a hertz is
 * taken as the exact one; the rounded kilohertz of datasheets (10.4 kHz) are up to 0.4 % off and are refused.
 */
export function exactBandwidthHz(bandwidthHz: unknown): number {
  if (bandwidthHz === 125_000 || bandwidthHz === 250_000 || bandwidthHz === 500_000) return bandwidthHz;
  if (typeof bandwidthHz !== 'number' || !Number.isFinite(bandwidthHz)) {
    throw refused('not-a-finite-number', bandwidthHz, '');
  }
  const exact = nearestBandwidthHz(bandwidthHz, 0.5);
  if (exact !== undefined) return exact;
  const kilohertz = nearestBandwidthHz(bandwidthHz * 1e3, 500) !== undefined;
  throw refused('out-of-range', bandwidthHz, kilohertz ? ' (kilohertz?)' : '');
}

function nearestBandwidthHz(bandwidthHz: number, withinHz: number): number | undefined {
  return loraBandwidthsHz.find((listed) => Math.abs(listed - bandwidthHz) <= withinHz);
}

function refused(code: 'not-a-finite-number' | 'out-of-range', received: unknown, hint: string): InputError {
  const listed = loraBandwidthsHz.map((bandwidthHz) => Number(bandwidthHz.toFixed(3))).join(', ');
  return new InputError({
    code,
    argument: 'bandwidthHz',
    received,
    expected: `one of the LoRa bandwidths ${listed} hertz${hint}`,
  });
}
