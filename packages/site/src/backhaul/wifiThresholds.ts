/** What a receiver must be able to hear at one rate of a 20 MHz channel and one stream. */
export interface WifiThreshold {
  /** Rate on the air in bits per second; what arrives is about half of it (common practice, no source). */
  readonly linkRateBps: number;
  /** Level in dBm at which a receiver must still work. */
  readonly thresholdDbm: number;
}

/** Where the figures come from: the rates were seen in a public reprint, the levels are from memory. */
export const thresholdSource =
  'IEEE 802.11, HT PHY, 20 MHz, one stream, 800 ns guard: rates as reprinted (read), minimum sensitivity from memory';

/** Slowest first. Real receivers hear several dB more. */
export const wifiThresholds: readonly WifiThreshold[] = [
  { linkRateBps: 6.5e6, thresholdDbm: -82 },
  { linkRateBps: 13e6, thresholdDbm: -79 },
  { linkRateBps: 19.5e6, thresholdDbm: -77 },
  { linkRateBps: 26e6, thresholdDbm: -74 },
  { linkRateBps: 39e6, thresholdDbm: -70 },
  { linkRateBps: 52e6, thresholdDbm: -66 },
  { linkRateBps: 58.5e6, thresholdDbm: -65 },
  { linkRateBps: 65e6, thresholdDbm: -64 },
];
