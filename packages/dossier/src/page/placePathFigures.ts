import type { PlacePath } from '../placePaths.js';
import { type Markup, markup } from './markup.js';
import { foldedTable } from './parts.js';
import { profilePicture } from './profilePicture.js';
import { decibels, decimal, distance, percent } from './wording.js';

/** Address in the page of the ground to a place; nothing where there is none. */
export function pathAddress(places: readonly PlacePath[], name: string): string | undefined {
  const index = places.findIndex((place) => place.name === name);
  return index === -1 ? undefined : `#${idOf(index)}`;
}

/** The ground to each place: a list to choose from, and a figure for each, which the page shows when it is chosen. */
export function placePathFigures(places: readonly PlacePath[]): Markup | null {
  if (places.length === 0) return null;
  const rows = places.map((place, index) => [
    markup`<a href="#${idOf(index)}">${place.name}</a>`,
    distance(place.lengthM),
    `${decimal(place.azimuthDeg, 0)}°`,
    place.visible ? 'seen' : 'hidden',
    `${decimal(place.clearanceM, 0)}\u00a0m`,
    decibels(place.lossDb, 'dB'),
    decibels(place.lossDb - place.freeSpaceLossDb, 'dB'),
  ]);
  const head = ['Place', 'Distance', 'Azimuth', 'Antenna', 'Least clearance', 'Loss', 'Over free space'];
  return markup`<h3>The ground to each place</h3>
<p>Choose a place in the list, or a dot on the coverage map, and its ground stands here.</p>
<div class="paths">${places.map(figure)}</div>
${foldedTable(`The ${places.length} places`, 'Paths to the spots and points, loss by Recommendation ITU-R P.1812', head, rows)}`;
}

function figure(place: PlacePath, index: number): Markup {
  const id = idOf(index);
  const words = placeInWords(place);
  const worst = highestNear(place);
  const drawn = profilePicture(
    {
      ...place,
      gatewayHeightM: place.gatewayAltitudeM,
      nodeHeightM: place.nodeAltitudeM,
      worst,
      description: words,
    },
    { id: `${id}-picture`, title: `Ground between the gateway and ${place.name}` },
  );
  return markup`<figure class="path" id="${id}">${drawn}<figcaption><b>${place.name}.</b> ${words} <a href="#coverage">Back to the map</a></figcaption></figure>`;
}

function idOf(index: number): string {
  return `ground-${index + 1}`;
}

function placeInWords(place: PlacePath): string {
  const { visible, clearanceM, obstacleDistanceM, fresnelClearanceRatio, lengthM } = place;
  const sight = visible
    ? `In sight, ${percent(Math.min(1, fresnelClearanceRatio))} of the first Fresnel zone free at the tightest place.`
    : `Hidden: the ground stands ${decimal(-clearanceM, 0)} m above the line, ${distance(obstacleDistanceM)} out.`;
  const excess = decibels(place.lossDb - place.freeSpaceLossDb, 'dB');
  return `${distance(lengthM)}. ${sight} It loses ${decibels(place.lossDb, 'dB')}, ${excess} more than free space.`;
}

/** The drawn point nearest to the worst obstacle; nothing where the antennas see each other. */
function highestNear({
  visible,
  obstacleDistanceM,
  distanceM,
  raisedM,
}: PlacePath): { distanceM: number; raisedM: number } | undefined {
  if (visible) return undefined;
  const gaps = distanceM.map((each) => Math.abs(each - obstacleDistanceM));
  const nearest = gaps.indexOf(Math.min(...gaps));
  return { distanceM: distanceM[nearest] as number, raisedM: raisedM[nearest] as number };
}
