import ts from 'typescript';
import { exportsOf, shown, type WorkspacePackage } from '../support/workspace.js';

/** A function that a user may import, with what its doc comment says. */
export interface DocumentedFunction {
  /** Name of the package without the scope. */
  readonly packageName: string;
  /** As a user writes it: `wavelengthM`, or `p526.model` where it stands in a namespace. */
  readonly name: string;
  /** What it is imported from: `@finial/radio`, or a subpath where the package itself does not export it. */
  readonly specifier: string;
  /** First sentence of the doc comment. */
  readonly summary: string;
  /** Text of `@source`, empty where there is none. */
  readonly source: string;
  readonly symbol: ts.Symbol;
}

/**
 * The functions of all packages, each once: under the package that declares it, by the shortest way to import it. Classes are no
 * functions; what a package re-exports from another belongs to the other.
 */
export function documentedFunctions(
  program: ts.Program,
  packages: readonly WorkspacePackage[],
): readonly DocumentedFunction[] {
  const checker = program.getTypeChecker();
  const found = new Map<ts.Symbol, DocumentedFunction>();
  for (const { shortName, entryPoints } of packages) {
    const own = `packages/${shortName}/src/`;
    const visit = (symbols: ReadonlyMap<string, ts.Symbol>, specifier: string, prefix: string): void => {
      for (const [name, symbol] of symbols) {
        const file = symbol.declarations?.[0]?.getSourceFile();
        if (file === undefined || !shown(file.fileName).startsWith(own) || found.has(symbol)) continue;
        if (symbol.flags & ts.SymbolFlags.ValueModule) {
          visit(exportsOf(checker, program, file.fileName), specifier, `${prefix}${name}.`);
        } else if (isFunction(checker, symbol, file)) {
          const said = { summary: summaryOf(checker, symbol), source: tagOf(checker, symbol, 'source') };
          found.set(symbol, {
            packageName: shortName,
            name: prefix + name,
            specifier,
            symbol,
            ...said,
          });
        }
      }
    };
    // The package itself comes first, so that a subpath only adds what it alone exports.
    for (const { specifier, file } of entryPoints) visit(exportsOf(checker, program, file), specifier, '');
  }
  return [...found.values()];
}

function isFunction(checker: ts.TypeChecker, symbol: ts.Symbol, file: ts.SourceFile): boolean {
  if (!(symbol.flags & ts.SymbolFlags.Value)) return false;
  return checker.getTypeOfSymbolAtLocation(symbol, file).getCallSignatures().length > 0;
}

function summaryOf(checker: ts.TypeChecker, symbol: ts.Symbol): string {
  const text = plain(symbol.getDocumentationComment(checker));
  const [paragraph = ''] = text.split(/\n\s*\n/);
  const [sentence = ''] = paragraph.split(/(?<=[.:;])\s+(?=[A-Z])/);
  return sentence.replace(/\s+/g, ' ').trim();
}

function tagOf(checker: ts.TypeChecker, symbol: ts.Symbol, name: string): string {
  const tags = symbol.getJsDocTags(checker).filter((tag) => tag.name === name);
  return tags
    .map(({ text = [] }) => plain(text).replace(/\s+/g, ' ').trim())
    .filter((text) => text !== '')
    .join('; ');
}

/** Text of a comment with its links as the names that they point to. */
function plain(parts: readonly ts.SymbolDisplayPart[]): string {
  const written = parts.map(({ kind, text }) => {
    if (kind === 'link') return '';
    // A link without words of its own carries a blank behind its name.
    return kind === 'linkText' ? text.replace(/^\S+\s*\|\s*/, '').trim() : text;
  });
  return written.join('');
}
