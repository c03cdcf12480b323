import { join } from 'node:path';
import ts from 'typescript';
import { compilerOptions, filesBelow, shown, workspacePackages } from '../support/workspace.js';
import { citationIn, citationInTitle } from './citations.js';
import { commentsAbove, commentsAt } from './comments.js';
import { type DocumentedFunction, documentedFunctions } from './documentedFunctions.js';
import { type Reach, reachFinder } from './reach.js';
import { sourceOfFigures } from './referenceFigures.js';
import { type TestBlock, testBlocks } from './testBlocks.js';

/** A test that says something about a function. */
export interface Check {
  /** From the root of the repository, with slashes. */
  readonly file: string;
  readonly line: number;
  readonly title: string;
  /** Where its figures come from, as the test says it; empty for a property test. */
  readonly sources: readonly string[];
  /** Whether the titles around it name the function. */
  readonly isNamed: boolean;
}

/** What the tests have for a function. */
export interface Checks {
  readonly outside: readonly Check[];
  readonly properties: readonly Check[];
}

/** What the tests have for a public function, and for the functions behind it. */
export interface Evidence extends Checks {
  readonly documented: DocumentedFunction;
  /** The checks of a function of the same package that tests reach, by name; `p526.model` or the plain name of an inner one. */
  readonly part: (name: string) => Checks | undefined;
}

/** A program over the sources and all tests, parsed once. */
export function programOfTests(): ts.Program {
  const sources = workspacePackages().flatMap(({ entryPoints }) => entryPoints.map(({ file }) => file));
  const tests = workspacePackages().flatMap(({ folder }) => filesBelow(join(folder, 'test'), '.test.ts'));
  return ts.createProgram([...sources, ...tests], compilerOptions());
}

/** The evidence for every public function. A function is only credited with tests of its own package. */
export function evidence(program: ts.Program): readonly Evidence[] {
  const documented = documentedFunctions(program, workspacePackages());
  const files = program
    .getSourceFiles()
    .filter(({ fileName }) => /^packages\/[^/]+\/test\/.*\.test\.ts$/.test(shown(fileName)));
  return evidenceIn(program.getTypeChecker(), documented, files);
}

/** The evidence that test files hold for functions. */
export function evidenceIn(
  checker: ts.TypeChecker,
  documented: readonly DocumentedFunction[],
  files: readonly ts.SourceFile[],
): readonly Evidence[] {
  const reach = reachFinder(checker);
  const all = new Map<ts.Symbol, { readonly outside: Check[]; readonly properties: Check[] }>();
  for (const file of files) {
    const own = /^packages\/[^/]+\//.exec(shown(file.fileName))?.[0] ?? '';
    for (const block of testBlocks(checker, file)) {
      const reached = reach([...block.bodies, ...block.tables]);
      const sources = reached.usesProperty ? [] : sourcesOf(block, reached);
      for (const symbol of reached.symbols) {
        if (!fileOf(symbol).startsWith(own)) continue;
        const checks = all.get(symbol) ?? { outside: [], properties: [] };
        all.set(symbol, checks);
        if (reached.usesProperty) checks.properties.push(checkOf(block, [], symbol.name));
        else if (sources.length > 0) checks.outside.push(checkOf(block, sources, symbol.name));
      }
    }
  }
  const none: Checks = { outside: [], properties: [] };
  return documented.map((each) => ({
    documented: each,
    ...(all.get(each.symbol) ?? none),
    part: (name) => {
      const publicOne = documented.find(
        (other) => other.packageName === each.packageName && other.name === name,
      );
      if (publicOne !== undefined) return all.get(publicOne.symbol);
      const own = `packages/${each.packageName}/`;
      return [...all].find(([symbol]) => symbol.name === name && fileOf(symbol).startsWith(own))?.[1];
    },
  }));
}

function fileOf(symbol: ts.Symbol): string {
  const file = symbol.declarations?.[0]?.getSourceFile().fileName;
  return file === undefined ? '' : shown(file);
}

function checkOf(block: TestBlock, sources: readonly string[], name: string): Check {
  const title = block.titles.filter((each) => each !== '').join(': ');
  const isNamed = new RegExp(`\\b${name}\\b`).test(title);
  return { file: shown(block.file.fileName), line: block.line, title, sources, isNamed };
}

/** Where the figures of a test come from; empty where it compares with none, or does not say so. */
function sourcesOf(block: TestBlock, reached: Reach): readonly string[] {
  if (!reached.comparesValues) return [];
  const stated = [...new Set(reached.figures.map(sourceOfFigures))];
  const near = [
    ...commentsAt(block.statement),
    ...[...reached.declarations].filter(isData).flatMap((each) => commentsAt(statementOf(each))),
  ];
  // A title or the text of a row speaks for a test only if that holds a figure; so does what stands at the group around it.
  const holds = [block.statement, ...block.tables].some(holdsFigure);
  const titled = holds
    ? [...block.tables.filter(holdsFigure).flatMap(textsIn), ...block.titles.slice(-1)]
    : [];
  const cited = unique([...near.map(citationIn), ...titled.map(citationInTitle)]);
  const shared = [...new Set(reached.sharedFiles)].map((name) => `data beside the repository: ${name}`);
  if (stated.length + cited.length > 0) return [...stated, ...cited];
  const around = unique([
    ...block.groups.flatMap(commentsAbove).map(citationIn),
    ...block.titles.slice(0, -1).map(citationInTitle),
  ]);
  if (shared.length > 0) return [...shared, ...around];
  return holds ? around : [];
}

function unique(texts: readonly (string | undefined)[]): readonly string[] {
  return [...new Set(texts.filter((text) => text !== undefined))];
}

/** A table or constant, not a function: what a helper says of itself is no source of the figures. */
function isData(declaration: ts.Declaration): boolean {
  if (!ts.isVariableDeclaration(declaration)) return false;
  const { initializer } = declaration;
  return initializer !== undefined && !ts.isFunctionLike(initializer);
}

function statementOf(declaration: ts.Declaration): ts.Node {
  return ts.isVariableDeclaration(declaration) ? declaration.parent.parent : declaration;
}

function textsIn(node: ts.Node): readonly string[] {
  const texts: string[] = [];
  const visit = (inner: ts.Node): void => {
    if (ts.isStringLiteralLike(inner)) texts.push(inner.text);
    ts.forEachChild(inner, visit);
  };
  visit(node);
  return texts;
}

/** A number with at least two digits that are not zeros at its end. */
function holdsFigure(node: ts.Node): boolean {
  if (ts.isNumericLiteral(node))
    return /\d\d/.test(node.text.replace(/\.|e.*$/g, '').replace(/^0+|0+$/g, ''));
  return ts.forEachChild(node, (child) => holdsFigure(child) || undefined) ?? false;
}
