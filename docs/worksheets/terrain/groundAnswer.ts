import { p526 } from '@finial/propagation';
import { type Elevation, finestStepM } from '@finial/terrain';
import type { Finding } from '@finial/units';
import { distanceToM, type GroundPath, groundPath } from '../../../packages/dossier/src/groundPath.js';
import { profilePicture } from '../../../packages/dossier/src/page/profilePicture.js';
import { decibels, decimal, distance, percent } from '../../../packages/dossier/src/page/wording.js';
import { about, literal } from '../frame/codeOf.js';
import type { Outcome, SheetTable } from '../frame/sheet.js';
import { gatewayOf, placeOf, planOf, type TerrainValues, terrainOf } from './terrainValues.js';
import { openingCode } from './tileCode.js';

/** The ground between the gateway and a place, and what it costs. */
export function groundAnswer(values: TerrainValues, elevation: Elevation, names: readonly string[]): Outcome {
  const path = groundPath(planOf(values), terrainOf(values), elevation, placeOf(values));
  const diffraction = hillsAlone(values, path);
  const words = inWords(path);
  return {
    lead: words,
    facts: [
      ['Distance and azimuth', `${distance(path.lengthM)}, ${decimal(path.azimuthDeg, 1)}° from north`],
      ['Loss by ITU-R P.1812', decibels(path.prediction.lossDb, 'dB')],
      ['Loss by ITU-R P.526', decibels(diffraction.lossDb, 'dB')],
      ['Loss in free space', decibels(path.freeSpaceLossDb, 'dB')],
      ['Least height of the straight line over the ground', metres(path.clearanceM)],
      ['Where the ground stands in highest', `${distance(path.obstacleDistanceM)} out`],
      [
        'Antennas above the sea',
        `${metres(path.gatewayAltitudeM)} (gateway), ${metres(path.nodeAltitudeM)} (node)`,
      ],
    ],
    pictures: [
      {
        svg: pictureOf(path, words),
        caption:
          'Ground from the gateway (left) to the place, the curve of the Earth laid on it. Dotted: lower edge of the first Fresnel zone, the space around the straight line that the wave needs.',
      },
    ],
    tables: [lossTable(path, diffraction), pointTable(path)],
    findings: findingsOf(path),
    code: codeOf(values, names, elevation, path, diffraction.lossDb),
    downloads: [{ name: 'profile.csv', type: 'text/csv', content: profileCsv(path) }],
  };
}

function hillsAlone(values: TerrainValues, path: GroundPath): ReturnType<ReturnType<typeof p526.model>> {
  return p526.model({ deltaN: values.deltaN })({
    frequencyHz: values.frequencyHz,
    distanceM: path.distanceM,
    heightM: path.heightM,
    clutterHeightM: path.heightM.map(() => values.clutterHeightM),
    transmitterHeightM: values.antennaHeightM,
    receiverHeightM: values.nodeHeightM,
  });
}

function inWords(path: GroundPath): string {
  const { visible, fresnelClearanceRatio, clearanceM, obstacleDistanceM, prediction, freeSpaceLossDb } = path;
  const sight = visible
    ? `The antennas see each other; at the tightest place ${percent(Math.min(1, fresnelClearanceRatio))} of the first Fresnel zone is free.`
    : `The ground hides the place: it stands ${decimal(-clearanceM, 0)}\u00a0m above the straight line, ${distance(obstacleDistanceM)} out.`;
  const excess = decibels(prediction.lossDb - freeSpaceLossDb, 'dB');
  return `${sight} The path loses ${decibels(prediction.lossDb, 'dB')}, ${excess} more than free space.`;
}

function pictureOf(path: GroundPath, description: string): string {
  const worst = path.distanceM.findIndex((each) => each >= path.obstacleDistanceM);
  return profilePicture({
    ...path,
    gatewayHeightM: path.gatewayAltitudeM,
    nodeHeightM: path.nodeAltitudeM,
    worst: path.visible
      ? undefined
      : { distanceM: path.obstacleDistanceM, raisedM: path.raisedM[worst] ?? 0 },
    description,
  }).markupText;
}

