import ts from 'typescript';
import { shown } from '../support/workspace.js';
import { type FiguresPlace, figuresPlace } from './referenceFigures.js';

/** What a piece of test code uses. */
export interface Reach {
  /** Functions and constants of the packages. */
  readonly symbols: ReadonlySet<ts.Symbol>;
  /** Declarations of the test files that it leads to. */
  readonly declarations: ReadonlySet<ts.Declaration>;
  readonly figures: readonly FiguresPlace[];
  /** Names of data files that lie beside the repository. */
  readonly sharedFiles: readonly string[];
  readonly usesProperty: boolean;
  readonly comparesValues: boolean;
}

interface Direct {
  readonly symbols: Set<ts.Symbol>;
  readonly follow: Set<ts.Declaration>;
  readonly figures: FiguresPlace[];
  readonly sharedFiles: string[];
  /** Packages whose exports are called by a name that only the run knows, and the names that stand here. */
  readonly namespaces: Set<ts.Symbol>;
  readonly words: Set<string>;
  usesProperty: boolean;
  comparesValues: boolean;
}

/** Finds what code of the tests reaches, directly or through what else the test files declare. Looks at each declaration once. */
export function reachFinder(checker: ts.TypeChecker): (nodes: readonly ts.Node[]) => Reach {
  const known = new Map<ts.Node, Direct>();
  const directOf = (node: ts.Node): Direct => {
    let direct = known.get(node);
    if (direct === undefined) {
      direct = directUse(checker, node);
      known.set(node, direct);
    }
    return direct;
  };
  return (nodes) => {
    const seen = new Set<ts.Node>(nodes);
    const all: Direct[] = [];
    // A set gives what is added to it while it is walked.
    for (const node of seen) {
      const direct = directOf(node);
      all.push(direct);
      for (const declaration of direct.follow) seen.add(declaration);
    }
    const symbols = new Set(all.flatMap((direct) => [...direct.symbols]));
    const words = new Set(all.flatMap((direct) => [...direct.words]));
    for (const namespace of new Set(all.flatMap((direct) => [...direct.namespaces]))) {
      for (const symbol of checker.getExportsOfModule(namespace)) {
        if (words.has(symbol.name)) symbols.add(unaliased(checker, symbol));
      }
    }
    return {
      symbols,
      declarations: new Set(all.flatMap((direct) => [...direct.follow])),
      figures: all.flatMap((direct) => direct.figures),
      sharedFiles: all.flatMap((direct) => direct.sharedFiles),
      usesProperty: all.some((direct) => direct.usesProperty),
      comparesValues: all.some((direct) => direct.comparesValues),
    };
  };
}

/** A helper that reads a file beside the repository is known by its name. */
const readerOfShared = /^shared[A-Z]\w*$/;
const properties = /^(property|asyncProperty|assert|check)$/;

function directUse(checker: ts.TypeChecker, root: ts.Node): Direct {
  const direct: Direct = {
    symbols: new Set(),
    follow: new Set(),
    figures: [],
    sharedFiles: [],
    namespaces: new Set(),
    words: new Set(),
    usesProperty: false,
    comparesValues: false,
  };
  const visit = (node: ts.Node): void => {
    if (ts.isTypeNode(node) || ts.isInterfaceDeclaration(node) || ts.isTypeAliasDeclaration(node)) return;
    const place = isChain(node) ? figuresPlace(checker, node) : undefined;
    if (place !== undefined) {
      direct.figures.push(place);
      return;
    }
    if (ts.isCallExpression(node)) noteCall(node, direct);
    if (ts.isPropertyAssignment(node) || ts.isShorthandPropertyAssignment(node)) {
      if (ts.isIdentifier(node.name)) direct.words.add(node.name.text);
    }
    if (ts.isStringLiteralLike(node)) direct.words.add(node.text);
    if (ts.isIdentifier(node)) {
      noteUse(checker, node, direct);
      return;
    }
    if (ts.isPropertyAccessExpression(node)) {
      const module = moduleOf(checker, node.expression);
      const member = module === undefined ? undefined : exported(checker, module, node.name.text);
      if (member !== undefined) {
        direct.symbols.add(member);
        return;
      }
      if (/^(toThrow|rejects)$/.test(node.name.text) === false && isMatcher(node))
        direct.comparesValues = true;
      visit(node.expression);
      return;
    }
    if (ts.isPropertyAssignment(node)) {
      visit(node.initializer);
      return;
    }
    if (ts.isElementAccessExpression(node)) {
      const module = moduleOf(checker, node.expression);
      if (module !== undefined) direct.namespaces.add(module);
    }
    ts.forEachChild(node, visit);
  };
  visit(root);
  return direct;
}

