import { defineConfig } from 'tsup';

/** One build for every package; tsup runs inside the package's own folder. */
export default defineConfig({
  entry: ['src/**/*.ts'],
  bundle: false,
  format: 'esm',
  target: 'es2022',
  platform: 'neutral',
  sourcemap: true,
  clean: true,
  treeshake: false,
});
