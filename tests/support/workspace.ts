import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';

/** The folder that holds `packages/`, `tests/` and the root `package.json`. */
export const root: string = join(dirname(fileURLToPath(import.meta.url)), '..', '..');

/** What the tests read of a `package.json`. */
export interface Manifest {
  readonly name: string;
  readonly dependencies?: Readonly<Record<string, string>>;
  readonly exports: Readonly<Record<string, string | Readonly<Record<string, string>>>>;
  readonly [field: string]: unknown;
}

/** One package of the workspace. */
export interface WorkspacePackage {
  /** Name without the scope, which is also the name of its folder. */
  readonly shortName: string;
  readonly folder: string;
  readonly manifest: Manifest;
  /** What a user may import, with the source file behind each. */
  readonly entryPoints: readonly { readonly specifier: string; readonly file: string }[];
}

/** Every package of the workspace, by name. */
export function workspacePackages(): readonly WorkspacePackage[] {
  return readdirSync(join(root, 'packages'))
    .filter((shortName) => existsSync(join(root, 'packages', shortName, 'package.json')))
    .sort()
    .map((shortName) => {
      const folder = join(root, 'packages', shortName);
      const manifest = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as Manifest;
      return { shortName, folder, manifest, entryPoints: entryPointsOf(folder, manifest) };
    });
}

function entryPointsOf(folder: string, manifest: Manifest): WorkspacePackage['entryPoints'] {
  return Object.entries(manifest.exports).flatMap(([subpath, target]) => {
    const source = typeof target === 'string' ? undefined : target['@finial/source'];
    if (source === undefined) return [];
    const files = source.includes('*')
      ? matching(folder, source)
      : [{ star: '', file: join(folder, source) }];
    return files.map(({ star, file }) => ({
      specifier: join(manifest.name, subpath.replace('*', star)).split(sep).join('/'),
      file,
    }));
  });
}

/** Files behind a pattern such as `./src/regions/*.ts`, with what the star stands for. */
function matching(folder: string, pattern: string): { readonly star: string; readonly file: string }[] {
  const [before = '', after = ''] = pattern.split('*');
  const inside = join(folder, before);
  return readdirSync(inside)
    .filter((name) => name.endsWith(after))
    .map((name) => ({ star: name.slice(0, name.length - after.length), file: join(inside, name) }));
}

/** Every file below a folder whose name ends so; an absent folder has none. */
export function filesBelow(folder: string, ending: string): readonly string[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith(ending))
    .map((entry) => join(entry.parentPath, entry.name))
    .filter((file) => !/[\\/](node_modules|dist)[\\/]/.test(file))
    .sort();
}

/** A path as a person reads it: from the root, with slashes. */
export function shown(file: string): string {
  return relative(root, file).split(sep).join('/');
}

/** The compiler options of the root `tsconfig.json`. */
export function compilerOptions(): ts.CompilerOptions {
  const file = join(root, 'tsconfig.json');
  const { config, error } = ts.readConfigFile(file, ts.sys.readFile);
  if (error !== undefined) throw new Error(ts.flattenDiagnosticMessageText(error.messageText, '\n'));
  return ts.parseJsonConfigFileContent({ ...config, files: [], include: [] }, ts.sys, root).options;
}

/** A program over the sources of every entry point. */
export function programOfEntryPoints(packages: readonly WorkspacePackage[]): ts.Program {
  const files = packages.flatMap(({ entryPoints }) => entryPoints.map(({ file }) => file));
  return ts.createProgram(files, compilerOptions());
}

/** What an entry point exports, by name, with aliases followed to the declaration. */
export function exportsOf(
  checker: ts.TypeChecker,
  program: ts.Program,
  file: string,
): Map<string, ts.Symbol> {
  const source = program.getSourceFile(file);
  if (source === undefined) throw new Error(`${shown(file)} is not in the program`);
  const module = checker.getSymbolAtLocation(source);
  const symbols = module === undefined ? [] : checker.getExportsOfModule(module);
  return new Map(
    symbols.map((symbol) => [
      symbol.name,
      symbol.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(symbol) : symbol,
    ]),
  );
}

/** Whether a symbol was written in the sources of a package (and not in a library). */
export function isOwn(symbol: ts.Symbol | undefined): boolean {
  const own = join(root, 'packages') + sep;
  return (symbol?.declarations ?? []).some((declaration) => {
    const file = declaration.getSourceFile().fileName.split('/').join(sep);
    return file.startsWith(own) && !file.includes(`${sep}node_modules${sep}`);
  });
}

/** Name of a parameter; a destructured one is called by its place. */
export function parameterName(parameter: ts.Symbol, place: number): string {
  return parameter.name.startsWith('__') ? `argument ${place + 1}` : parameter.name;
}
