import { InputError } from '@finial/units';
import type { ItmLoss } from './ItmLoss.js';
import { referenceAttenuation } from './referenceAttenuation.js';
import { type Scene, smoothHorizonM, type Terminal } from './Scene.js';
import { type VariabilityQuestion, variedAttenuation } from './variability.js';

/** Loss of a scene whose numbers have been checked. */
export function lossOfScene(
  scene: Scene,
  question: VariabilityQuestion,
  allowed: readonly string[],
): ItmLoss {
  const { transmitter, receiver, distanceM, megahertz } = scene;
  const { lossDb: referenceAttenuationDb, mode } = referenceAttenuation(scene);
  const { attenuationDb, isExtreme } = variedAttenuation(scene, referenceAttenuationDb, question);
  const freeSpaceLossDb = 32.45 + 20 * Math.log10(megahertz) + 20 * Math.log10(distanceM / 1000);
  const lossDb = freeSpaceLossDb + attenuationDb;
  if (!Number.isFinite(lossDb)) throw noValue(scene);
  return {
    lossDb,
    freeSpaceLossDb,
    referenceAttenuationDb,
    variabilityDb: attenuationDb - referenceAttenuationDb,
    mode,
    distanceM,
    terrainIrregularityM: scene.terrainIrregularityM,
    transmitterEffectiveHeightM: transmitter.effectiveHeightM,
    receiverEffectiveHeightM: receiver.effectiveHeightM,
    transmitterHorizonDistanceM: transmitter.horizonDistanceM,
    receiverHorizonDistanceM: receiver.horizonDistanceM,
    transmitterHorizonAngleRad: transmitter.horizonAngleRad,
    receiverHorizonAngleRad: receiver.horizonAngleRad,
    surfaceRefractivity: scene.surfaceRefractivity,
    effectiveEarthRadiusM: scene.effectiveEarthRadiusM,
    warnings: [...allowed, ...warningsOf(scene), ...(isExtreme ? [extreme] : [])],
  };
}

const extreme = 'a percentage lies beyond 0.1 or 99.9: so far in the tail that measurements hardly reach it';

/** A mast close behind a cliff makes the Earth under it so small that diffraction around it has no value. */
function noValue({ transmitter, receiver }: Scene): InputError {
  const nearest = Math.min(transmitter.horizonDistanceM, receiver.horizonDistanceM);
  return new InputError({
    code: 'outside-validity',
    argument: 'path',
    received: nearest,
    expected: 'a horizon far enough from its antenna for the model to have a value, in metres',
  });
}

/** Where the scene comes near the bounds of what the model was compared with. */
function warningsOf(scene: Scene): string[] {
  const { transmitter, receiver, distanceM, megahertz } = scene;
  const warnings: string[] = [];
  if (megahertz < 40 || megahertz > 10e3) {
    warnings.push(
      `the frequency of ${rounded(megahertz)} MHz is near the ends of the model's range: 40 to 10000 MHz is sure`,
    );
  }
  if (distanceM > 1000e3)
    warnings.push('the path is longer than 1000 km: the model was hardly compared with such');
  if (distanceM < Math.abs(transmitter.effectiveHeightM - receiver.effectiveHeightM) / 0.2) {
    warnings.push(
      'the path is so short for the difference of the effective heights that rays run steeper than 0.2',
    );
  }
  if (scene.surfaceRefractivity < 250) {
    warnings.push(`the surface refractivity of ${rounded(scene.surfaceRefractivity)} N-units is below 250`);
  }
  return [
    ...warnings,
    ...terminalWarnings('transmitter', transmitter, scene.effectiveEarthRadiusM),
    ...terminalWarnings('receiver', receiver, scene.effectiveEarthRadiusM),
  ];
}

function terminalWarnings(end: string, terminal: Terminal, radiusM: number): string[] {
  const { heightM, effectiveHeightM, horizonDistanceM, horizonAngleRad } = terminal;
  const smoothM = smoothHorizonM(effectiveHeightM, radiusM);
  const warnings: string[] = [];
  if (heightM < 1 || heightM > 1000) {
    warnings.push(
      `${end}: an antenna at ${rounded(heightM)} m is near the ends of the model's range: 1 to 1000 m is sure`,
    );
  }
  if (Math.abs(horizonAngleRad) > 0.2) {
    warnings.push(`${end}: the horizon stands more than 0.2 rad from the level, where small angles end`);
  }
  if (horizonDistanceM < 0.1 * smoothM) {
    warnings.push(`${end}: the horizon is nearer than a tenth of that over a smooth Earth`);
  }
  if (horizonDistanceM > 3 * smoothM) {
    warnings.push(`${end}: the horizon is more than three times as far as that over a smooth Earth`);
  }
  return warnings;
}

/** A number in a warning: four digits tell a reader enough. */
function rounded(value: number): number {
  return Number(value.toPrecision(4));
}
