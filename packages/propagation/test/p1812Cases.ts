import type { p1812, RadioPath, RadioZone } from '@finial/propagation';

/** One profile of a validation file, with its cases; units as published. */
export interface ValidationProfile {
  readonly profileId: string;
  readonly profile: {
    readonly distanceKm: readonly number[];
    readonly heightM: readonly number[];
    readonly clutterHeightM: readonly number[];
    readonly zone: readonly number[];
  };
  readonly cases: readonly ValidationCase[];
}

export interface ValidationCase {
  readonly id: string;
  readonly input: Readonly<Record<CaseNumber, number>> & { readonly polarization: 'horizontal' | 'vertical' };
  readonly expected: Readonly<Record<string, number>>;
}

type CaseNumber =
  | 'txErpKw'
  | 'frequencyGHz'
  | 'timePercent'
  | 'locationPercent'
  | 'sigmaLDb'
  | 'txLatDeg'
  | 'rxLatDeg'
  | 'txLonDeg'
  | 'rxLonDeg'
  | 'txHeightAglM'
  | 'rxHeightAglM'
  | 'deltaN'
  | 'n0'
  | 'dctKm'
  | 'dcrKm';

const zoneNames: Readonly<Record<number, RadioZone>> = { 1: 'sea', 3: 'coastal-land', 4: 'inland' };

/** The path of a case in this package's units. */
export function pathOf({ profile }: ValidationProfile, { input }: ValidationCase): RadioPath {
  return {
    frequencyHz: input.frequencyGHz * 1e9,
    distanceM: profile.distanceKm.map((km) => km * 1000),
    heightM: profile.heightM,
    clutterHeightM: profile.clutterHeightM,
    zone: profile.zone.map((number) => zoneNames[number] as RadioZone),
    transmitterHeightM: input.txHeightAglM,
    receiverHeightM: input.rxHeightAglM,
    polarisation: input.polarization,
  };
}

/** The settings of a case, its coast distances as published. */
export function settingsOf({ input }: ValidationCase, lengthKm: number): p1812.PredictionSettings {
  return {
    timePercent: input.timePercent,
    locationPercent: input.locationPercent,
    locationSigmaDb: input.sigmaLDb,
    centreLatitudeDeg: centreLatitudeDeg(input, lengthKm),
    deltaN: input.deltaN,
    surfaceRefractivity: input.n0,
    transmitterCoastDistanceM: input.dctKm * 1000,
    receiverCoastDistanceM: input.dcrKm * 1000,
  };
}

/** Latitude half of the path's length along the great circle, as the published runs take it. */
function centreLatitudeDeg(input: ValidationCase['input'], lengthKm: number): number {
  const radians = Math.PI / 180;
  const from = input.txLatDeg * radians;
  const to = input.rxLatDeg * radians;
  const turn = (input.rxLonDeg - input.txLonDeg) * radians;
  const azimuth = Math.atan2(
    Math.sin(turn) * Math.cos(to),
    Math.cos(from) * Math.sin(to) - Math.sin(from) * Math.cos(to) * Math.cos(turn),
  );
  const arc = lengthKm / 2 / 6371;
  const sine = Math.sin(from) * Math.cos(arc) + Math.cos(from) * Math.sin(arc) * Math.cos(azimuth);
  return Math.asin(sine) / radians;
}

/** Published name, what this package calls it, and how many of the published unit make one of ours. */
const names: readonly (readonly [string, keyof p1812.Prediction, number])[] = [
  ['dKm', 'lengthM', 1e-3],
  ['dltKm', 'transmitterHorizonDistanceM', 1e-3],
  ['dlrKm', 'receiverHorizonDistanceM', 1e-3],
  ['thetaTMrad', 'transmitterHorizonRad', 1e3],
  ['thetaRMrad', 'receiverHorizonRad', 1e3],
  ['thetaMrad', 'angularDistanceRad', 1e3],
  ['htsM', 'transmitterAltitudeM', 1],
  ['hrsM', 'receiverAltitudeM', 1],
  ['omega', 'seaRatio', 1],
  ['dtmKm', 'longestLandM', 1e-3],
  ['dlmKm', 'longestInlandM', 1e-3],
  ['beta0Percent', 'anomalousTimePercent', 1],
  ['aeKm', 'effectiveEarthRadiusM', 1e-3],
  ['hstUncorrectedM', 'fittedTransmitterGroundM', 1],
  ['hsrUncorrectedM', 'fittedReceiverGroundM', 1],
  ['hstM', 'ductTransmitterGroundM', 1],
  ['hsrM', 'ductReceiverGroundM', 1],
  ['hstdM', 'diffractionTransmitterGroundM', 1],
  ['hsrdM', 'diffractionReceiverGroundM', 1],
  ['htesM', 'diffractionTransmitterHeightM', 1],
  ['hresM', 'diffractionReceiverHeightM', 1],
  ['hteM', 'ductTransmitterHeightM', 1],
  ['hreM', 'ductReceiverHeightM', 1],
  ['hmM', 'roughnessM', 1],
  ['Fi', 'timeFactor', 1],
  ['Fj', 'angleFactor', 1],
  ['Fk', 'distanceFactor', 1],
  ['LbfsDb', 'freeSpaceLossDb', 1],
  ['Lb0pDb', 'lineOfSightLossDb', 1],
  ['Lb0bDb', 'anomalousLineOfSightLossDb', 1],
  ['Lbulla50Db', 'actualBullingtonLossDb', 1],
  ['Lbulls50Db', 'smoothBullingtonLossDb', 1],
  ['Ldsph50Db', 'sphericalEarthLossDb', 1],
  ['LbullaBetaDb', 'anomalousActualBullingtonLossDb', 1],
  ['LbullsBetaDb', 'anomalousSmoothBullingtonLossDb', 1],
  ['LdsphBetaDb', 'anomalousSphericalEarthLossDb', 1],
  ['Ld50Db', 'medianDiffractionLossDb', 1],
  ['LdBetaDb', 'anomalousDiffractionLossDb', 1],
  ['LdpDb', 'diffractionLossDb', 1],
  ['Lbd50Db', 'medianDiffractionPathLossDb', 1],
  ['LbdDb', 'diffractionPathLossDb', 1],
  ['LbsDb', 'troposcatterLossDb', 1],
  ['LbaDb', 'ductingLossDb', 1],
  ['Lminb0pDb', 'leastLineOfSightLossDb', 1],
  ['LminbapDb', 'leastDuctingLossDb', 1],
  ['LbdaDb', 'ductedDiffractionLossDb', 1],
  ['LbamDb', 'lossWithoutTroposcatterDb', 1],
  ['LbcDb', 'medianLocationLossDb', 1],
  ['LbDb', 'lossDb', 1],
  ['Ep1kWDbuVm', 'fieldStrengthDbuvPerM', 1],
];

/** How many values of a case are compared. */
export const comparedCount: number = names.length;

/** Every published value that differs by more than the tolerance: relative, or absolute below 1. */
export function differences(
  prediction: p1812.Prediction,
  { expected }: ValidationCase,
  tolerance: number,
): readonly string[] {
  return names.flatMap(([published, ours, scale]) => {
    const want = expected[published] as number;
    const got = (prediction[ours] as number) * scale;
    const gap = Math.abs(got - want) / Math.max(1, Math.abs(want));
    return gap <= tolerance ? [] : [`${published}: got ${got}, want ${want}`];
  });
}
