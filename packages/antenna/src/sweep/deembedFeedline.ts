import { checkOnePortSweep } from './checkSweep.js';
import { type Complex, over, times } from './complex.js';
import { type FeedlineLead, roundTripOf } from './feedlineLead.js';
import type { OnePortSweep } from './OnePortSweep.js';
import { reflectionWarnings } from './reflectionWarnings.js';
import { withReflections } from './withReflections.js';

/**
 * Takes a known cable out of a sweep: what the antenna itself shows, when the analyser was calibrated at the near end.
 *
 * The cable turns the reflection by its length and shrinks it by its loss, both twice; a VSWR read through it is too good. It must
 * have the impedance of the sweep's reference: a 75 Ω lead in a 50 Ω sweep cannot be taken out this way, use {@link deembedTwoPort}.
 * An error of 1 mm in an electrical length turns the reflection by 2 degrees at 868 MHz. Noise grows with the loss that is taken out;
 * from 10 dB on a warning says so. A reflection that comes out above 1 means that the stated loss is too large.
 *
 * @returns the sweep at the far end, error below 1e-12 for an exact cable
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number`, `out-of-range`, `missing` or `unknown-option`
 * @source IEC 60050-726 (from memory), reflection coefficient; along a matched line Γ turns by −2βl and shrinks by 10^(−2a/20)
 * @example Half a decibel of cable hides a part of the reflection
 * ```ts
 * import { deembedFeedline, parseTouchstone } from '@finial/antenna';
 *
 * const seen = parseTouchstone('# MHz S RI R 50\n868 0.3 0\n');
 * const lead = { lossDb: 0.5, lossReferenceHz: 868e6, lengthM: 0, velocityFactor: 0.69 };
 * deembedFeedline(seen, lead).reflectionReal[0]; // ≈ 0.3366
 * ```
 */
export function deembedFeedline(sweep: OnePortSweep, lead: FeedlineLead): OnePortSweep {
  checkOnePortSweep(sweep);
  const roundTrip = roundTripOf(lead);
  const result = withReflections(sweep, (seen, hertz) => over(seen, roundTrip(hertz)));
  const { frequencyHz, reflectionReal, reflectionImaginary } = result;
  const magnitudeAt = (index: number) =>
    Math.hypot(reflectionReal[index] as number, reflectionImaginary[index] as number);
  const tooLarge = reflectionWarnings(
    frequencyHz,
    magnitudeAt,
    'the loss stated for the cable is too large, or the reading is bad',
  );
  return { ...result, warnings: [...sweep.warnings, ...tooLarge, ...noiseWarnings(sweep, roundTrip)] };
}

/**
 * Puts a known cable in front of a sweep: what an analyser at the near end would show. The inverse of {@link deembedFeedline}.
 *
 * @returns the sweep at the near end, error below 1e-12 for an exact cable
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number`, `out-of-range`, `missing` or `unknown-option`
 * @source IEC 60050-726 (from memory), reflection coefficient; along a matched line Γ turns by −2βl and shrinks by 10^(−2a/20)
 * @example A quarter of a wavelength turns the reflection by half a turn
 * ```ts
 * import { embedFeedline, parseTouchstone } from '@finial/antenna';
 *
 * const antenna = parseTouchstone('# MHz S RI R 50\n299.792458 0.3 0\n');
 * embedFeedline(antenna, { lossDb: 0, lossReferenceHz: 1e9, electricalLengthM: 0.25 }).reflectionReal[0]; // ≈ -0.3
 * ```
 */
export function embedFeedline(sweep: OnePortSweep, lead: FeedlineLead): OnePortSweep {
  checkOnePortSweep(sweep);
  const roundTrip = roundTripOf(lead);
  return withReflections(sweep, (own, hertz) => times(own, roundTrip(hertz)));
}

const noisyRoundTripDb = 20;

function noiseWarnings(sweep: OnePortSweep, roundTrip: (frequencyHz: number) => Complex): readonly string[] {
  const last = roundTrip(sweep.frequencyHz.at(-1) ?? 0);
  const roundTripDb = -20 * Math.log10(Math.hypot(last.real, last.imaginary));
  if (roundTripDb < noisyRoundTripDb) return [];
  return [
    `${roundTripDb.toFixed(1)} dB there and back were taken out: the noise of the reading grew by as much`,
  ];
}
