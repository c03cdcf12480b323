import { type Elevation, finestStepM, type HorizonOptions, horizon, type Skyline } from '@finial/terrain';
import { checkRange, type Finding } from '@finial/units';
import { skylinePicture } from '../../../packages/dossier/src/page/skylinePicture.js';
import { decimal, distance } from '../../../packages/dossier/src/page/wording.js';
import { about, literal } from '../frame/codeOf.js';
import type { Outcome, SheetTable, SheetWork } from '../frame/sheet.js';
import { gatewayOf, type TerrainValues } from './terrainValues.js';
import { openingCode } from './tileCode.js';

/** The skyline all around the antenna. */
export async function skylineAnswer(
  values: TerrainValues,
  elevation: Elevation,
  names: readonly string[],
  { signal, onProgress }: SheetWork,
): Promise<Outcome> {
  const radiusM = checkRange(values.skylineRadiusM, 'skylineRadiusM', {
    min: 100,
    max: 100_000,
    unit: 'metres',
  });
  const look: HorizonOptions = {
    position: gatewayOf(values),
    antennaHeightM: values.antennaHeightM,
    radiusM,
    // Half a cell: a sharp ridge between two points of a ray would be cut off.
    stepM: Math.max(finestStepM(elevation) / 2, radiusM / 2000),
    azimuthStepDeg: 2,
    missingHeights: 'skip',
  };
  const skyline = await horizon(elevation, {
    ...look,
    signal,
    onProgress: ({ doneRatio }) => onProgress(doneRatio, 'looking around'),
  });
  const { points, groundHeightM, eyeHeightM } = skyline;
  const words = inWords(skyline, radiusM);
  const picture = skylinePicture({
    azimuthDeg: points.map(({ azimuthDeg }) => azimuthDeg),
    elevationDeg: points.map(({ elevationDeg }) => elevationDeg),
    description: words,
  });
  const caption =
    'Looking up from the antenna: ground at the rim, sky in the middle, angles enlarged. The line round the antenna is the horizontal.';
  return {
    lead: words,
    facts: [
      [
        'Antenna above the sea',
        `${decimal(eyeHeightM, 1)}\u00a0m, on ground at ${decimal(groundHeightM, 1)}\u00a0m`,
      ],
      ['Mean angle of the skyline', `${decimal(meanOf(points.map(({ elevationDeg }) => elevationDeg)), 2)}°`],
      ['Directions where it stands above the horizontal', aboveInWords(skyline)],
    ],
    pictures: [{ svg: picture.markupText, caption }],
    tables: [skylineTable(skyline)],
    findings: missingFindings(skyline),
    code: codeOf(values, names, look, skyline),
    downloads: [{ name: 'skyline.csv', type: 'text/csv', content: skylineCsv(skyline) }],
  };
}

function inWords({ points }: Skyline, radiusM: number): string {
  const [highest] = points.toSorted((a, b) => b.elevationDeg - a.elevationDeg);
  if (highest === undefined) return `No ground is known within ${distance(radiusM)}.`;
  const { elevationDeg, azimuthDeg, distanceM } = highest;
  return `Within ${distance(radiusM)} the skyline stands highest at azimuth ${decimal(azimuthDeg, 0)}°: ${decimal(elevationDeg, 1)}° above the horizontal, ${distance(distanceM)} away.`;
}

function aboveInWords({ points }: Skyline): string {
  const above = points.filter(({ elevationDeg }) => elevationDeg > 0).length;
  return `${above} of ${points.length}`;
}

function meanOf(values: readonly number[]): number {
  return values.reduce((sum, each) => sum + each, 0) / Math.max(1, values.length);
}

function skylineTable({ points }: Skyline): SheetTable {
  const rows = points
    .filter(({ azimuthDeg }) => azimuthDeg % 10 === 0)
    .map(({ azimuthDeg, elevationDeg, distanceM, heightM }) => [
      `${decimal(azimuthDeg, 0)}°`,
      `${decimal(elevationDeg, 2)}°`,
      distance(distanceM),
      `${decimal(heightM, 0)}\u00a0m`,
    ]);
  const head = ['Azimuth', 'Angle', 'Distance', 'Ground there'];
  return { caption: 'The skyline every ten degrees', head, rows, isFolded: true };
}

function skylineCsv({ points }: Skyline): string {
  const rows = points.map(
    ({ azimuthDeg, elevationDeg, distanceM, heightM }) =>
      `${azimuthDeg},${elevationDeg.toFixed(3)},${distanceM.toFixed(0)},${heightM.toFixed(1)}`,
  );
  return `azimuth_deg,elevation_deg,distance_m,ground_m\n${rows.join('\n')}\n`;
}

function missingFindings({ warnings }: Skyline): Finding[] {
  if (warnings.length === 0) return [];
  return [
    {
      rule: 'skyline-cut',
      severity: 'note',
      message: `In ${warnings.length} directions the tiles end, or hold no height, before the distance looked at. What stands beyond is not in the skyline.`,
      source: 'the elevation tiles',
    },
  ];
}

function codeOf(
  values: TerrainValues,
  names: readonly string[],
  look: HorizonOptions,
  { points }: Skyline,
): string {
  const highestDeg = Math.max(...points.map(({ elevationDeg }) => elevationDeg));
  return `import { readFile } from 'node:fs/promises';
import { horizon, openElevation } from '@finial/terrain';

${openingCode(values, names)}
const { points } = await horizon(elevation, ${literal(look)});
points.length; // → ${points.length}
Math.max(...points.map(({ elevationDeg }) => elevationDeg)); ${about(highestDeg, 5)}`;
}
