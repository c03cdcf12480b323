import { createRequire } from 'node:module';
import { root } from './workspace.js';

/** The bundler that the build tool brings along. */
interface Bundler {
  build(options: object): Promise<{
    readonly outputFiles: readonly { readonly text: string }[];
    readonly metafile: { readonly inputs: Readonly<Record<string, unknown>> };
  }>;
}

const here = createRequire(import.meta.url);
const bundler = createRequire(here.resolve('tsup'))('esbuild') as Bundler;

/** What a bundler makes of a piece of code that imports the packages: one minified module, and the files that it read. */
export async function bundled(contents: string): Promise<{ code: string; files: readonly string[] }> {
  const { outputFiles, metafile } = await bundler.build({
    stdin: { contents, resolveDir: root, loader: 'ts' },
    bundle: true,
    minify: true,
    format: 'esm',
    platform: 'browser',
    target: 'es2022',
    conditions: ['@finial/source'],
    write: false,
    metafile: true,
  });
  return { code: outputFiles[0]?.text ?? '', files: Object.keys(metafile.inputs) };
}
