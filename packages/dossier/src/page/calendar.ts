const months = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'] as const;

/** A day as people read it, in UTC: `3 Mar 2026`. */
export function day(timeSeconds: number): string {
  const date = new Date(timeSeconds * 1000);
  return `${dayOfMonth(date)} ${date.getUTCFullYear()}`.replaceAll(' ', '\u00a0');
}

/** A moment to the minute, in UTC: `3 Mar 2026, 06:40`. */
export function moment(timeSeconds: number): string {
  return `${day(timeSeconds)}, ${timeOfDay(new Date(timeSeconds * 1000))}`;
}

/** A mark of a time axis in UTC, as short as its span allows. */
export function timeMark(timeSeconds: number, spanSeconds: number): string {
  const date = new Date(timeSeconds * 1000);
  if (spanSeconds > 400 * 86_400) return `${months[date.getUTCMonth()]} ${date.getUTCFullYear()}`;
  return timeSeconds % 86_400 === 0 ? dayOfMonth(date) : timeOfDay(date);
}

/** The year or years of a time axis: `2026`, `2026 to 2027`. */
export function years(fromSeconds: number, untilSeconds: number): string {
  const [from, until] = [fromSeconds, untilSeconds].map((time) => new Date(time * 1000).getUTCFullYear());
  return from === until ? `${from}` : `${from} to ${until}`;
}

function dayOfMonth(date: Date): string {
  return `${date.getUTCDate()} ${months[date.getUTCMonth()]}`;
}

function timeOfDay(date: Date): string {
  return date.toISOString().slice(11, 16);
}
