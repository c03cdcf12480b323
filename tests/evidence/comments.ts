import ts from 'typescript';

/** A comment of a source file, with the lines that continue it. */
export interface Comment {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

const known = new WeakMap<ts.SourceFile, readonly Comment[]>();

/** The comments of a file in order; each file is looked through once. */
export function commentsOf(source: ts.SourceFile): readonly Comment[] {
  const before = known.get(source);
  if (before !== undefined) return before;
  const ranges = new Map<number, number>();
  const visit = (node: ts.Node): void => {
    for (const find of [
      ts.getLeadingCommentRanges(source.text, node.pos),
      ts.getTrailingCommentRanges(source.text, node.end),
    ]) {
      for (const { pos, end } of find ?? []) ranges.set(pos, end);
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  const comments: Comment[] = [];
  for (const [start, end] of [...ranges].sort(([a], [b]) => a - b)) {
    const text = source.text
      .slice(start, end)
      .replace(/^\/\/+|^\/\*+|\*+\/$/g, '')
      .replace(/^\s*\* ?/gm, '')
      .trim();
    const last = comments.at(-1);
    if (last !== undefined && /^[ \t]*\r?\n[ \t]*$/.test(source.text.slice(last.end, start))) {
      comments[comments.length - 1] = { start: last.start, end, text: `${last.text} ${text}` };
    } else comments.push({ start, end, text });
  }
  known.set(source, comments);
  return comments;
}

/** The comments that stand right above a statement, inside it, or behind it on its last line. */
export function commentsAt(statement: ts.Node): readonly string[] {
  const source = statement.getSourceFile();
  const [, lineEnd = statement.end] = [0, source.text.indexOf('\n', statement.end)];
  const to = lineEnd < 0 ? source.text.length : lineEnd;
  return commentsOf(source)
    .filter(({ start }) => start >= statement.pos && start < to)
    .filter(({ start, end }) => start > statement.getStart(source) || isRightAbove(source, end, statement))
    .map(({ text }) => text);
}

/** The comments right above a statement. */
export function commentsAbove(statement: ts.Node): readonly string[] {
  const source = statement.getSourceFile();
  return commentsOf(source)
    .filter(({ start, end }) => start >= statement.pos && end <= statement.getStart(source))
    .filter(({ end }) => isRightAbove(source, end, statement))
    .map(({ text }) => text);
}

/** No blank line between. A comment behind the statement before stands on that one's line. */
function isRightAbove(source: ts.SourceFile, end: number, statement: ts.Node): boolean {
  return !/\n\s*\n/.test(source.text.slice(end, statement.getStart(source)));
}
