import type { Finding } from '@finial/units';

/** Exit codes of the command; an interrupted program ends with 128 and the number of its signal. */
export const exitCodes = { fine: 0, mustStop: 1, badInput: 2, interrupted: 130 } as const;

/** The exit code that findings ask for. */
export function codeOf(findings: readonly Finding[]): number {
  return findings.some(({ severity }) => severity === 'stop') ? exitCodes.mustStop : exitCodes.fine;
}

/** The last part of every help text. */
export const exitCodesInWords: string =
  'Exit codes: 0 nothing forbids it, 1 a finding says stop, 2 the input is wrong,\n130 interrupted.';

/** Exit codes and a worked example, to stand after the options. */
export function helpAfter(example: string, effect: string): string {
  return `\n${exitCodesInWords}\n\nExample:\n  ${example}\n${effect}`;
}
