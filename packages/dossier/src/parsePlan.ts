import { InputError } from '@finial/units';
import {
  findNodeAtLocation,
  getNodeValue,
  type Node,
  type ParseError,
  parseTree,
  printParseErrorCode,
} from 'jsonc-parser';
import type * as z from 'zod';
import { type Plan, planSchema } from './plan.js';

/** Longest plan that is read, in characters. */
const longestPlan = 1_000_000;
/** Most brackets within each other, far more than the format has: the tree is walked by functions that call themselves. */
const deepestPlan = 100;

/**
 * Reads a gateway plan from its JSON text and checks it against the plan format.
 *
 * Unknown keys are refused: a wrong unit in a key name (`frequencyMHz`) would otherwise pass as a missing value. A key that
 * stands twice is refused too, since JSON leaves open which one holds.
 *
 * @param planText - the JSON text; at most a million characters, at most 100 brackets within each other
 * @param options - `file`: name to show in refusals
 * @returns the plan, every value checked
 * @throws {@link InputError} `malformed-file` (no JSON, or a key twice), `missing`, `unknown-option`, `wrong-type`,
 * `not-a-finite-number` or `out-of-range`, each with the line and column of the value in question
 * @example What a wrong unit gets
 * ```ts
 * import { isInputError, parsePlan } from '@finial/dossier';
 *
 * try {
 *   parsePlan('{ "version": 2 }', { file: 'plan.json' });
 * } catch (error) {
 *   isInputError(error) && error.message; // → 'plan.json (line 1, column 14): version: expected 1, got 2'
 * }
 * ```
 */
export function parsePlan(planText: string, options: { readonly file?: string | undefined } = {}): Plan {
  const source = new PlanSource(planText, options.file);
  const tree = source.tree();
  const result = planSchema.safeParse(getNodeValue(tree), { reportInput: true });
  if (result.success) return result.data;
  throw source.refusal(tree, mostTelling(result.error.issues));
}

/**
 * Line and column of a value in the text of a plan, for a refusal that comes after reading: `node.uplink.dataRate`. Where the plan holds no
 * such value, it is the place of the nearest one around it.
 *
 * @returns nothing where the plan holds nothing of the path
 */
export function placeInPlan(
  planText: string,
  argument: string,
): { line: number; column: number } | undefined {
  const tree = parseTree(planText);
  const steps = argument.split(/[.[\]]+/).filter((step) => step !== '');
  const path = steps.map((step) => (/^\d+$/.test(step) ? Number(step) : step));
  for (let length = path.length; tree !== undefined && length > 0; length--) {
    const node = findNodeAtLocation(tree, path.slice(0, length));
    if (node !== undefined) return placeAt(planText, node.offset);
  }
  return undefined;
}

/** Unknown keys come first: a misspelt key also shows as a missing one, and the misspelling is what the person has to mend. */
function mostTelling(issues: readonly z.core.$ZodIssue[]): z.core.$ZodIssue {
  const chosen = issues.find(({ code }) => code === 'unrecognized_keys') ?? issues[0];
  if (chosen === undefined) throw new Error('a failed check without an issue');
  return chosen;
}

/** The text of a plan with the means to point into it. */
class PlanSource {
  constructor(
    private readonly text: string,
    private readonly file: string | undefined,
  ) {}

  /** The JSON as a tree with offsets; comments and trailing commas are not JSON and are refused. */
  tree(): Node {
    if (typeof this.text !== 'string') {
      throw new InputError({
        code: 'wrong-type',
        argument: 'planText',
        received: this.text,
        expected: 'a text',
      });
    }
    if (this.text.length > longestPlan) {
      const expected = `at most ${longestPlan} characters`;
      throw new InputError({
        code: 'out-of-range',
        argument: 'planText',
        received: this.text.length,
        expected,
        file: this.file,
      });
    }
    this.refuseDeepNesting();
    const errors: ParseError[] = [];
    const tree = parseTree(this.text, errors, { disallowComments: true, allowTrailingComma: false });
    const first = errors[0];
    if (first !== undefined) throw this.malformed(first.offset, `valid JSON (${inWords(first)})`);
    if (tree === undefined) throw this.malformed(0, 'a JSON object');
    this.refuseDoubleKeys(tree);
    return tree;
  }

  refusal(tree: Node, issue: z.core.$ZodIssue): InputError {
    const path = issue.path.map((step) => (typeof step === 'symbol' ? String(step) : step));
    if (issue.code === 'unrecognized_keys') return this.unknownKey(tree, path, issue.keys[0] ?? '');
    const node = findNodeAtLocation(tree, path);
    const argument = pathInWords(path);
    const received = issue.input;
    const place = this.placeOf(node ?? findNodeAtLocation(tree, path.slice(0, -1)) ?? tree);
    return new InputError({
      code: codeOf(issue, received),
      argument,
      received,
      expected: wanted(issue),
      ...place,
    });
  }

