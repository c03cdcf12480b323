import ts from 'typescript';
import { shown, type WorkspacePackage } from '../support/workspace.js';

/**
 * The public surface of a package as text: for each thing that one can import, its declaration without comments and bodies, by name. What
 * only comes through from another package is one line.
 */
export function publicSurface(program: ts.Program, { shortName, entryPoints }: WorkspacePackage): string {
  const written = entryPoints.map(({ specifier, file }) => {
    const lines = exportsOf(program, file).map((symbol) => declarationOf(program, symbol, shortName));
    return [`// ${specifier}`, ...lines].join('\n');
  });
  return `${written.join('\n\n')}\n`;
}

function exportsOf(program: ts.Program, file: string): readonly ts.Symbol[] {
  const source = program.getSourceFile(file);
  const module = source && program.getTypeChecker().getSymbolAtLocation(source);
  const symbols = module === undefined ? [] : program.getTypeChecker().getExportsOfModule(module);
  return [...symbols].sort((a, b) => (a.name < b.name ? -1 : 1));
}

function declarationOf(program: ts.Program, exported: ts.Symbol, shortName: string): string {
  const checker = program.getTypeChecker();
  const symbol = exported.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(exported) : exported;
  const sources = [...new Set((symbol.declarations ?? []).map((each) => each.getSourceFile()))];
  const [source] = sources;
  if (source === undefined) throw new Error(`${exported.name} is declared nowhere`);
  const from = shown(source.fileName);
  if (!from.startsWith(`packages/${shortName}/`)) return `export ${exported.name} from ${packageOf(from)}`;
  if (ts.isSourceFile(symbol.declarations?.[0] ?? source)) {
    const inner = exportsOf(program, source.fileName).map((each) => declarationOf(program, each, shortName));
    return `namespace ${exported.name} {\n${indented(inner.join('\n'))}\n}`;
  }
  const texts = sources.flatMap((each) => statementsNamed(each, symbol.name));
  if (texts.length === 0) throw new Error(`${from} declares no ${symbol.name}`);
  return texts.join('\n');
}

function packageOf(path: string): string {
  return path.startsWith('packages/') ? `@finial/${path.split('/')[1]}` : 'a dependency';
}

/** Statements of a file's declarations that carry a name. */
function statementsNamed(source: ts.SourceFile, name: string): string[] {
  const { outputText } = ts.transpileDeclaration(source.text, {
    fileName: source.fileName,
    compilerOptions: { removeComments: true, isolatedDeclarations: true },
  });
  const declared = ts.createSourceFile('x.d.ts', outputText, ts.ScriptTarget.Latest, true);
  return declared.statements
    .filter((each) => namesOf(each).includes(name))
    .map((each) => each.getText().trim());
}

function namesOf(statement: ts.Statement): readonly string[] {
  if (ts.isVariableStatement(statement)) {
    return statement.declarationList.declarations.map(({ name }) => name.getText());
  }
  const { name } = statement as { readonly name?: ts.Node };
  return name === undefined ? [] : [name.getText()];
}

function indented(text: string): string {
  return text.replace(/^(?=.)/gm, '  ');
}
