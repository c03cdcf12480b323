// @ts-check
// The page "Sources": for each public function what it rests on and what it is held against. Reads sources and tests, no build.
import { registerHooks } from 'node:module';

/** @import { Check, Evidence } from '../../tests/evidence/evidence.js' */
/** @import { Reason, Reasons } from '../../tests/evidence/Reason.js' */

// The tests are TypeScript that names its neighbours by their later ending; Node takes the types away but not the ending.
registerHooks({
  resolve(specifier, context, next) {
    try {
      return next(specifier, context);
    } catch (error) {
      if (!specifier.startsWith('.') || !specifier.endsWith('.js')) throw error;
      return next(specifier.replace(/\.js$/, '.ts'), context);
    }
  },
});
const { evidence, programOfTests } = await import('../../tests/evidence/evidence.js');
const { shortened } = await import('../../tests/evidence/citations.js');
const { withoutOutside } = await import('../../tests/evidence/withoutOutside.js');
const { withoutProperty } = await import('../../tests/evidence/withoutProperty.js');

const shownChecks = 3;
const titleLength = 90;
const sourceLength = 160;

/**
 * The page as Markdown.
 *
 * @returns {string}
 * @throws {Error} where a function has neither evidence nor a reason
 */
export function sourcesPage() {
  return pageOf(evidence(programOfTests()), { outside: withoutOutside, properties: withoutProperty });
}

/**
 * The page for given evidence.
 *
 * @param {readonly Evidence[]} all
 * @param {{ readonly outside: Reasons, readonly properties: Reasons }} reasons
 * @returns {string}
 */
export function pageOf(all, reasons) {
  const packages = [...new Set(all.map(({ documented }) => documented.packageName))].sort();
  const missing = all.flatMap((one) => missingIn(one, reasons));
  if (missing.length > 0) throw new Error(`without evidence and without a reason:\n${missing.join('\n')}`);
  const of = (/** @type {string} */ name) => all.filter(({ documented }) => documented.packageName === name);
  return [
    introduction,
    totals(packages.map((name) => [name, of(name)])),
    ...packages.map((name) => [`## ${name}`, ...of(name).map((one) => section(one, reasons))].join('\n\n')),
    '',
  ].join('\n\n');
}

const introduction = `---
title: Sources
outline: 2
editLink: false
---

# Sources

This page is written from the code each time the site is built. For every public function it shows three things:

- **Source**: the document, edition and clause that its comment names.
- **Held against**: tests that compare it with figures from outside the project, with the source that the test names. "From memory"
  means that the figure was not read again. "Data beside the repository" are files that are not ours to publish; where they are
  absent those tests are skipped and say so.
- **Properties**: tests that try it with many random inputs and check what must always hold.

A test counts for a function of its own package that it calls, itself or through what else the test files declare. So a test may stand
under a function that it only needs on the way; those that name the function come first. Where a function has no such test, the reason
stands in its place. A function with neither stops the build.`;

/**
 * @param {readonly (readonly [string, readonly Evidence[]])[]} packages
 * @returns {string}
 */
function totals(packages) {
  const row = (/** @type {string} */ head, /** @type {readonly Evidence[]} */ all) => {
    const outside = all.filter((one) => one.outside.length > 0).length;
    const properties = all.filter((one) => one.properties.length > 0).length;
    return `| ${head} | ${all.length} | ${outside} | ${properties} |`;
  };
  return [
    '| package | functions | held against outside figures | with property tests |',
    '| --- | ---: | ---: | ---: |',
    ...packages.map(([name, all]) => row(`[${name}](#${name})`, all)),
    row(
      'all',
      packages.flatMap(([, all]) => all),
    ),
  ].join('\n');
}

/**
 * @param {Evidence} one
 * @param {{ readonly outside: Reasons, readonly properties: Reasons }} reasons
 * @returns {string}
 */
function section({ documented, outside, properties, part }, reasons) {
  const { packageName, name, summary, source } = documented;
  const reasonOf = (/** @type {Reasons} */ all) => all[packageName]?.[name];
  return [
    `### ${linkedName(documented)} {#${anchor(packageName, name)}}`,
    escaped(summary),
    [
      `- Source: ${source === '' ? 'none named' : escaped(source)}`,
      outside.length > 0
        ? `- Held against:\n${list(outside, checked)}`
        : `- Held against no outside figure: ${given(reasonOf(reasons.outside), (name) => part(name)?.outside ?? [])}`,
      properties.length > 0
        ? `- Properties, ${counted(properties.length, 'test')}:\n${list(properties, ({ title }) => shown(title, titleLength))}`
        : `- No property test: ${given(reasonOf(reasons.properties), (name) => part(name)?.properties ?? [])}`,
    ].join('\n'),
  ].join('\n\n');
}

