import { join } from 'node:path';
import ts from 'typescript';
import { compilerOptions, root } from '../support/workspace.js';

/** One example, as a reader sees it. */
export interface Fence {
  readonly file: string;
  /** Line of the file on which the code begins, counted from 1. */
  readonly line: number;
  readonly code: string;
}

/** A line of an example that states its result. */
export interface Assertion {
  readonly id: number;
  /** Line of the file that holds it. */
  readonly line: number;
  readonly kind: 'nearly' | 'same';
  /** What stands behind the sign. */
  readonly wanted: string;
}

/** The `ts` fences of a Markdown file, or of the doc comments of a TypeScript file. */
export function docExamples(file: string, text: string): readonly Fence[] {
  const lines = text.split(/\r?\n/);
  const readable = file.endsWith('.md') ? lines : commentLines(lines);
  const fences: Fence[] = [];
  let code: string[] | undefined;
  let begins = 0;
  readable.forEach((line, index) => {
    if (code === undefined && /^\s*```ts\b/.test(line ?? '')) {
      code = [];
      begins = index + 2;
    } else if (code !== undefined && (line === undefined || /^\s*```\s*$/.test(line))) {
      fences.push({ file, line: begins, code: code.join('\n') });
      code = undefined;
    } else code?.push(line ?? '');
  });
  if (code !== undefined) throw new Error(`${file}:${begins}: the fence is not closed`);
  return fences;
}

/** The text of doc comments, line by line; `undefined` for a line of code, so that line numbers stay. */
function commentLines(lines: readonly string[]): (string | undefined)[] {
  let inside = false;
  return lines.map((line) => {
    if (!inside) {
      inside = /^\s*\/\*\*(?!.*\*\/)/.test(line);
      return undefined;
    }
    if (line.includes('*/')) {
      inside = false;
      return undefined;
    }
    return line.replace(/^\s*\* ?/, '');
  });
}

