import type { Adapter, Cable, Catalogue, Connector, PartEnd, Pigtail } from '@finial/feedline';

// A catalogue of round figures that were all read somewhere, so that a test can do its sums by hand and any remark on a chain is one too many.
const row = { source: 'invented', status: 'read' } as const;

/** 1 dB per metre at 1 GHz, known to 10 %. */
export const cable: Cable = {
  ...row,
  kind: 'cable',
  designation: 'round',
  construction: 'invented',
  impedanceOhm: 50,
  velocityFactor: 0.8,
  dielectric: 'foam PE',
  outerDiameterM: 0.005,
  bendRadiusM: 0.05,
  attenuation: [{ frequencyHz: 1e9, attenuationDbPerM: 1 }],
  attenuationUncertaintyRatio: 0.1,
};

/** Joined pairs that lose 0.1 dB at 1 GHz, 0.06 to 0.14 dB: give or take 0.04 dB. */
export function connector(series: string, change: Partial<Connector> = {}): Connector {
  return {
    ...row,
    kind: 'connector',
    designation: series,
    series,
    impedanceOhm: 50,
    standard: 'none',
    coupling: 'bayonet',
    reversePolarityExists: false,
    highestFrequencyHz: 4e9,
    pairLossAtOneGigahertzDb: 0.1,
    leastPairLossDb: 0.06,
    greatestPairLossDb: 0.14,
    sealing: 'none',
    sealingPractice: 'none',
    ...change,
  };
}

/** 0.2 dB give or take 0.03 dB, from the lowest frequency to 4 GHz. */
export function adapter(
  designation: string,
  ends: readonly [PartEnd, PartEnd],
  change: Partial<Adapter> = {},
): Adapter {
  const band = { lowestFrequencyHz: 0, highestFrequencyHz: 4e9 };
  return {
    ...row,
    kind: 'adapter',
    designation,
    ends,
    lossDb: 0.2,
    lossUncertaintyDb: 0.03,
    ...band,
    ...change,
  };
}

export function pigtail(designation: string, ends: readonly [PartEnd, PartEnd], lengthM: number): Pigtail {
  return { ...row, kind: 'pigtail', designation, cable: cable.designation, lengthM, ends };
}

export const aPlug: PartEnd = { series: 'A', gender: 'plug' };
export const aJack: PartEnd = { series: 'A', gender: 'jack' };
export const bPlug: PartEnd = { series: 'B', gender: 'plug' };
export const bJack: PartEnd = { series: 'B', gender: 'jack' };
export const cPlug: PartEnd = { series: 'C', gender: 'plug' };
export const cJack: PartEnd = { series: 'C', gender: 'jack' };

export function catalogue(change: Partial<Catalogue> = {}): Catalogue {
  const connectors = ['A', 'B', 'C'].map((series) => connector(series));
  return { cables: [cable], connectors, adapters: [], pigtails: [], arrestors: [], filters: [], ...change };
}
