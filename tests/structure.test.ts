import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { builtinModules } from 'node:module';
import { dirname, join, relative, resolve, sep } from 'node:path';
import ts from 'typescript';
import { describe, expect, test } from 'vitest';
import { filesBelow, root, shown, type WorkspacePackage, workspacePackages } from './support/workspace.js';

/** Which package may use which, besides itself. Data flows one way; a new arrow is a decision and belongs in this table. */
const arrows: Readonly<Record<string, readonly string[]>> = {
  units: [],
  radio: ['units'],
  lora: ['units', 'radio'],
  antenna: ['units', 'radio'],
  feedline: ['units', 'radio'],
  site: ['units', 'radio'],
  terrain: ['units'],
  propagation: ['units', 'radio', 'terrain'],
  survey: ['units', 'radio', 'lora'],
  dossier: ['units', 'radio', 'lora', 'antenna', 'feedline', 'site', 'terrain', 'propagation', 'survey'],
};

/** Packages of plain mathematics: nothing but the family below them. */
const withoutForeignDependencies = ['units', 'radio', 'lora', 'antenna', 'feedline', 'site'];

const packages = workspacePackages();
const rows = packages.map((found) => [found.shortName, found] as const);

interface Import {
  readonly file: string;
  readonly specifier: string;
}

function importsOf(file: string): readonly Import[] {
  const { importedFiles } = ts.preProcessFile(readFileSync(file, 'utf8'), true, true);
  return importedFiles.map(({ fileName }) => ({ file, specifier: fileName }));
}

function sourceImports({ folder }: WorkspacePackage): readonly Import[] {
  return filesBelow(join(folder, 'src'), '.ts').flatMap(importsOf);
}

/** `@finial/lora` of `@finial/lora/regions/eu868`, `zod` of `zod/mini`; nothing of a relative path. */
function packageNameOf(specifier: string): string | undefined {
  if (specifier.startsWith('.')) return undefined;
  return specifier
    .split('/')
    .slice(0, specifier.startsWith('@') ? 2 : 1)
    .join('/');
}

function isNodeModule(name: string): boolean {
  return name.startsWith('node:') || builtinModules.includes(name);
}

function told({ file, specifier }: Import): string {
  return `${shown(file)} imports ${specifier}`;
}

describe('arrows between packages', () => {
  test('every package has its row in the table', () => {
    expect(packages.map(({ shortName }) => shortName).filter((name) => !(name in arrows))).toEqual([]);
  });

  test.each(rows)('%s depends only downwards', (shortName, { manifest }) => {
    const family = Object.keys(manifest.dependencies ?? {}).filter((name) => name.startsWith('@finial/'));
    const allowed = (arrows[shortName] ?? []).map((name) => `@finial/${name}`);
    expect(family.filter((name) => !allowed.includes(name))).toEqual([]);
  });

  test('the table has no cycle', () => {
    const order: string[] = [];
    for (let round = 0; round < Object.keys(arrows).length; round++) {
      for (const [name, needs] of Object.entries(arrows)) {
        if (!order.includes(name) && needs.every((need) => order.includes(need))) order.push(name);
      }
    }
    expect(Object.keys(arrows).filter((name) => !order.includes(name))).toEqual([]);
  });

  test.each(rows)('%s declares what it imports', (_, found) => {
    const declared = new Set(Object.keys(found.manifest.dependencies ?? {}));
    const undeclared = sourceImports(found).filter(({ specifier }) => {
      const name = packageNameOf(specifier);
      return name !== undefined && !isNodeModule(name) && !declared.has(name);
    });
    expect(undeclared.map(told)).toEqual([]);
  });

  test.each(rows)('%s imports every dependency that it declares', (_, found) => {
    const used = new Set(sourceImports(found).map(({ specifier }) => packageNameOf(specifier)));
    expect(Object.keys(found.manifest.dependencies ?? {}).filter((name) => !used.has(name))).toEqual([]);
  });

  test.each(rows)('%s imports only what another package exports', (_, found) => {
    const exported = new Set(
      packages.flatMap(({ entryPoints }) => entryPoints.map((entry) => entry.specifier)),
    );
    const inner = sourceImports(found).filter(
      ({ specifier }) => specifier.startsWith('@finial/') && !exported.has(specifier),
    );
    expect(inner.map(told)).toEqual([]);
  });

  test.each(rows)('%s leaves its folder by package name only', (_, found) => {
    const strays = sourceImports(found).filter(({ file, specifier }) => {
      if (!specifier.startsWith('.')) return false;
      return relative(join(found.folder, 'src'), resolve(dirname(file), specifier)).startsWith('..');
    });
    expect(strays.map(told)).toEqual([]);
  });

  test.each(rows)('tests of %s reach no other package by path', (_, found) => {
    const strays = ['test', 'bench']
      .flatMap((name) => filesBelow(join(found.folder, name), '.ts').flatMap(importsOf))
      .filter(({ file, specifier }) => {
        if (!specifier.startsWith('.')) return false;
        const target = resolve(dirname(file), specifier);
        return target.startsWith(join(root, 'packages') + sep) && !target.startsWith(found.folder + sep);
      });
    expect(strays.map(told)).toEqual([]);
  });

  test.each(rows.filter(([name]) => withoutForeignDependencies.includes(name)))(
    '%s needs nothing from outside the family, nor from Node',
    (_, found) => {
      const foreign = Object.keys(found.manifest.dependencies ?? {}).filter(
        (name) => !name.startsWith('@finial/'),
      );
      expect(foreign).toEqual([]);
      const fromNode = sourceImports(found).filter(({ specifier }) =>
        isNodeModule(packageNameOf(specifier) ?? '.'),
      );
      expect(fromNode.map(told)).toEqual([]);
    },
  );

  test.each(rows)('files of %s import each other without a cycle', (_, found) => {
    expect(fileCycles(found)).toEqual([]);
  });
});

