import ts from 'typescript';
import { describe, expect, test } from 'vitest';
import { escaped, pageOf } from '../docs/generate/sources.js';
import { citationIn, citationInTitle } from './evidence/citations.js';
import type { DocumentedFunction } from './evidence/documentedFunctions.js';
import { type Evidence, evidence, evidenceIn, programOfTests } from './evidence/evidence.js';
import type { Reasons } from './evidence/Reason.js';
import { withoutOutside } from './evidence/withoutOutside.js';
import { withoutProperty } from './evidence/withoutProperty.js';
import { compilerOptions, root, workspacePackages } from './support/workspace.js';

const found = evidence(programOfTests());
const kinds = [
  { kind: 'outside', title: 'a figure from outside', reasons: withoutOutside },
  { kind: 'properties', title: 'a property test', reasons: withoutProperty },
] as const;

const nameOf = ({ documented }: Evidence) => `${documented.packageName} ${documented.name}`;
const reasonFor = (reasons: Reasons, { documented }: Evidence) =>
  reasons[documented.packageName]?.[documented.name];

test('every package has functions', () => {
  const names = new Set(found.map(({ documented }) => documented.packageName));
  expect([...names].sort()).toEqual(workspacePackages().map(({ shortName }) => shortName));
});

describe.each(kinds)('every public function has $title, or a reason', ({ kind, reasons }) => {
  test('none has neither', () => {
    const bare = found.filter((one) => one[kind].length === 0 && reasonFor(reasons, one) === undefined);
    expect(bare.map(nameOf), 'add the evidence, or the reason to tests/evidence').toEqual([]);
  });

  test('no reason is left for a function that has it', () => {
    const settled = found.filter((one) => one[kind].length > 0 && reasonFor(reasons, one) !== undefined);
    expect(settled.map(nameOf)).toEqual([]);
  });

  test('every reason belongs to a function', () => {
    const names = new Set(found.map(nameOf));
    const given = Object.entries(reasons).flatMap(([packageName, all]) =>
      Object.keys(all).map((name) => `${packageName} ${name}`),
    );
    expect(given.filter((name) => !names.has(name))).toEqual([]);
  });

  test('what stands for another has evidence of its own', () => {
    const parts = found.flatMap((one) =>
      (reasonFor(reasons, one)?.parts ?? []).map(
        (part) => [`${nameOf(one)}: ${part}`, one.part(part)] as const,
      ),
    );
    const empty = parts.filter(([, checks]) => (checks?.[kind] ?? []).length === 0);
    expect(empty.map(([name]) => name)).toEqual([]);
  });
});

