// @ts-check
// What the example asks: how much is lost from Lantern House to every place within three kilometres.
import { gateway } from '../fennimara/generate/place.js';

/** The heights that every process reads. */
export const elevationFile = new URL('../fennimara/elevation.tif', import.meta.url);

/** @type {import('@finial/propagation').SweepQuestion} */
export const question = {
  gateway: {
    position: { latitudeDeg: gateway.latitudeDeg, longitudeDeg: gateway.longitudeDeg },
    antennaHeightM: gateway.antennaHeightAboveGroundM,
  },
  frequencyHz: 868.1e6,
  model: { kind: 'p526', deltaN: 40 },
  radiusM: 3000,
  cellM: 30,
  receiverHeightM: 1.5,
};
