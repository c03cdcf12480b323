import type { LinkBudget, LinkPlan } from '@finial/radio';

type EndValues<End extends string> = {
  readonly [Key in `${End}${'PowerDbm' | 'FeedlineLossDb' | 'GainDbi' | 'NoiseFigureDb' | 'NoiseRiseDb' | 'HeightM'}`]: number;
};

/** What the link-budget worksheet asks for. */
export interface LinkValues extends EndValues<'gateway'>, EndValues<'node'> {
  readonly frequencyHz: number;
  readonly distanceM: number;
  readonly polarisation: 'same' | 'tilted' | 'circular';
  readonly tiltDeg: number;
  readonly crossPolarDiscriminationDb: number;
  readonly obstacleLossDb: number;
  readonly fadingMarginDb: number;
  readonly uplinkSpreadingFactor: string;
  readonly uplinkBandwidthHz: string;
  readonly downlinkSpreadingFactor: string;
  readonly downlinkBandwidthHz: string;
}

interface Modulation {
  readonly spreadingFactor: number;
  readonly bandwidthHz: number;
}

/** A link budget, with what it was made from. */
export interface Link {
  readonly values: LinkValues;
  readonly plan: LinkPlan;
  readonly budget: LinkBudget;
  readonly uplinkModulation: Modulation;
  readonly downlinkModulation: Modulation;
  readonly gatewaySensitivityDbm: number;
  readonly nodeSensitivityDbm: number;
}