/** Files of a package that can be reached from themselves; imports of types alone leave no trace when the code runs. */
function fileCycles({ folder }: WorkspacePackage): readonly string[] {
  const files = filesBelow(join(folder, 'src'), '.ts');
  const next = new Map(files.map((file) => [file, valueImportsOf(file)]));
  return files
    .filter((start) => {
      const open = [...(next.get(start) ?? [])];
      const reached = new Set<string>();
      for (let file = open.pop(); file !== undefined; file = open.pop()) {
        if (file === start) return true;
        if (reached.has(file)) continue;
        reached.add(file);
        open.push(...(next.get(file) ?? []));
      }
      return false;
    })
    .map(shown);
}

function valueImportsOf(file: string): readonly string[] {
  // With the strict import syntax of this workspace, what the transpiler keeps is what runs.
  const { outputText } = ts.transpileModule(readFileSync(file, 'utf8'), {
    compilerOptions: {
      module: ts.ModuleKind.ESNext,
      target: ts.ScriptTarget.ESNext,
      verbatimModuleSyntax: true,
    },
  });
  return ts
    .preProcessFile(outputText, true, true)
    .importedFiles.filter(({ fileName }) => fileName.startsWith('.'))
    .map(({ fileName }) => resolve(dirname(file), fileName.replace(/\.js$/, '.ts')));
}

