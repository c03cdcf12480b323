import ts from 'typescript';
import { figuresPlace, textAt } from './referenceFigures.js';

/** One `test`, `test.each` or `it` of a test file. */
export interface TestBlock {
  readonly file: ts.SourceFile;
  readonly line: number;
  /** Titles of the groups around it, from the outermost, then its own. */
  readonly titles: readonly string[];
  /** The statement that holds it, and those of the groups around it. */
  readonly statement: ts.Node;
  readonly groups: readonly ts.Node[];
  /** What runs, and the tables that it runs over, those of the groups included. */
  readonly bodies: readonly ts.Node[];
  readonly tables: readonly ts.Node[];
}

/** The tests of a file, in order. */
export function testBlocks(checker: ts.TypeChecker, file: ts.SourceFile): readonly TestBlock[] {
  const blocks: TestBlock[] = [];
  type Group = {
    readonly titles: readonly string[];
    readonly groups: readonly ts.Node[];
    readonly tables: readonly ts.Node[];
  };
  const visit = (node: ts.Node, group: Group): void => {
    const call = ts.isCallExpression(node) ? testCall(node) : undefined;
    if (call === undefined) {
      // A loop around tests is their table.
      const tables = ts.isForOfStatement(node) ? [...group.tables, node.expression] : group.tables;
      ts.forEachChild(node, (child) => visit(child, { ...group, tables }));
      return;
    }
    const statement = statementOf(node);
    const titles = [...group.titles, call.title === undefined ? '' : textOf(checker, call.title)];
    const tables = [...group.tables, ...call.tables];
    if (call.isGroup) {
      const groups = [...group.groups, statement];
      for (const body of call.bodies) visit(body, { titles, groups, tables });
      return;
    }
    const line = file.getLineAndCharacterOfPosition(node.getStart(file)).line + 1;
    blocks.push({ file, line, titles, statement, groups: group.groups, bodies: call.bodies, tables });
  };
  visit(file, { titles: [], groups: [], tables: [] });
  return blocks;
}

/** Reads `test(title, body)`, `test.each(table)(title, body)`, `test.skipIf(condition)(title, body)` and the like of `describe`. */
function testCall(call: ts.CallExpression) {
  const tables: ts.Node[] = [];
  let callee: ts.Expression = call.expression;
  if (ts.isCallExpression(callee)) {
    if (!ts.isPropertyAccessExpression(callee.expression)) return undefined;
    if (/^(each|for)$/.test(callee.expression.name.text)) tables.push(...callee.arguments);
    callee = callee.expression;
  } else if (ts.isTaggedTemplateExpression(callee)) callee = callee.tag;
  while (ts.isPropertyAccessExpression(callee)) callee = callee.expression;
  if (!ts.isIdentifier(callee) || !/^(test|it|describe)$/.test(callee.text)) return undefined;
  const [title, ...bodies] = call.arguments;
  // The inner call of `test.each(table)` has no body of its own.
  if (!bodies.some((body) => ts.isFunctionLike(body) || ts.isIdentifier(body))) return undefined;
  return { isGroup: callee.text === 'describe', title, bodies, tables };
}

function statementOf(node: ts.Node): ts.Node {
  let at = node;
  while (!ts.isStatement(at) && at.parent !== undefined && !ts.isArrowFunction(at.parent)) at = at.parent;
  return at;
}

/** A title as it is printed; what only the run knows is an ellipsis. */
function textOf(checker: ts.TypeChecker, title: ts.Expression): string {
  if (ts.isStringLiteralLike(title)) return title.text;
  if (!ts.isTemplateExpression(title)) return '…';
  return title.templateSpans.reduce((text, { expression, literal }) => {
    const place = figuresPlace(checker, expression);
    return text + ((place === undefined ? undefined : textAt(place)) ?? '…') + literal.text;
  }, title.head.text);
}
