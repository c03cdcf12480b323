import { existsSync, readFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import ts from 'typescript';

/** A place in a JSON file of figures: the file and the keys that lead to it. */
export interface FiguresPlace {
  readonly file: string;
  readonly keys: readonly string[];
}

const read = new Map<string, unknown>();

function contentOf(file: string): unknown {
  if (!read.has(file)) read.set(file, existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')) : undefined);
  return read.get(file);
}

/** The place in a JSON file that an expression of a test names, through constants and destructuring; `undefined` where it names none. */
export function figuresPlace(checker: ts.TypeChecker, node: ts.Node, depth = 0): FiguresPlace | undefined {
  if (depth > 12) return undefined;
  const inside = (inner: ts.Node) => figuresPlace(checker, inner, depth + 1);
  if (ts.isAsExpression(node) || ts.isParenthesizedExpression(node) || ts.isNonNullExpression(node)) {
    return inside(node.expression);
  }
  if (ts.isPropertyAccessExpression(node)) return below(inside(node.expression), node.name.text);
  if (ts.isElementAccessExpression(node)) {
    const key = node.argumentExpression;
    return below(inside(node.expression), ts.isStringLiteralLike(key) ? key.text : undefined);
  }
  if (ts.isCallExpression(node)) return parsedFile(node);
  if (!ts.isIdentifier(node)) return undefined;
  const declaration = checker.getSymbolAtLocation(node)?.declarations?.[0];
  if (declaration === undefined) return undefined;
  if (ts.isImportClause(declaration)) return importedFile(declaration);
  if (ts.isVariableDeclaration(declaration)) {
    return declaration.initializer === undefined ? undefined : inside(declaration.initializer);
  }
  if (!ts.isBindingElement(declaration)) return undefined;
  const keys: string[] = [];
  let at: ts.Node = declaration;
  while (ts.isBindingElement(at)) {
    const key: ts.Node = at.propertyName ?? at.name;
    if (!ts.isObjectBindingPattern(at.parent) || !(ts.isIdentifier(key) || ts.isStringLiteral(key))) {
      return undefined;
    }
    keys.unshift(key.text);
    at = at.parent.parent;
  }
  const whole =
    ts.isVariableDeclaration(at) && at.initializer !== undefined ? inside(at.initializer) : undefined;
  return keys.reduce<FiguresPlace | undefined>((place, key) => below(place, key), whole);
}

function below(place: FiguresPlace | undefined, key: string | undefined): FiguresPlace | undefined {
  return place === undefined || key === undefined ? place : { ...place, keys: [...place.keys, key] };
}

function importedFile(clause: ts.ImportClause): FiguresPlace | undefined {
  const from = clause.parent.moduleSpecifier;
  return ts.isStringLiteral(from) ? figuresFile(clause.getSourceFile(), from.text) : undefined;
}

/** `JSON.parse(readFileSync(new URL('…/figures.json', import.meta.url)))` */
function parsedFile(call: ts.CallExpression): FiguresPlace | undefined {
  const text = call.getText();
  const name = /^JSON\.parse\(\s*readFileSync\(\s*new URL\(\s*'([^']+\.json)'/.exec(text)?.[1];
  return name === undefined ? undefined : figuresFile(call.getSourceFile(), name);
}

/** Only files that hold figures of others: those of `tests/reference`, and vectors that name their source. */
function figuresFile(source: ts.SourceFile, name: string): FiguresPlace | undefined {
  if (!/(reference|vectors)\/[^/]+\.json$/.test(name)) return undefined;
  return { file: join(dirname(source.fileName), name), keys: [] };
}

/** The value at a place, or the deepest that there is on the way. */
function along({ file, keys }: FiguresPlace): readonly unknown[] {
  const values: unknown[] = [contentOf(file)];
  for (const key of keys) {
    const value = values.at(-1);
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, key)) break;
    values.push((value as Record<string, unknown>)[key]);
  }
  return values;
}

/** The text at a place, where there is one. */
export function textAt(place: FiguresPlace): string | undefined {
  const values = along(place);
  const value = values.at(-1);
  if (values.length <= place.keys.length) return undefined;
  return typeof value === 'string' || typeof value === 'number' ? String(value) : undefined;
}

/** What a file of figures says about where those at a place come from: the nearest statement, from the figures outwards. */
export function sourceOfFigures(place: FiguresPlace): string {
  const values = along(place);
  const name = place.file.slice(
    Math.max(place.file.lastIndexOf('/reference/'), place.file.lastIndexOf('/vectors/')) + 1,
  );
  for (let depth = values.length - 1; depth >= 0; depth--) {
    const key = place.keys[depth - 1];
    const stated =
      statedIn(values[depth], depth > 0) ?? (key === undefined ? undefined : beside(values[depth - 1], key));
    if (stated !== undefined) return `${stated} (${name})`;
  }
  const [first] = place.keys;
  const table = first === undefined ? name : `table ${first} of ${name}`;
  const how = howMade(place.file);
  return how === undefined ? table : `${table}: ${how}`;
}

/** What the README beside a file says of how it was made: the last cell of the file's row. */
function howMade(file: string): string | undefined {
  const readme = join(dirname(file), 'README.md');
  const rows = existsSync(readme) ? readFileSync(readme, 'utf8').split('\n') : [];
  return rows
    .find((row) => row.startsWith(`| \`${basename(file)}\``))
    ?.split('|')
    .at(-2)
    ?.trim();
}

function statedIn(value: unknown, lookInside: boolean): string | undefined {
  if (typeof value !== 'object' || value === null) return undefined;
  const { source, description, software, meta } = value as Record<string, unknown>;
  if (typeof source === 'string') return source;
  if (typeof meta === 'object' && meta !== null && 'solver' in meta) return String(meta.solver);
  if (typeof description === 'string' || typeof software === 'string') {
    return [description, software].filter((text) => typeof text === 'string').join('; ');
  }
  if (!lookInside) return undefined;
  const rows = Object.values(value).flatMap((row: unknown) =>
    typeof row === 'object' && row !== null && 'source' in row && typeof row.source === 'string'
      ? row.source
      : [],
  );
  const [one, two, ...more] = [...new Set(rows)];
  if (one === undefined) return undefined;
  return [
    one,
    ...(two === undefined ? [] : [two]),
    ...(more.length > 0 ? [`and ${more.length} more`] : []),
  ].join('; ');
}

/** `awgSource` beside `awg`. */
function beside(holder: unknown, key: string): string | undefined {
  const text = (holder as Record<string, unknown>)[`${key}Source`];
  return typeof text === 'string' ? text : undefined;
}
