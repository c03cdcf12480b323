import ts from 'typescript';
import { exportsOf, isOwn, parameterName, shown } from '../support/workspace.js';
import { tradeNames, unitOfTheCaller, unitSuffixes, unitWords } from './unitSuffixes.js';

const plurals = Object.keys(tradeNames).map((name) => `${name}s`);
const endings = [...Object.keys(unitSuffixes), ...Object.keys(tradeNames), ...plurals];

/** Whether a name ends in a unit or is a number that the trade knows by name. */
export function nameSaysItsUnit(name: string, more: readonly string[] = []): boolean {
  return [...endings, ...more].some((ending) => {
    if (name === ending || name === ending[0]?.toLowerCase() + ending.slice(1)) return true;
    const inside = ending[0]?.toUpperCase() + ending.slice(1);
    // The ending must begin a word of its own: `frequencyMHz` does not end in Hz, nor `RSSIC` in C.
    return name.endsWith(inside) && /[a-z0-9]$/.test(name.slice(0, -inside.length));
  });
}

/** Whether the name of a function says the unit of the number that it returns; `vswrThroughLoss` says it first. */
function functionSaysItsUnit(name: string): boolean {
  const [first = name] = name.split(/(?=Through[A-Z]|Of[A-Z]|At[A-Z]|From[A-Z]|For[A-Z])/);
  const words = Object.keys(unitWords);
  return name in unitOfTheCaller || nameSaysItsUnit(name, words) || nameSaysItsUnit(first, words);
}

/** The exported numbers of a file whose names say no unit: each once, by file, line and the path that leads to it. */
export function unnamedNumbers(program: ts.Program, file: string): readonly string[] {
  const checker = program.getTypeChecker();
  const source = program.getSourceFile(file);
  const found = new Map<ts.Declaration | undefined, string>();
  const isHere = (symbol: ts.Symbol) => isOwn(symbol) && inSamePackage(symbol, file);
  const visit = visitor(checker, isHere, (holder, path) => {
    const declaration = holder.valueDeclaration ?? holder.declarations?.[0];
    if (!found.has(declaration)) found.set(declaration, `${placeOf(declaration)}: ${path}`);
  });
  // What another package declares is checked there.
  const own = [...exportsOf(checker, program, file)].filter(([, symbol]) => inSamePackage(symbol, file));
  for (const [name, symbol] of own) {
    if (symbol.flags & ts.SymbolFlags.Type) visit(checker.getDeclaredTypeOfSymbol(symbol), name, symbol);
  }
  for (const [name, symbol] of own) {
    if (symbol.flags & ts.SymbolFlags.Value && source !== undefined) {
      visit(checker.getTypeOfSymbolAtLocation(symbol, source), name, symbol);
    }
  }
  return [...found.values()];
}

function placeOf(declaration: ts.Declaration | undefined): string {
  if (declaration === undefined) return 'somewhere';
  const source = declaration.getSourceFile();
  const { line } = source.getLineAndCharacterOfPosition(declaration.getStart(source));
  return `${shown(source.fileName)}:${line + 1}`;
}

function inSamePackage(symbol: ts.Symbol, file: string): boolean {
  const packageOf = (path: string) => /packages\/([^/]+)\//.exec(shown(path))?.[1];
  return (symbol.declarations ?? []).some(
    (declaration) => packageOf(declaration.getSourceFile().fileName) === packageOf(file),
  );
}

// Not Uint8Array: that is the bytes of a file.
const series = /^(Float(16|32|64)|Int(8|16|32)|Uint(16|32))Array$/;
/** Library types that only carry others, whose numbers take the name of what holds them. */
const carriers = new Set([
  'Array',
  'ReadonlyArray',
  'Promise',
  'PromiseLike',
  'Map',
  'ReadonlyMap',
  'Set',
  'ReadonlySet',
  'Iterable',
  'AsyncIterable',
  'Iterator',
  'Generator',
  'AsyncGenerator',
]);

type Visit = (type: ts.Type, name: string, holder: ts.Symbol) => void;

/** Walks a type down to its numbers. The holder is the parameter, member or function whose name should say the unit. */
function visitor(
  checker: ts.TypeChecker,
  isHere: (symbol: ts.Symbol) => boolean,
  report: (holder: ts.Symbol, path: string) => void,
): Visit {
  const seen = new Set<ts.Type>();
  const visit = (type: ts.Type, name: string, holder: ts.Symbol, path: string): void => {
    if (type.flags & ts.TypeFlags.NumberLike) {
      if (!nameSaysItsUnit(name)) report(holder, path);
      return;
    }
    if (type.isUnionOrIntersection()) {
      for (const part of type.types) visit(part, name, holder, path);
      return;
    }
    if (!(type.flags & ts.TypeFlags.Object)) return;
    if (!isOwn(type.symbol)) {
      const library = type.symbol?.name ?? '';
      if (series.test(library) && !nameSaysItsUnit(name)) report(holder, path);
      if (checker.isTupleType(type) || carriers.has(library)) {
        for (const part of checker.getTypeArguments(type as ts.TypeReference))
          visit(part, name, holder, path);
        return;
      }
      // Mapped types such as Record and Partial are written in the library too, but their members are ours.
      if (!(type.symbol?.flags & ts.SymbolFlags.TypeLiteral)) return;
    }
    if (seen.has(type)) return;
    seen.add(type);
    for (const signature of type.getCallSignatures()) call(signature, name, holder, path);
    for (const signature of type.getConstructSignatures()) parameters(signature, path);
    for (const { type: value } of checker.getIndexInfosOfType(type)) visit(value, name, holder, path);
    for (const property of type.getProperties()) {
      if (!isHere(property) || isHidden(property) || property.name === 'prototype') continue;
      visit(checker.getTypeOfSymbol(property), property.name, property, `${path}.${property.name}`);
    }
  };
  const call = (signature: ts.Signature, name: string, holder: ts.Symbol, path: string): void => {
    parameters(signature, path);
    const returned = signature.getReturnType();
    if (!(returned.flags & ts.TypeFlags.NumberLike)) visit(returned, name, holder, `${path}()`);
    else if (!functionSaysItsUnit(name)) report(holder, `${path}()`);
  };
  const parameters = (signature: ts.Signature, path: string): void => {
    signature.getParameters().forEach((parameter, place) => {
      const name = parameterName(parameter, place);
      visit(checker.getTypeOfSymbol(parameter), name, parameter, `${path}(${name})`);
    });
  };
  return (type, name, holder) => visit(type, name, holder, name);
}

function isHidden(property: ts.Symbol): boolean {
  return (property.declarations ?? []).some(
    (declaration) =>
      ts.getCombinedModifierFlags(declaration) & (ts.ModifierFlags.Private | ts.ModifierFlags.Protected),
  );
}
