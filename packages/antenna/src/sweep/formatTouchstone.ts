import { checkObject, checkOneOf, InputError } from '@finial/units';
import { checkOnePortSweep } from './checkSweep.js';
import type { OnePortSweep } from './OnePortSweep.js';

/** How a Touchstone text is written. */
export interface TouchstoneForm {
  /** Version of the format: 1 is read by everything. @defaultValue 1 */
  readonly version?: 1 | 2 | undefined;
  /**
   * Real and imaginary part, magnitude and angle, or decibels and angle.
   *
   * @defaultValue `'RI'`, which comes back without a rounding
   */
  readonly format?: 'RI' | 'MA' | 'DB' | undefined;
}

/**
 * Writes a one-port sweep as the text of a Touchstone file, frequencies in hertz.
 *
 * Comments come first, one line each; `warnings` are not written, since a reader finds them again. Read back by
 * {@link parseTouchstone}, form RI gives the same doubles, MA and DB the same within 1e-13 of the larger part. A reflection of
 * exactly 0 has no decibels and is refused in form DB.
 *
 * @returns the text, LF at the end of each line
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number`, `out-of-range`, `missing` or `unknown-option`
 * @source Touchstone File Format Specification, version 1.1 (2002) and 2.0 (2009), IBIS Open Forum
 * @example
 * ```ts
 * import { formatTouchstone, parseTouchstone } from '@finial/antenna';
 *
 * const sweep = parseTouchstone('! whip\n# GHz S MA R 50\n0.868 0.5 0\n');
 * formatTouchstone(sweep); // → '! whip\n# HZ S RI R 50\n868000000 0.5 0\n'
 * ```
 */
export function formatTouchstone(sweep: OnePortSweep, form: TouchstoneForm = {}): string {
  checkOnePortSweep(sweep);
  checkObject(form, 'form');
  const { version = 1, format = 'RI' } = form;
  checkOneOf(version, 'version', [1, 2]);
  checkOneOf(format, 'format', ['RI', 'MA', 'DB']);
  const optionLine = `# HZ S ${format} R ${sweep.referenceOhm}`;
  const comments = sweep.comments
    .flatMap((comment) => comment.split(/\r\n|\r|\n/))
    .map((text) => `! ${text}`.trimEnd());
  const rows = Array.from(sweep.frequencyHz, (frequencyHz, index) => {
    const pair = pairOf(
      sweep.reflectionReal[index] as number,
      sweep.reflectionImaginary[index] as number,
      format,
    );
    if (pair !== undefined) return `${frequencyHz} ${pair.join(' ')}`;
    const argument = `sweep.reflectionReal[${index}]`;
    const expected = 'a reflection other than 0, which has no decibels (write it with format RI)';
    throw new InputError({ code: 'out-of-range', argument, received: 0, expected });
  });
  const lines =
    version === 1
      ? [...comments, optionLine, ...rows]
      : [
          ...comments,
          '[Version] 2.0',
          optionLine,
          '[Number of Ports] 1',
          `[Number of Frequencies] ${rows.length}`,
          '[Network Data]',
          ...rows,
          '[End]',
        ];
  return `${lines.join('\n')}\n`;
}

function pairOf(
  real: number,
  imaginary: number,
  format: 'RI' | 'MA' | 'DB',
): readonly [number, number] | undefined {
  if (format === 'RI') return [real, imaginary];
  const magnitude = Math.hypot(real, imaginary);
  const angleDeg = (Math.atan2(imaginary, real) * 180) / Math.PI;
  if (format === 'MA') return [magnitude, angleDeg];
  return magnitude === 0 ? undefined : [20 * Math.log10(magnitude), angleDeg];
}
