const number = /^-?\d[\d_]*(?:\.(\d+))?(?:e([+-]?\d+))?/;

/**
 * Whether a value rounds to a number as it is printed: 0.3333 for one third, but not 0.33330.
 *
 * A list in square brackets is compared entry by entry. Words after the number (a unit) are left aside.
 */
export function roundsTo(value: unknown, printed: string): boolean {
  const list = /^\[(.*)\]/.exec(printed)?.[1];
  if (list !== undefined) {
    const entries = list.split(',').map((entry) => entry.trim());
    return (
      (Array.isArray(value) || ArrayBuffer.isView(value)) &&
      Array.from(value as ArrayLike<unknown>).length === entries.length &&
      Array.from(value as ArrayLike<unknown>).every((item, index) => roundsTo(item, entries[index] ?? ''))
    );
  }
  const match = number.exec(printed);
  if (match === null) throw new Error(`expected a number after ≈, got ${JSON.stringify(printed)}`);
  if (typeof value !== 'number' || !Number.isFinite(value)) return false;
  const lastDigit = 10 ** (Number(match[2] ?? 0) - (match[1] ?? '').length);
  const wanted = Number(match[0].replaceAll('_', ''));
  // A half rounds either way; the margin is for the rounding of the comparison itself.
  return Math.abs(value - wanted) <= lastDigit * 0.5 + Math.abs(wanted) * 1e-15;
}
