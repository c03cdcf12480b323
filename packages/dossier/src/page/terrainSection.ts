import type { GroundPath } from '../groundPath.js';
import type { SkylinePart, TerrainPart } from '../terrainPart.js';
import { type Markup, markup } from './markup.js';
import { foldedTable } from './parts.js';
import { placePathFigures } from './placePathFigures.js';
import { profilePicture } from './profilePicture.js';
import { skylinePicture } from './skylinePicture.js';
import { decibels, decimal, distance, percent } from './wording.js';

/** The ground to the node and the skyline. */
export function terrainSection({ path, places, skyline, voidCount }: TerrainPart): Markup {
  return markup`<section aria-labelledby="terrain">
<h2 id="terrain">The ground</h2>
${path === undefined ? null : markup`<p>${pathInWords(path)}</p>`}
${voidCount === 0 ? null : markup`<p>${voidCount} cells of the elevation files hold no height.</p>`}
<div class="pair">
${path === undefined ? null : profileFigure(path)}
<figure>${skylinePicture({ ...skyline, description: skylineInWords(skyline) })}<figcaption>${skylineInWords(skyline)} Looking up from the antenna: ground at the rim, sky in the middle, angles enlarged.</figcaption></figure>
</div>
${path === undefined ? null : foldedTable('The losses', 'Loss of the path by Recommendation ITU-R P.1812, term by term', ['Term', 'Value'], lossRows(path))}
${foldedTable('The skyline', 'Skyline every ten degrees', ['Azimuth', 'Elevation', 'Distance'], skylineRows(skyline))}
${placePathFigures(places)}
</section>`;
}

function pathInWords({
  lengthM,
  prediction,
  freeSpaceLossDb,
  visible,
  fresnelClearanceRatio,
}: GroundPath): string {
  const excess = decibels(prediction.lossDb - freeSpaceLossDb, 'dB');
  const sight = visible
    ? `The antennas see each other; at the tightest place ${percent(Math.min(1, fresnelClearanceRatio))} of the first Fresnel zone is free.`
    : 'The ground hides the node from the gateway.';
  return `${sight} Over ${distance(lengthM)} the path loses ${decibels(prediction.lossDb, 'dB')}, ${excess} more than free space.`;
}

function profileFigure(path: GroundPath): Markup {
  const worstIndex = path.distanceM.findIndex((each) => each >= path.obstacleDistanceM);
  const drawn = {
    ...path,
    gatewayHeightM: path.gatewayAltitudeM,
    nodeHeightM: path.nodeAltitudeM,
    worst: path.visible
      ? undefined
      : { distanceM: path.obstacleDistanceM, raisedM: path.raisedM[worstIndex] as number },
    description: pathInWords(path),
  };
  return markup`<figure>${profilePicture(drawn)}<figcaption>Ground from the gateway (left) to the node, the curve of the Earth laid on it. Dotted: lower edge of the first Fresnel zone.</figcaption></figure>`;
}

function skylineInWords({ azimuthDeg, elevationDeg, distanceM, radiusM }: SkylinePart): string {
  const highest = elevationDeg.reduce(
    (best, each, index) => (each > (elevationDeg[best] as number) ? index : best),
    0,
  );
  const top = decimal(elevationDeg[highest] as number, 1);
  return `Skyline within ${distance(radiusM)}, highest ${top}° at azimuth ${decimal(azimuthDeg[highest] as number, 0)}°, ${distance(distanceM[highest] as number)} away.`;
}

function skylineRows({ azimuthDeg, elevationDeg, distanceM }: SkylinePart): string[][] {
  return azimuthDeg.flatMap((azimuth, index) =>
    azimuth % 10 === 0
      ? [
          [
            `${decimal(azimuth, 0)}°`,
            `${decimal(elevationDeg[index] as number, 1)}°`,
            distance(distanceM[index] as number),
          ],
        ]
      : [],
  );
}

function lossRows({ prediction, freeSpaceLossDb }: GroundPath): string[][] {
  const rows: [string, number][] = [
    ['free space', freeSpaceLossDb],
    ['over the real profile (Bullington)', prediction.actualBullingtonLossDb],
    ['over a smooth profile (Bullington)', prediction.smoothBullingtonLossDb],
    ['over the round Earth', prediction.sphericalEarthLossDb],
    ['diffraction in all', prediction.diffractionLossDb],
    ['path by troposcatter alone', prediction.troposcatterLossDb],
    ['path in all', prediction.lossDb],
  ];
  return rows.map(([name, lossDb]) => [name, decibels(lossDb, 'dB')]);
}