interface Edit {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/** The example as the text of an async function `example` that imports through `load` and reports to `nearly` and `same`. */
export function runnable(fence: Fence): {
  readonly javaScript: string;
  readonly assertions: readonly Assertion[];
} {
  const source = ts.createSourceFile('example.ts', fence.code, ts.ScriptTarget.ESNext, true);
  const comments = assertionComments(fence, source);
  const edits: Edit[] = [];
  const assertions: Assertion[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node)) edits.push(importEdit(node, source));
    if (ts.isExpressionStatement(node) || ts.isVariableStatement(node)) {
      const comment = comments.find(
        ({ start }) => start >= node.end && isRightBehind(source, node.end, start),
      );
      if (comment !== undefined && !assertions.includes(comment.assertion)) {
        assertions.push(comment.assertion);
        edits.push(assertionEdit(node, comment.assertion, source));
      }
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  for (const { assertion } of comments) {
    if (!assertions.includes(assertion)) {
      throw new Error(
        `line ${assertion.line}: no expression ends before ${JSON.stringify(assertion.wanted)}`,
      );
    }
  }
  return { javaScript: transpiled(applied(fence.code, edits), fence), assertions };
}

/** A long result may stand on a line of its own, right below the expression. */
function isRightBehind(source: ts.SourceFile, end: number, start: number): boolean {
  return /^[ \t]*\r?\n?[ \t]*$/.test(source.text.slice(end, start));
}

/** The comments that begin with ≈ or →, each with the comment lines that continue it. */
function assertionComments(
  fence: Fence,
  source: ts.SourceFile,
): readonly { readonly start: number; readonly assertion: Assertion }[] {
  const lines = fence.code.split('\n');
  return lines.flatMap((line, index) => {
    const match = /\/\/ ([≈→]) (.*)$/u.exec(line);
    if (match === null) return [];
    let wanted = match[2] ?? '';
    if (match[1] === '→') {
      for (let next = index + 1; !isExpression(wanted); next++) {
        const more = /^\s*\/\/ (?![≈→])(.*)$/u.exec(lines[next] ?? '');
        if (more === null) {
          throw new Error(`line ${fence.line + index}: ${JSON.stringify(wanted)} is no expression`);
        }
        wanted += `\n${more[1]}`;
      }
    }
    const kind = match[1] === '≈' ? 'nearly' : 'same';
    const start = source.getPositionOfLineAndCharacter(index, match.index);
    return [{ start, assertion: { id: index, line: fence.line + index, kind, wanted } }];
  });
}

function isExpression(text: string): boolean {
  const { diagnostics = [] } = ts.transpileModule(`(${text});`, { reportDiagnostics: true });
  return diagnostics.length === 0;
}

function assertionEdit(
  node: ts.ExpressionStatement | ts.VariableStatement,
  { id, kind, wanted }: Assertion,
  source: ts.SourceFile,
): Edit {
  const rest = kind === 'nearly' ? '' : `, (${wanted})`;
  if (ts.isExpressionStatement(node)) {
    // The comma keeps what the expression itself needs to be a statement, such as brackets around an object.
    const text = `${kind}(${id}, (${node.expression.getText(source)})${rest});`;
    return { start: node.getStart(source), end: node.end, text };
  }
  const [declaration, ...others] = node.declarationList.declarations;
  if (declaration === undefined || others.length > 0 || !ts.isIdentifier(declaration.name)) {
    throw new Error(`an assertion behind ${node.getText(source)} needs one plain name`);
  }
  return { start: node.end, end: node.end, text: ` ${kind}(${id}, ${declaration.name.text}${rest});` };
}

function importEdit(node: ts.ImportDeclaration, source: ts.SourceFile): Edit {
  const from = node.moduleSpecifier.getText(source);
  const clause = node.importClause;
  const typeOnly = clause?.phaseModifier === ts.SyntaxKind.TypeKeyword;
  const bindings = clause?.namedBindings;
  const names: string[] = [];
  if (clause?.name !== undefined) names.push(`default: ${clause.name.text}`);
  if (bindings !== undefined && ts.isNamedImports(bindings)) {
    for (const { isTypeOnly, propertyName, name } of bindings.elements) {
      if (!isTypeOnly)
        names.push(propertyName === undefined ? name.text : `${propertyName.text}: ${name.text}`);
    }
  }
  const namespace = bindings !== undefined && ts.isNamespaceImport(bindings) ? bindings.name.text : undefined;
  const text = typeOnly ? '' : `const ${namespace ?? `{ ${names.join(', ')} }`} = await load(${from});`;
  // A name that the module lacks would only be undefined here; the type check of the examples refuses it by name.
  const guards = namespace === undefined && !typeOnly ? names.map(guardOf).join('') : '';
  return { start: node.getStart(source), end: node.end, text: text + guards };
}

function guardOf(binding: string): string {
  const [name = '', local = name] = binding.split(': ');
  return ` if (${local} === undefined) throw new Error('${name} is not exported');`;
}

function applied(code: string, edits: readonly Edit[]): string {
  return [...edits]
    .sort((a, b) => b.start - a.start)
    .reduce((text, { start, end, text: by }) => text.slice(0, start) + by + text.slice(end), code);
}

function transpiled(code: string, fence: Fence): string {
  const { outputText, diagnostics = [] } = ts.transpileModule(`async function example() {\n${code}\n}`, {
    reportDiagnostics: true,
    compilerOptions: { target: ts.ScriptTarget.ESNext, module: ts.ModuleKind.ESNext, removeComments: true },
  });
  const [first] = diagnostics;
  if (first !== undefined) {
    throw new Error(
      `${fence.file}:${fence.line}: ${ts.flattenDiagnosticMessageText(first.messageText, '\n')}`,
    );
  }
  return outputText;
}

/** What the compiler says against the examples, all in one program, by file and line. */
export function typeFaults(fences: readonly Fence[]): readonly string[] {
  const folder = join(root, 'tests', 'docExamples').split('\\').join('/');
  const virtual = new Map(fences.map((fence, index) => [`${folder}/virtual${index}.ts`, fence]));
  const options = { ...compilerOptions(), noEmit: true, noUnusedLocals: false, noUnusedParameters: false };
  const host = ts.createCompilerHost(options);
  const { fileExists, getSourceFile } = host;
  host.fileExists = (name) => virtual.has(name) || fileExists(name);
  host.getSourceFile = (name, target, ...rest) => {
    const fence = virtual.get(name);
    return fence === undefined
      ? getSourceFile(name, target, ...rest)
      : ts.createSourceFile(name, fence.code, target);
  };
  const program = ts.createProgram([...virtual.keys()], options, host);
  return [...virtual].flatMap(([name, fence]) => {
    const source = program.getSourceFile(name);
    const faults = [...program.getSyntacticDiagnostics(source), ...program.getSemanticDiagnostics(source)];
    return faults.map(({ start = 0, messageText }) => {
      const line = fence.code.slice(0, start).split('\n').length - 1;
      return `${fence.file}:${fence.line + line}: ${ts.flattenDiagnosticMessageText(messageText, ' ')}`;
    });
  });
}