  private unknownKey(tree: Node, path: (string | number)[], key: string): InputError {
    const owner = findNodeAtLocation(tree, path) ?? tree;
    const property = owner.children?.find((child) => child.children?.[0]?.value === key);
    const accepted = keysAt(path);
    const near = accepted.find((name) => stem(name) === stem(key));
    return new InputError({
      code: 'unknown-option',
      argument: pathInWords([...path, key]),
      received: key,
      expected:
        near === undefined
          ? `one of the keys ${accepted.join(', ')}`
          : `the key ${near} (the unit is part of the name)`,
      ...this.placeOf(property ?? owner),
    });
  }

  private refuseDeepNesting(): void {
    let depth = 0;
    for (const { 0: token, index } of this.text.matchAll(/"(?:[^"\\\r\n]|\\.)*"?|[[\]{}]/g)) {
      if (token === '[' || token === '{') depth += 1;
      else if (token === ']' || token === '}') depth -= 1;
      if (depth > deepestPlan)
        throw this.malformed(index, `at most ${deepestPlan} brackets within each other`);
    }
  }

  private refuseDoubleKeys(node: Node): void {
    const seen = new Set<string>();
    for (const child of node.children ?? []) {
      const key = child.type === 'property' ? child.children?.[0] : undefined;
      if (key !== undefined) {
        // As a value it would be the object's prototype, whose keys pass for the object's own.
        if (key.value === '__proto__') throw this.malformed(key.offset, 'no key of this name');
        if (seen.has(key.value)) throw this.malformed(key.offset, `the key ${key.value} only once`);
        seen.add(key.value);
      }
      this.refuseDoubleKeys(child);
    }
  }

  private malformed(offset: number, expected: string): InputError {
    const rest = this.text.slice(offset, offset + 20).split('\n')[0] ?? '';
    const received = rest === '' ? 'the end of the text' : rest;
    return new InputError({
      code: 'malformed-file',
      argument: '',
      received,
      expected,
      ...this.placeAt(offset),
    });
  }

  private placeOf(node: Node): { file: string | undefined; line: number; column: number } {
    return this.placeAt(node.offset);
  }

  private placeAt(offset: number): { file: string | undefined; line: number; column: number } {
    return { file: this.file, ...placeAt(this.text, offset) };
  }
}

function placeAt(text: string, offset: number): { line: number; column: number } {
  const before = text.slice(0, offset);
  return { line: before.split('\n').length, column: offset - before.lastIndexOf('\n') };
}

function inWords(error: ParseError): string {
  const words = printParseErrorCode(error.error).replace(/([a-z])([A-Z])/g, '$1 $2');
  return words.toLowerCase();
}

function pathInWords(path: readonly (string | number)[]): string {
  return path.reduce<string>((sofar, step) => {
    if (typeof step === 'number') return `${sofar}[${step}]`;
    return sofar === '' ? step : `${sofar}.${step}`;
  }, '');
}

/** A key without its unit: what is left when the last capitalised word goes, so that `frequencyMHz` meets `frequencyHz`. */
function stem(key: string): string {
  return key.replace(/(MHz|GHz|kHz|KHz|[A-Z][a-z0-9]*)$/, '').toLowerCase();
}

function codeOf(issue: z.core.$ZodIssue, received: unknown): InputError['code'] {
  if (received === undefined) return 'missing';
  switch (issue.code) {
    case 'too_big':
    case 'too_small':
      return 'out-of-range';
    case 'invalid_value':
      return 'unknown-option';
    case 'invalid_type':
      return issue.expected === 'number' ? 'not-a-finite-number' : 'wrong-type';
    default:
      return 'wrong-type';
  }
}

/** What was expected at this place, in words. */
function wanted(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case 'invalid_type':
      return issue.expected === 'int' ? 'a whole number' : `a value of type ${issue.expected}`;
    case 'invalid_value':
      return issue.values.map(String).join(' or ');
    case 'too_small':
      return issue.origin === 'string' ? 'a text that is not empty' : `${issue.minimum} or more`;
    case 'too_big':
      return issue.origin === 'string' ? `at most ${issue.maximum} characters` : `${issue.maximum} or less`;
    default:
      return issue.message;
  }
}

/** The keys that the plan format knows at a path. */
function keysAt(path: readonly (string | number)[]): readonly string[] {
  let schema: unknown = planSchema;
  for (const step of path) {
    const inner = unwrapped(schema);
    schema = typeof step === 'number' ? inner.def?.element : inner.shape?.[step];
  }
  return Object.keys(unwrapped(schema).shape ?? {});
}

interface SchemaNode {
  readonly shape?: Readonly<Record<string, unknown>>;
  readonly def?: { readonly innerType?: unknown; readonly element?: unknown };
}

function unwrapped(schema: unknown): SchemaNode {
  let node = schema as SchemaNode;
  while (node?.def?.innerType !== undefined) node = node.def.innerType as SchemaNode;
  return node ?? {};
}
