import ts from 'typescript';
import { exportsOf, shown, type WorkspacePackage } from '../support/workspace.js';

/**
 * The public surface of a package as text: for each thing that one can import, its declaration without comments and bodies, by name. What
 * only comes through from another package is one line.
 */
export function publicSurface(program: ts.Program, { shortName, entryPoints }: WorkspacePackage): string {
  const written = entryPoints.map(({ specifier, file }) => {
    const lines = sortedExports(program, file).map(([name, symbol]) =>
      declarationOf(program, name, symbol, shortName),
    );
    return [`// ${specifier}`, ...lines].join('\n');
  });
  return `${written.join('\n\n')}\n`;
}

function sortedExports(program: ts.Program, file: string): readonly (readonly [string, ts.Symbol])[] {
  return [...exportsOf(program.getTypeChecker(), program, file)].sort(([a], [b]) => (a < b ? -1 : 1));
}

function declarationOf(program: ts.Program, name: string, symbol: ts.Symbol, shortName: string): string {
  const sources = [...new Set((symbol.declarations ?? []).map((each) => each.getSourceFile()))];
  const [source] = sources;
  if (source === undefined) throw new Error(`${name} is declared nowhere`);
  const from = shown(source.fileName);
  if (!from.startsWith(`packages/${shortName}/`)) return `export ${name} from ${packageOf(from)}`;
  if (ts.isSourceFile(symbol.declarations?.[0] ?? source)) {
    const inner = sortedExports(program, source.fileName).map(([each, inside]) =>
      declarationOf(program, each, inside, shortName),
    );
    return `namespace ${name} {\n${indented(inner.join('\n'))}\n}`;
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