function isChain(node: ts.Node): boolean {
  return (
    ts.isPropertyAccessExpression(node) ||
    ts.isElementAccessExpression(node) ||
    ts.isIdentifier(node) ||
    isParse(node)
  );
}

function isParse(node: ts.Node): boolean {
  return ts.isCallExpression(node) && node.expression.getText() === 'JSON.parse';
}

/** `expect(…).toBe`, also behind `not` and `resolves`. */
function isMatcher({ name, expression }: ts.PropertyAccessExpression): boolean {
  if (!name.text.startsWith('to') || /^toThrow/.test(name.text)) return false;
  let at: ts.Expression = expression;
  while (ts.isPropertyAccessExpression(at)) {
    if (at.name.text === 'rejects') return false;
    at = at.expression;
  }
  return ts.isCallExpression(at) && ts.isIdentifier(at.expression) && at.expression.text === 'expect';
}

function noteCall(call: ts.CallExpression, direct: Direct): void {
  const { expression: callee } = call;
  if (ts.isPropertyAccessExpression(callee) && ts.isIdentifier(callee.expression)) {
    if (callee.expression.text === 'fc' && properties.test(callee.name.text)) direct.usesProperty = true;
  }
  if (ts.isIdentifier(callee) && readerOfShared.test(callee.text)) {
    const [name] = call.arguments;
    if (name === undefined) return;
    const text = name.getText().replace(/^['"`]|['"`]$/g, '');
    direct.sharedFiles.push(ts.isIdentifier(name) ? '…' : text.replace(/\$\{[^}]*\}/g, '…'));
  }
}

function noteUse(checker: ts.TypeChecker, node: ts.Identifier, direct: Direct): void {
  const symbol = ts.isShorthandPropertyAssignment(node.parent)
    ? checker.getShorthandAssignmentValueSymbol(node.parent)
    : checker.getSymbolAtLocation(node);
  if (symbol === undefined) return;
  const target = unaliased(checker, symbol);
  const declaration = target.valueDeclaration ?? target.declarations?.[0];
  if (declaration === undefined) return;
  const file = declaration.getSourceFile();
  const path = shown(file.fileName);
  if (/^packages\/[^/]+\/src\//.test(path)) direct.symbols.add(target);
  else if (/^(packages\/[^/]+\/test|tests)\//.test(path) && !file.isDeclarationFile) {
    if (!ts.isSourceFile(declaration) && !ts.isParameter(declaration)) direct.follow.add(whole(declaration));
  }
}

/** What a name stands for: the variable that a pattern takes apart, or the function. */
function whole(declaration: ts.Declaration): ts.Declaration {
  let at: ts.Node = declaration;
  while (ts.isBindingElement(at)) at = at.parent.parent;
  return ts.isParameter(at) ? declaration : (at as ts.Declaration);
}

function unaliased(checker: ts.TypeChecker, symbol: ts.Symbol): ts.Symbol {
  return symbol.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(symbol) : symbol;
}

/** The module that a name such as `radio` or `propagation.p526` stands for. */
function moduleOf(checker: ts.TypeChecker, node: ts.Expression): ts.Symbol | undefined {
  let symbol: ts.Symbol | undefined;
  if (ts.isIdentifier(node)) {
    const named = checker.getSymbolAtLocation(node);
    symbol = named === undefined ? undefined : unaliased(checker, named);
  } else if (ts.isPropertyAccessExpression(node)) {
    const outer = moduleOf(checker, node.expression);
    symbol = outer === undefined ? undefined : exported(checker, outer, node.name.text);
  } else if (ts.isAsExpression(node) || ts.isParenthesizedExpression(node)) {
    return moduleOf(checker, node.expression);
  }
  return symbol !== undefined && symbol.flags & ts.SymbolFlags.ValueModule ? symbol : undefined;
}

function exported(checker: ts.TypeChecker, module: ts.Symbol, name: string): ts.Symbol | undefined {
  const symbol = checker.getExportsOfModule(module).find((each) => each.name === name);
  return symbol === undefined ? undefined : unaliased(checker, symbol);
}
