import { requiredSnrDb } from '@finial/lora';
import type { CoverageLink, SweptModel } from '@finial/propagation';
import { thermalNoiseDbm } from '@finial/radio';
import type { Elevation } from '@finial/terrain';
import type { PatternPart } from './antennaPart.js';
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
  readonly signal: AbortSignal | undefined;
}

/** The question of a sweep as the plan puts it. */
export function uplinkSweep(
  { node }: BuiltPlan,
  { climate, timePercent, locationPercent, locationSigmaDb, clutterHeightM }: TerrainPlan,
  { radiusM, cellM }: CoveragePlan,
  elevation: Elevation,
  signal: AbortSignal | undefined,
): UplinkSweep {
  return {
    elevation,
    frequencyHz: node.uplink.frequencyHz,
    model: { kind: 'p1812', ...climate, timePercent, locationPercent, locationSigmaDb },
    radiusM,
    cellM,
    receiverHeightM: node.heightM,
    clutterHeightM,
    signal,
  };
}

/**
 * Powers, gains and losses of the plan's uplink but for the path.
 *
 * @param pattern - the gateway's pattern, where the plan describes one; it is scaled to the gain that the plan states
 */
export function uplinkOf(
  { gateway, node, link }: BuiltPlan,
  pattern: PatternPart | undefined,
  elevation: Elevation,
): CoverageLink {
  const namedLossDb = (link.losses ?? []).reduce((sum, { lossDb }) => sum + lossDb, 0);
  return {
    conductedPowerDbm: node.conductedPowerDbm,
    feedlineLossDb: gateway.feedlineLossDb,
    ...(pattern === undefined
      ? { gatewayGainDbi: gateway.antennaGainDbi }
      : { pattern: scaledPattern(pattern, gateway.antennaGainDbi), elevation }),
    nodeGainDbi: node.antennaGainDbi,
    otherLossDb: (node.feedlineLossDb ?? 0) + namedLossDb,
  };
}

function scaledPattern(
  { patternElevationDeg, patternGainDbi }: PatternPart,
  antennaGainDbi: number,
): NonNullable<CoverageLink['pattern']> {
  const strongestDbi = Math.max(...patternGainDbi);
  const gainDbi = patternGainDbi.map((gain) => gain - strongestDbi + antennaGainDbi);
  return { elevationDeg: patternElevationDeg, gainDbi };
}

/** A data rate that the map knows. */
export interface MappedDataRate {
  /** In words: `DR3, SF9`. */
  readonly name: string;
  /** Index of the region. */
  readonly dataRate: number;
  readonly spreadingFactor: number;
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
            spreadingFactor: row.spreadingFactor,
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
