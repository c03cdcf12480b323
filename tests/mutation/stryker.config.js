// @ts-check
// Mutants of one package: FINIAL_PACKAGE=radio npx stryker run tests/mutation/stryker.config.js
const name = process.env['FINIAL_PACKAGE'] ?? 'units';

export default {
  plugins: ['@stryker-mutator/vitest-runner'],
  testRunner: 'vitest',
  vitest: { configFile: 'tests/mutation/vitest.config.ts', related: true },
  mutate: [`packages/${name}/src/**/*.ts`, `!packages/${name}/src/index.ts`],
  ignorePatterns: ['docs', 'examples/out', '**/dist', '.changeset', '.mutation', 'coverage'],
  coverageAnalysis: 'perTest',
  // Constant tables are loaded once, so that a mutant of one runs every test; their rows are held against the reference one by one anyway.
  ignoreStatic: true,
  concurrency: 2,
  timeoutMS: 20_000,
  reporters: ['clear-text', 'json'],
  clearTextReporter: { allowColor: false, logTests: false, reportTests: false, reportScoreTable: true },
  jsonReporter: { fileName: `.mutation/${name}.json` },
  thresholds: { high: 95, low: 90, break: 90 },
  // Texts that people read are checked for sense, not letter by letter.
  mutator: { excludedMutations: ['StringLiteral'] },
  disableTypeChecks: true,
  tempDirName: '.mutation/sandbox',
};
