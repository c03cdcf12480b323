import { collinearPattern } from '@finial/antenna';
import { requiredSnrDb } from '@finial/lora';
import type { CoverageLink, SweptModel } from '@finial/propagation';
import { thermalNoiseDbm } from '@finial/radio';
import type { Elevation } from '@finial/terrain';
import type { BuiltPlan } from './builtPlan.js';
import { loraModulation } from './loraModulation.js';
import { planRegion } from './planRegion.js';
import type { CoveragePlan, TerrainPlan } from './terrainPlan.js';

/** What a sweep of the plan asks, whatever the site. */
export interface UplinkSweep {
  readonly elevation: Elevation;
  readonly frequencyHz: number;
  readonly model: SweptModel;
  readonly radiusM: number;
  readonly cellM: number;
  readonly receiverHeightM: number;
  readonly clutterHeightM: number | undefined;
}

/** Stops a sweep, and hears how far it is. */
export interface SweepWatch {
  readonly signal: AbortSignal | undefined;
  readonly onProgress: (progress: { readonly doneRatio: number }) => void;
}

/** The question of a sweep as the plan puts it. */
export function uplinkSweep(
  { node }: BuiltPlan,
  { climate, timePercent, locationPercent, locationSigmaDb, clutterHeightM }: TerrainPlan,
  { radiusM, cellM }: CoveragePlan,
  elevation: Elevation,
): UplinkSweep {
  return {
    elevation,
    frequencyHz: node.uplink.frequencyHz,
    model: { kind: 'p1812', ...climate, timePercent, locationPercent, locationSigmaDb },
    radiusM,
    cellM,
    receiverHeightM: node.heightM,
    clutterHeightM,
  };
}

/** Powers, gains and losses of the plan's uplink but for the path. */
export function uplinkOf(plan: BuiltPlan, elevation: Elevation): CoverageLink {
  const { gateway, node, link } = plan;
  const namedLossDb = (link.losses ?? []).reduce((sum, { lossDb }) => sum + lossDb, 0);
  return {
    conductedPowerDbm: node.conductedPowerDbm,
    feedlineLossDb: gateway.feedlineLossDb,
    ...gainOf(plan, elevation),
    nodeGainDbi: node.antennaGainDbi,
    otherLossDb: (node.feedlineLossDb ?? 0) + namedLossDb,
  };
}

/** The pattern of the plan scaled to its stated gain, or that gain all around. */
function gainOf({ antenna, gateway }: BuiltPlan, elevation: Elevation): Partial<CoverageLink> {
  if (antenna?.pattern === undefined) return { gatewayGainDbi: gateway.antennaGainDbi };
  const { elements, spacingWavelengths = 0.5, downtiltDeg } = antenna.pattern;
  const table = collinearPattern({ elements, spacingWavelengths, downtiltDeg, stepDeg: 0.5 });
  const strongestDbi = table.gainDbi.reduce((most, gain) => Math.max(most, gain), -Infinity);
  const gainDbi = Float64Array.from(table.gainDbi, (gain) => gain - strongestDbi + gateway.antennaGainDbi);
  return { pattern: { elevationDeg: table.elevationDeg, gainDbi }, elevation };
}

/** A data rate that the map knows. */
export interface MappedDataRate {
  /** In words: `DR3, SF9`. */
  readonly name: string;
  /** Index of the region. */
  readonly dataRate: number;
  readonly requiredSnrDb: number;
  readonly bandwidthHz: number;
}

/** LoRa data rates of the region with the bandwidth of the plan's uplink. */
export function mappedDataRates(plan: BuiltPlan): readonly MappedDataRate[] {
  const { bandwidthHz } = loraModulation(plan, plan.node.uplink.dataRate, 'uplink', 'node.uplink.dataRate');
  return planRegion(plan).dataRates.flatMap((row) =>
    row.modulation === 'LoRa' && row.direction !== 'downlink' && row.bandwidthHz === bandwidthHz
      ? [
          {
            name: `DR${row.dataRate}, SF${row.spreadingFactor}`,
            dataRate: row.dataRate,
            requiredSnrDb: requiredSnrDb(row.spreadingFactor),
            bandwidthHz,
          },
        ]
      : [],
  );
}

/** Least power in dBm at the gateway's receiver from which frames of a spreading factor are read, in the bandwidth of the plan's uplink. */
export function uplinkThresholdDbm(plan: BuiltPlan, spreadingFactor: number): number {
  const { bandwidthHz } = loraModulation(plan, plan.node.uplink.dataRate, 'uplink', 'node.uplink.dataRate');
  const { noiseFigureDb, manMadeNoiseDb = 0 } = plan.gateway;
  return thermalNoiseDbm({ bandwidthHz }) + noiseFigureDb + manMadeNoiseDb + requiredSnrDb(spreadingFactor);
}