/**
 * @param {readonly Check[]} checks
 * @param {(check: Check) => string} written
 * @returns {string}
 */
function list(checks, written) {
  const named = [...checks].sort((a, b) => Number(b.isNamed) - Number(a.isNamed));
  const lines = [...new Set(named.map(written))];
  const more = lines.length - shownChecks;
  return [...lines.slice(0, shownChecks), ...(more > 0 ? [`and ${more} more`] : [])]
    .map((line) => `  - ${line}`)
    .join('\n');
}

/** @type {(check: Check) => string} */
function checked({ title, sources }) {
  const texts = sources.slice(0, 2).map((source) => shown(source.replace(/^Sources?: /, ''), sourceLength));
  // The title of a test is often its source.
  const own = sources.some((source) => title.includes(source));
  return own && texts.length === 1
    ? shown(title, sourceLength)
    : `${texts.join('; ')} (test: ${shown(title, titleLength)})`;
}

/**
 * @param {Reason | undefined} reason
 * @param {(name: string) => readonly Check[]} checksOf
 * @returns {string}
 */
function given(reason, checksOf) {
  const parts = (reason?.parts ?? []).map(
    (name) => `\`${name}\` (${counted(checksOf(name).length, 'test')})`,
  );
  return escaped(reason?.because ?? '') + (parts.length === 0 ? '.' : `; see ${parts.join(', ')}.`);
}

/**
 * What is wrong with the evidence for a function: nothing, or a line for each kind that it lacks without a reason.
 *
 * @param {Evidence} one
 * @param {{ readonly outside: Reasons, readonly properties: Reasons }} reasons
 * @returns {readonly string[]}
 */
function missingIn({ documented: { packageName, name }, outside, properties }, reasons) {
  const lacks = (/** @type {readonly Check[]} */ checks, /** @type {Reasons} */ all) =>
    checks.length === 0 && all[packageName]?.[name] === undefined;
  return [
    ...(lacks(outside, reasons.outside) ? [`${packageName} ${name}: a figure from outside`] : []),
    ...(lacks(properties, reasons.properties) ? [`${packageName} ${name}: a property test`] : []),
  ];
}

/**
 * The name with a link to the page that TypeDoc writes: only the package itself has pages, its subpaths have none.
 *
 * @param {Evidence['documented']} documented
 * @returns {string}
 */
function linkedName({ packageName, name, specifier }) {
  const [last, ...spaces] = name.split('.').reverse();
  const folder = spaces.reverse().map((space) => `namespaces/${space}/`);
  const module = moduleFolders.get(specifier) ?? '';
  const link = `[${name}](/api/@finial/${packageName}/${module}${folder.join('')}functions/${last}.md)`;
  return specifier === `@finial/${packageName}` ? link : `${link} (from ${specifier})`;
}

/** Packages with more than one entry have a folder for each among the pages of the API. */
const moduleFolders = new Map([
  ['@finial/propagation', 'index/'],
  ['@finial/propagation/export', 'export/'],
  ['@finial/propagation/sweepWorker', 'sweep/workers/'],
  ['@finial/terrain', 'index/'],
  ['@finial/terrain/node', 'node/'],
]);

/** @type {(packageName: string, name: string) => string} */
function anchor(packageName, name) {
  return `${packageName}-${name}`.replace(/[^\w-]/g, '-').toLowerCase();
}

/** @type {(count: number, word: string) => string} */
function counted(count, word) {
  return `${count} ${word}${count === 1 ? '' : 's'}`;
}

/** Placeholders of a table of tests, `$name` or `%s`, say nothing here. @type {(text: string, length: number) => string} */
function shown(text, length) {
  const plain = text.replace(/%[sdijfo]|\$[\w.]+/g, '…').replace(/…(?:[\s,/:]+…)+/g, '…');
  return escaped(shortened(plain.replace(/^[\s:,]+|[\s:,]+$/g, ''), length));
}

/**
 * Text that means nothing to Markdown, HTML or the interpolation of Vue.
 *
 * @param {string} text
 * @returns {string}
 */
export function escaped(text) {
  return (
    text
      .replace(/\s+/g, ' ')
      .replace(/[\\`*_[\]{}<>|~&]/g, (sign) => `&#${sign.charCodeAt(0)};`)
      // Vue looks at what Markdown has made of it: two braces must not meet there, so a word joiner keeps them apart.
      .replace(/(&#12[35];)(?=&#12[35];)/g, '$1&#8288;')
      // What begins a line may look like a list, a heading or a quotation; a file with an ending like the web's is no address.
      .replace(/^([-+=#]|\d+(?=[.)]))/, '$1&#8288;')
      .replace(/(?<!\S*:\/\/\S*)(?<=\w\.)(?=[a-z]{2,4}\b)/g, '&#8288;')
  );
}
