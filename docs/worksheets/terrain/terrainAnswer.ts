import { type Elevation, elevationBounds, finestStepM, heightAtM, openElevation } from '@finial/terrain';
import type { Finding } from '@finial/units';
import { decimal, distance } from '../../../packages/dossier/src/page/wording.js';
import type { Outcome, SheetFile, SheetWork } from '../frame/sheet.js';
import { coverageAnswer } from './coverageAnswer.js';
import { groundAnswer } from './groundAnswer.js';
import { skylineAnswer } from './skylineAnswer.js';
import { gatewayOf, type TerrainValues } from './terrainValues.js';
import { openOptions } from './tileCode.js';

/** Opens the tiles and answers the question that was asked. */
export async function terrainAnswer(
  values: TerrainValues,
  files: readonly SheetFile[],
  work: SheetWork,
): Promise<Outcome> {
  const names = files.map(({ name }) => name);
  work.onProgress(0, 'reading the tiles');
  const elevation = await openElevation(files, { ...openOptions(values), signal: work.signal });
  const groundM = heightAtM(elevation, gatewayOf(values));
  const outcome = await answerOf(values, elevation, names, work);
  return {
    ...outcome,
    facts: [
      ...outcome.facts,
      ['Ground under the gateway', `${decimal(groundM, 1)}\u00a0m above the sea`],
      ['Tiles', tilesInWords(elevation)],
    ],
    findings: [...(outcome.findings ?? []), ...voidFindings(elevation)],
  };
}

async function answerOf(
  values: TerrainValues,
  elevation: Elevation,
  names: readonly string[],
  work: SheetWork,
): Promise<Outcome> {
  switch (values.question) {
    case 'ground':
      return groundAnswer(values, elevation, names);
    case 'skyline':
      return skylineAnswer(values, elevation, names, work);
    case 'coverage':
      return coverageAnswer(values, elevation, names, work);
  }
}

function tilesInWords(elevation: Elevation): string {
  const { southDeg, northDeg, westDeg, eastDeg } = elevationBounds(elevation);
  const [south, north, west, east] = [southDeg, northDeg, westDeg, eastDeg].map((each) => decimal(each, 3));
  return `${south}° to ${north}° north, ${west}° to ${east}° east, cells of ${distance(finestStepM(elevation))}`;
}

function voidFindings({ voidCount, filledCount }: Elevation): Finding[] {
  const source = 'the elevation tiles';
  const holes: Finding = {
    rule: 'elevation-voids',
    severity: 'note',
    message: `${voidCount} cells of the tiles hold no height.`,
    source,
  };
  const guesses: Finding = {
    rule: 'elevation-filled',
    severity: 'note',
    message: `${filledCount} cells of the tiles held no height and were filled: their heights are guesses.`,
    source,
  };
  return [...(voidCount > 0 ? [holes] : []), ...(filledCount > 0 ? [guesses] : [])];
}
