// Fuzzing of every reader and every function that takes numbers, on the built packages, for Node 24 or later:
//
//   node tests/fuzz/run.js [--inputs 1000000] [--seed 1] [--only text.readSurvey] [--seconds-per-target 600]
//   node tests/fuzz/run.js --replay text.readSurvey:1:4711
import { existsSync } from 'node:fs';
import { registerHooks } from 'node:module';
import { fileURLToPath } from 'node:url';

// Node runs TypeScript as it stands, but does not look for `x.ts` where an import says `x.js`.
registerHooks({
  resolve(specifier, context, next) {
    const { parentURL } = context;
    if (specifier.startsWith('.') && specifier.endsWith('.js') && parentURL !== undefined) {
      const source = new URL(specifier.replace(/\.js$/, '.ts'), parentURL);
      if (existsSync(fileURLToPath(source))) return next(source.href, context);
    }
    return next(specifier, context);
  },
});

const self = new URL(import.meta.url);
const { main } = await import(new URL('main.ts', self).href);
await main(self);
