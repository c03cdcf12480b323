import { describe, expect, test } from 'vitest';
import { publicSurface } from './apiReport/publicSurface.js';
import { programOfEntryPoints, workspacePackages } from './support/workspace.js';

// What others build on, checked in: a change of it shows in review, and `npx vitest run tests/apiReport.test.ts -u` accepts it.
const packages = workspacePackages();
const program = programOfEntryPoints(packages);

describe('the public surface is the one on record', () => {
  test.each(packages.map((each) => [each.shortName, each] as const))(
    '%s',
    async (shortName, workspacePackage) => {
      await expect(publicSurface(program, workspacePackage)).toMatchFileSnapshot(
        `apiReport/${shortName}.txt`,
      );
    },
  );
});

test('a report names what there is to import', () => {
  const units = packages.find(({ shortName }) => shortName === 'units');
  if (units === undefined) throw new Error('no units');
  const report = publicSurface(program, units);
  expect(report).toMatch(/^export declare function dbmToWatt\(powerDbm: number\): number;$/m);
  expect(report).toMatch(/^export declare class InputError extends RangeError \{$/m);
  expect(report).not.toMatch(/\/\*\*|^\s*\/\/(?! @finial)/m);
});
