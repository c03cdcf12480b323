/** A value as it stands in code: numbers in full, texts quoted, objects on one line or, where they are long, on several. */
export function literal(value: unknown, indent = ''): string {
  if (typeof value === 'string') return quoted(value);
  if (typeof value !== 'object' || value === null) return String(value);
  if (Array.isArray(value))
    return wrapped(
      '[',
      value.map((each) => literal(each, `${indent}  `)),
      ']',
      indent,
    );
  const entries = Object.entries(value).filter(([, each]) => each !== undefined);
  const parts = entries.map(([key, each]) => `${nameOf(key)}: ${literal(each, `${indent}  `)}`);
  return wrapped('{ ', parts, ' }', indent);
}

const longestLine = 90;

function wrapped(open: string, parts: readonly string[], close: string, indent: string): string {
  const line = `${open}${parts.join(', ')}${close}`;
  if (line.length + indent.length <= longestLine && !line.includes('\n')) return line;
  return `${open.trim()}\n${parts.map((part) => `${indent}  ${part},`).join('\n')}\n${indent}${close.trim()}`;
}

function quoted(text: string): string {
  return `'${text.replace(/[\\']/g, '\\$&').replaceAll('\n', '\\n').replaceAll('\r', '\\r')}'`;
}

function nameOf(key: string): string {
  return /^[A-Za-z_$][\w$]*$/.test(key) ? key : quoted(key);
}

/** A comment that says what a line gives, rounded as a reader would. */
export function about(value: number, digits = 4): string {
  // Digits before the point are all written: a rounded thousand would not be the value that comes out.
  const before = Math.ceil(Math.log10(Math.abs(value)));
  return `// ≈ ${Number(value.toPrecision(Math.min(17, Math.max(digits, before))))}`;
}
