import ts from 'typescript';
import { exportsOf, isOwn, parameterName } from '../support/workspace.js';
import type { Path } from './trials.js';

/** An exported function, as the compiler knows it. */
export interface PublicFunction {
  readonly name: string;
  readonly parameterNames: readonly string[];
  /** Whether it can be called with nothing. */
  readonly needsArguments: boolean;
  readonly takesNumbers: boolean;
  /** Whether the value at a path of the arguments may be left out; `undefined` where no type says. */
  readonly mayBeLeftOut: (path: Path) => boolean | undefined;
}

/** The functions that an entry point exports (classes are not functions here). */
export function publicFunctions(program: ts.Program, file: string): readonly PublicFunction[] {
  const checker = program.getTypeChecker();
  const source = program.getSourceFile(file);
  if (source === undefined) throw new Error(`${file} is not in the program`);
  return [...exportsOf(checker, program, file)].flatMap(([name, symbol]) => {
    if (!(symbol.flags & ts.SymbolFlags.Value)) return [];
    const [signature] = checker.getTypeOfSymbolAtLocation(symbol, source).getCallSignatures();
    if (signature === undefined) return [];
    const parameters = signature.getParameters();
    return [
      {
        name,
        parameterNames: parameters.map(parameterName),
        needsArguments: parameters.some((parameter) => !isOptional(checker, parameter)),
        takesNumbers: parameters.some((parameter) =>
          holdsNumbers(checker, checker.getTypeOfSymbol(parameter), new Set()),
        ),
        mayBeLeftOut: (path) => mayBeLeftOut(checker, parameters, path),
      },
    ];
  });
}

function isOptional(checker: ts.TypeChecker, symbol: ts.Symbol): boolean {
  const declaration = symbol.valueDeclaration;
  if (declaration !== undefined && ts.isParameter(declaration)) {
    if (checker.isOptionalParameter(declaration) || declaration.dotDotDotToken !== undefined) return true;
  }
  if (symbol.flags & ts.SymbolFlags.Optional) return true;
  return parts(checker.getTypeOfSymbol(symbol)).some(({ flags }) => (flags & ts.TypeFlags.Undefined) !== 0);
}

function parts(type: ts.Type): readonly ts.Type[] {
  return type.isUnion() ? type.types : [type];
}

function holdsNumbers(checker: ts.TypeChecker, type: ts.Type, seen: Set<ts.Type>): boolean {
  if (type.flags & ts.TypeFlags.NumberLike) return true;
  if (type.isUnionOrIntersection()) return type.types.some((part) => holdsNumbers(checker, part, seen));
  if (!(type.flags & ts.TypeFlags.Object) || seen.has(type)) return false;
  seen.add(type);
  const name = type.symbol?.name ?? '';
  if (!isOwn(type.symbol)) {
    if (/^(Float|Int|Uint)(16|32|64)Array$/.test(name)) return true;
    if (checker.isArrayLikeType(type)) {
      return checker
        .getTypeArguments(type as ts.TypeReference)
        .some((item) => holdsNumbers(checker, item, seen));
    }
    if (!(type.symbol?.flags & ts.SymbolFlags.TypeLiteral)) return false;
  }
  return (
    type.getProperties().some((property) => holdsNumbers(checker, checker.getTypeOfSymbol(property), seen)) ||
    checker.getIndexInfosOfType(type).some(({ type: value }) => holdsNumbers(checker, value, seen))
  );
}

function mayBeLeftOut(
  checker: ts.TypeChecker,
  parameters: readonly ts.Symbol[],
  [place, ...keys]: Path,
): boolean | undefined {
  const parameter = parameters[Number(place)];
  if (parameter === undefined) return undefined;
  let optional: boolean | undefined = isOptional(checker, parameter);
  let types = parts(checker.getTypeOfSymbol(parameter));
  for (const key of keys) {
    const properties = types.flatMap((type) => checker.getPropertyOfType(type, String(key)) ?? []);
    if (properties.length > 0) {
      optional = properties.some((property) => isOptional(checker, property));
      types = properties.flatMap((property) => parts(checker.getTypeOfSymbol(property)));
    } else {
      optional = typeof key === 'number' ? false : undefined;
      types = types.flatMap((type) => checker.getIndexInfosOfType(type).flatMap((info) => parts(info.type)));
    }
  }
  return optional;
}