function lossTable(
  { prediction, freeSpaceLossDb }: GroundPath,
  diffraction: { readonly lossDb: number },
): SheetTable {
  const rows: readonly (readonly [string, number])[] = [
    ['free space (P.525)', freeSpaceLossDb],
    ['hills: over the real profile (Bullington)', prediction.actualBullingtonLossDb],
    ['hills: over a smooth profile (Bullington)', prediction.smoothBullingtonLossDb],
    ['hills: over the round Earth', prediction.sphericalEarthLossDb],
    ['hills in all (P.1812)', prediction.diffractionLossDb],
    ['path by scatter in the air alone', prediction.troposcatterLossDb],
    ['free space and hills (P.526)', diffraction.lossDb],
    ['path in all (P.1812)', prediction.lossDb],
  ];
  return {
    caption: 'The losses, term by term',
    head: ['Term', 'Loss'],
    rows: rows.map(([name, lossDb]) => [name, decibels(lossDb, 'dB')]),
    isFolded: true,
  };
}

/** More lines than these nobody reads; the file has all. */
const mostRows = 60;

function pointTable(path: GroundPath): SheetTable {
  const every = Math.ceil(path.distanceM.length / mostRows);
  const rows = path.distanceM.flatMap((each, index) =>
    index % every === 0 || index === path.distanceM.length - 1
      ? [[distance(each), metres(path.heightM[index] ?? 0), metres(path.raisedM[index] ?? 0)]]
      : [],
  );
  return {
    caption: 'The profile',
    head: ['From the gateway', 'Ground above the sea', 'With the curve of the Earth'],
    rows,
    isFolded: true,
  };
}

function profileCsv({ distanceM, heightM, raisedM, fresnelLowerM }: GroundPath): string {
  const rows = distanceM.map((each, index) =>
    [each, heightM[index] ?? 0, raisedM[index] ?? 0, fresnelLowerM[index] ?? 0]
      .map((value) => value.toFixed(2))
      .join(','),
  );
  return `distance_m,ground_m,ground_with_earth_curve_m,fresnel_lower_m\n${rows.join('\n')}\n`;
}

function findingsOf({ prediction }: GroundPath): Finding[] {
  const source = 'Recommendation ITU-R P.1812-8 (09/2025)';
  return prediction.warnings.map((message) => ({
    rule: 'prediction-range',
    severity: 'note',
    message,
    source,
  }));
}

function metres(heightM: number): string {
  return `${decimal(heightM, 1)}\u00a0m`;
}

function codeOf(
  values: TerrainValues,
  names: readonly string[],
  elevation: Elevation,
  path: GroundPath,
  hillsLossDb: number,
): string {
  const [gateway, place] = [gatewayOf(values), placeOf(values)];
  const { antennaHeightM, nodeHeightM, frequencyHz, clutterHeightM, deltaN, surfaceRefractivity } = values;
  // As the path was cut: as fine as the tiles, and into ten pieces at least.
  const stepM = Math.min(finestStepM(elevation), distanceToM(gateway, place) / 10);
  const ends = `transmitterHeightM: ${antennaHeightM}, receiverHeightM: ${nodeHeightM}`;
  return `import { readFile } from 'node:fs/promises';
import { p1812, p526 } from '@finial/propagation';
import { freeSpaceLossDb, wavelengthM } from '@finial/radio';
import { lineOfSight, openElevation, profile } from '@finial/terrain';

${openingCode(values, names)}
const gateway = ${literal(gateway)};
const place = ${literal(place)};
const ground = profile(elevation, gateway, place, { stepM: ${stepM} });
const clutterHeightM = ground.heightM.map(() => ${clutterHeightM});
const path = { ...ground, clutterHeightM, frequencyHz: ${frequencyHz}, ${ends} };

const prediction = p1812.basicTransmissionLoss(path, {
  deltaN: ${deltaN}, surfaceRefractivity: ${surfaceRefractivity}, locationSigmaDb: 5.5, outsideValidity: 'allow',
  centreLatitudeDeg: (gateway.latitudeDeg + place.latitudeDeg) / 2,
});
prediction.lossDb; ${about(path.prediction.lossDb, 6)}
p526.model({ deltaN: ${deltaN} })(path).lossDb; ${about(hillsLossDb, 6)}
freeSpaceLossDb({ frequencyHz: ${frequencyHz}, distanceM: ground.distanceM.at(-1) ?? 0 }); ${about(path.freeSpaceLossDb, 6)}

const sight = lineOfSight(ground, {
  fromHeightM: ${antennaHeightM}, toHeightM: ${nodeHeightM}, clutterHeightM, wavelengthM: wavelengthM(${frequencyHz}),
  effectiveEarthRadiusFactor: prediction.effectiveEarthRadiusM / 6_371_000,
});
sight.visible; // → ${path.visible}
sight.clearanceM; ${about(path.clearanceM, 5)}`;
}