describe('package files', () => {
  test.each(rows)('%s/package.json follows the template', (shortName, { manifest }) => {
    expect(manifest).toMatchObject({
      name: `@finial/${shortName}`,
      version: expect.stringMatching(/^\d+\.\d+\.\d+/),
      description: expect.stringMatching(/^[A-Z].{20,}\.$/),
      license: 'MIT',
      type: 'module',
      sideEffects: false,
      engines: { node: '>=20.19' },
      files: expect.arrayContaining(['dist', 'src']),
      publishConfig: { access: 'public' },
      scripts: { build: 'tsup --config ../../tsup.config.ts && tsc -p tsconfig.json' },
    });
    const known = [
      'name',
      'version',
      'description',
      'license',
      'type',
      'sideEffects',
      'engines',
      'files',
      'exports',
      'bin',
      'publishConfig',
      'scripts',
      'dependencies',
      'devDependencies',
    ];
    expect(Object.keys(manifest).filter((key) => !known.includes(key))).toEqual([]);
  });

  test.each(rows)('%s exports its sources, types and JavaScript in one shape', (_, { manifest }) => {
    const { './package.json': itself, ...rest } = manifest.exports;
    expect(itself).toBe('./package.json');
    // A data file stands for itself; everything else is code.
    const subpaths = Object.entries(rest).filter(([subpath, target]) => subpath !== target);
    const targets = subpaths.map(([, target]) => target);
    expect(subpaths.map(([subpath]) => subpath)).toContain('.');
    const stems = targets.map(
      (target) =>
        /^\.\/src\/(.+)\.ts$/.exec((target as Record<string, string>)?.['@finial/source'] ?? '')?.[1],
    );
    expect(targets).toEqual(
      stems.map((stem) => ({
        '@finial/source': `./src/${stem}.ts`,
        types: `./dist/${stem}.d.ts`,
        default: `./dist/${stem}.js`,
      })),
    );
    // The private condition must be asked first, or it is never reached.
    expect(targets.map((target) => Object.keys(target as object)[0])).toEqual(
      targets.map(() => '@finial/source'),
    );
    expect(
      subpaths.map(([subpath]) => subpath).filter((subpath) => !/^\.(\/[\w*-]+)*$/.test(subpath)),
    ).toEqual([]);
  });

  test.each(rows)('%s takes the family from the workspace and pins the rest', (_, { manifest }) => {
    for (const [name, range] of Object.entries(manifest.dependencies ?? {})) {
      expect(`${name} ${range}`).toMatch(
        name.startsWith('@finial/') ? / workspace:\^$/ : / (catalog:|\d+\.\d+\.\d+)$/,
      );
    }
  });

  test.each(rows)('%s has a README and tests', (_, { folder, manifest }) => {
    expect(existsSync(join(folder, 'README.md'))).toBe(true);
    expect(readFileSync(join(folder, 'README.md'), 'utf8')).toMatch(new RegExp(`^# ${manifest.name}\n`));
    expect(filesBelow(join(folder, 'test'), '.test.ts')).not.toEqual([]);
  });

  test.each(rows)('%s hands on the one error class', async (_, { manifest }) => {
    const units = await import('@finial/units');
    const module = (await import(/* @vite-ignore */ manifest.name)) as typeof units;
    expect(module.InputError).toBe(units.InputError);
    expect(module.isInputError).toBe(units.isInputError);
  });
});

describe('text of the project', () => {
  // Written in pieces, so that this file does not find itself.
  const unwanted: readonly (readonly [string, RegExp])[] = [
    [
      'a path of one machine',
      new RegExp(`(?<![\\w.:/-])/(${['wo' + 'rk', 'ro' + 'ot', 'ho' + 'me', 'Us' + 'ers'].join('|')})/`),
    ],
    ['a temporary folder by its path', new RegExp(`(?<![\\w.:/-])/t${'mp'}/[A-Za-z]`)],
    ['a leftover marker', new RegExp(`\\b(TO${'DO'}|FIX${'ME'}|X${'XX'})\\b`)],
    ['a test that shuts out the others', new RegExp(`\\b(test|it|describe|bench)\\.on${'ly'}\\(`)],
    ['a silenced compiler', new RegExp(`@ts-(ig${'nore'}|noch${'eck'})`)],
    [
      'a host that packages come from',
      new RegExp(`\\b(regis${'try'}|artifac${'tory'}|ne${'xus'}|verdac${'cio'})[.-][a-z0-9-]+\\.[a-z]`),
    ],
  ];
  const files = textFiles();

  test('the list of files is the real one', () => {
    expect(files).toContain('package.json');
    expect(files).toContain('packages/units/src/InputError.ts');
  });

  test.each(unwanted)('has nowhere %s', (_, pattern) => {
    const found = files.flatMap((file) =>
      readFileSync(join(root, file), 'utf8')
        .split('\n')
        .flatMap((line, index) => (pattern.test(line) ? [`${file}:${index + 1}`] : [])),
    );
    expect(found).toEqual([]);
  });

  test('the patterns find what they are for', () => {
    const samples = [
      '/ro' + 'ot/x',
      '"/t' + 'mp/x"',
      '// TO' + 'DO: x',
      'test.on' + 'ly(',
      '// @ts-ig' + 'nore',
      'https://regis' + 'try.example.org',
    ];
    expect(unwanted.map(([, pattern], index) => pattern.test(samples[index] ?? ''))).toEqual(
      samples.map(() => true),
    );
  });
});

/** Files that belong to the project, committed or about to be: what Git lists, without what it ignores. */
function textFiles(): readonly string[] {
  const listed = execFileSync('git', ['ls-files', '--cached', '--others', '--exclude-standard', '-z'], {
    cwd: root,
    encoding: 'utf8',
    maxBuffer: 1e8,
  });
  return [...new Set(listed.split('\0'))].filter(
    (file) =>
      /\.(ts|tsx|js|mjs|cjs|json|md|yaml|yml|html|css|csv|txt)$|^\.|run$/.test(file) &&
      existsSync(join(root, file)),
  );
}