describe('the page', () => {
  const whole = () => pageOf(found, { outside: withoutOutside, properties: withoutProperty });

  test('shows every function once, and stays small', () => {
    const page = whole();
    expect(page.match(/^### /gm)).toHaveLength(found.length);
    const anchors = page.match(/\{#[\w-]+\}$/gm) ?? [];
    expect(new Set(anchors).size).toBe(found.length);
    expect(page.length).toBeLessThan(250_000);
  });

  test('is not written where a function has neither evidence nor reason', () => {
    const [first] = found.filter(({ outside }) => outside.length === 0);
    if (first === undefined) return;
    expect(() => pageOf([first], { outside: {}, properties: withoutProperty })).toThrow(
      `${nameOf(first)}: a figure from outside`,
    );
  });

  test('leaves nothing to Markdown, HTML or Vue', () => {
    expect(escaped('{{ x }} <b> a_b `d` [e] | &')).toBe(
      '&#123;&#8288;&#123; x &#125;&#8288;&#125; &#60;b&#62; a&#95;b &#96;d&#96; &#91;e&#93; &#124; &#38;',
    );
    expect(escaped('1. a list')).toBe('1&#8288;. a list');
    const outsideCode = whole()
      .replace(/`[^`]*`/g, '')
      .replace(/^### .*$/gm, '');
    expect(outsideCode).not.toMatch(/\{\{|<[a-z]/i);
  });
});

// The finder itself: a test that cannot fail proves nothing.
describe('a citation', () => {
  test.each([
    'Rec. ITU-R P.526-16 (11/2025), section 4.1',
    'IEC 61169-16, table 1',
    'EN 300 220-2 table B.1',
    'ERC/REC 70-03, annex 1',
    '47 CFR 15.247(b)(3)',
    'Okumura and Hata 1980 have it so',
    'E. S. Page (1954)',
    'RFC 7946, section 3.1.6',
    'by the data sheet of the cable',
    'D. M. Pozar, Microwave Engineering, 4th edition',
    'a NEC-2 solver says 2.1 dBi',
    'RP002-1.0.4, table 5',
    'NIST StRD, Norris',
  ])('%s', (text) => {
    expect(citationIn(text)).toBe(text);
    expect(citationIn(`Why this is so. ${text}`)).toContain(text.slice(-12));
  });

  test.each([
    'as long as the mast is high',
    'in January 2024 it rained',
    'the sum of 2000 rows',
    'twice the power is 3 dB more',
    'IP65 is enough',
  ])('none: %s', (text) => {
    expect(citationIn(text)).toBeUndefined();
  });

  test('a title that only names a model cites nothing', () => {
    expect(citationInTitle('the sweep of P.526 equals the point-to-point function')).toBeUndefined();
    expect(citationInTitle('against P.833')).toBe('against P.833');
    expect(citationInTitle('a published value')).toBeUndefined();
  });

  test('only the sentence that cites is taken', () => {
    expect(citationIn('A trap. Rec. ITU-R P.372, section 2: 204 dB. Mind the sign.')).toBe(
      'Rec. ITU-R P.372, section 2: 204 dB.',
    );
  });
});

describe('the finder', () => {
  const library = `
    export function half(x: number): number { return x / 2; }
    export function twice(x: number): number { return 2 * x; }
    export function bare(x: number): number { return x; }
  `;

  test.each<[string, string, readonly string[], readonly string[]]>([
    ['a comment above', "// NIST SP 811\ntest('x', () => { expect(half(3)).toBe(1.5); });", ['half'], []],
    ['a comment inside', "test('x', () => {\n// RFC 1234\nexpect(half(3)).toBe(1.5); });", ['half'], []],
    ['no source', "test('x', () => { expect(half(3)).toBe(1.5); });", [], []],
    ['a refusal', "// NIST SP 811\ntest('x', () => { expect(() => half(3)).toThrow(); });", [], []],
    [
      'a table elsewhere, with its comment',
      "// ISO 80000-3\nconst rows = [[3, 1.5]];\ntest.each(rows)('%d', (a, b) => expect(half(a)).toBe(b));",
      ['half'],
      [],
    ],
    [
      'the text of a row',
      "test.each([[35, 'IEC 60228']])('%d', (a) => expect(half(a)).toBe(1));",
      ['half'],
      [],
    ],
    [
      'the group around, for a test with a figure',
      "describe('against RFC 1234', () => { test('a', () => expect(half(35)).toBe(17.5)); test('b', () => expect(twice(1)).toBe(2)); });",
      ['half'],
      [],
    ],
    [
      'a blank line parts a comment from the test',
      "// NIST SP 811\n\ntest('x', () => { expect(half(3)).toBe(1.5); });",
      [],
      [],
    ],
    [
      'a helper',
      "const quarter = (x: number) => half(half(x));\n// RFC 1234\ntest('x', () => { expect(quarter(3)).toBe(0.75); });",
      ['half'],
      [],
    ],
    ['a namespace', "// RFC 1234\ntest('x', () => { expect(all.twice(3)).toBe(6); });", ['twice'], []],
    [
      'properties, also through a helper',
      "const holds = () => { const up = (x: number) => twice(x); fc.assert(fc.property(fc.double(), (x) => half(up(x)) === x)); };\ntest('x', () => holds());",
      [],
      ['half', 'twice'],
    ],
    [
      'names that only the run knows',
      "const calls = { half: 1, twice: 2 };\ntest.each(Object.keys(calls))('%s', (name) => fc.assert(fc.property(fc.double(), (x) => all[name](x) > 0)));",
      [],
      ['half', 'twice'],
    ],
    [
      'a property is no outside check',
      "// RFC 1234\ntest('x', () => fc.assert(fc.property(fc.double(), (x) => expect(half(x)).toBe(x / 2))));",
      [],
      ['half'],
    ],
    [
      'a name in a type is no call',
      "// RFC 1234\ntest('x', () => { expect(1 as ReturnType<typeof half>).toBe(1); });",
      [],
      [],
    ],
    ['figures of the reference', "test('x', () => { expect(half(1)).toBe(vectors.awg[0]); });", ['half'], []],
  ])('%s', (_, body, outside, properties) => {
    const found = evidenceOf(library, body);
    expect(found.filter((one) => one.outside.length > 0).map(({ documented }) => documented.name)).toEqual(
      outside,
    );
    expect(found.filter((one) => one.properties.length > 0).map(({ documented }) => documented.name)).toEqual(
      properties,
    );
  });

  test('figures of the reference bring their stated source', () => {
    const [half] = evidenceOf(
      library,
      "test('x', () => { expect(half(1)).toBe(vectors.dewPointRoundTable.rows[0]); });",
    );
    expect(half?.outside[0]?.sources[0]).toContain('(reference/hardware-vectors.json)');
  });

  function evidenceOf(text: string, body: string): readonly Evidence[] {
    const folder = `${root}/packages/units`.split('\\').join('/');
    const head = [
      "import fc from 'fast-check';",
      "import vectors from '../../../tests/reference/hardware-vectors.json';",
      "import * as all from '../src/virtual.js';",
      "import { half, twice } from '../src/virtual.js';",
      'declare const test: any, describe: any, expect: any;',
    ];
    const files = new Map([
      [`${folder}/src/virtual.ts`, text],
      [`${folder}/test/virtual.test.ts`, `${head.join('\n')}\n\n${body}`],
    ]);
    const host = ts.createCompilerHost({ ...compilerOptions(), noLib: true });
    const { fileExists, getSourceFile } = host;
    host.fileExists = (name) => files.has(name) || fileExists(name);
    host.getSourceFile = (name, target, ...rest) => {
      const virtual = files.get(name);
      if (virtual !== undefined) return ts.createSourceFile(name, virtual, target, true);
      return name.endsWith('.json') ? getSourceFile(name, target, ...rest) : undefined;
    };
    const program = ts.createProgram(
      [...files.keys()],
      { ...compilerOptions(), noLib: true, types: [] },
      host,
    );
    const checker = program.getTypeChecker();
    const source = program.getSourceFile(`${folder}/src/virtual.ts`) as ts.SourceFile;
    const module = checker.getSymbolAtLocation(source) as ts.Symbol;
    const documented = checker.getExportsOfModule(module).map(
      (symbol): DocumentedFunction => ({
        packageName: 'units',
        name: symbol.name,
        specifier: '@finial/units',
        summary: '',
        source: '',
        symbol,
      }),
    );
    return evidenceIn(checker, documented, [
      program.getSourceFile(`${folder}/test/virtual.test.ts`) as ts.SourceFile,
    ]);
  }
});
