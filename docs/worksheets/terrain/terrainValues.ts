import { type JurisdictionName, regions } from '@finial/lora';
import type { BuiltPlan } from '../../../packages/dossier/src/builtPlan.js';
import type { Position } from '../../../packages/dossier/src/position.js';
import type { TerrainPlan } from '../../../packages/dossier/src/terrainPlan.js';

/** What the terrain worksheet asks. */
export interface TerrainValues {
  readonly question: 'ground' | 'skyline' | 'coverage';
  readonly fillVoids: boolean;
  readonly coordinates: 'geographic' | 'utm-north' | 'utm-south';
  readonly zone: number;
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  readonly antennaHeightM: number;
  readonly toLatitudeDeg: number;
  readonly toLongitudeDeg: number;
  readonly nodeHeightM: number;
  readonly frequencyHz: number;
  readonly skylineRadiusM: number;
  readonly radiusM: number;
  readonly cellM: number;
  readonly model: 'p1812' | 'p526' | 'p525';
  readonly region: keyof typeof regions;
  readonly conductedPowerDbm: number;
  readonly nodeGainDbi: number;
  readonly otherLossDb: number;
  readonly gatewayGainDbi: number;
  readonly feedlineLossDb: number;
  readonly noiseFigureDb: number;
  readonly manMadeNoiseDb: number;
  readonly deltaN: number;
  readonly surfaceRefractivity: number;
  readonly clutterHeightM: number;
}

/** Where the gateway stands. */
export function gatewayOf({ latitudeDeg, longitudeDeg }: TerrainValues): Position {
  return { latitudeDeg, longitudeDeg };
}

/** The other end of the path. */
export function placeOf({ toLatitudeDeg, toLongitudeDeg }: TerrainValues): Position {
  return { latitudeDeg: toLatitudeDeg, longitudeDeg: toLongitudeDeg };
}

/** Bandwidth whose data rates the map shows; every region has it. */
export const bandwidthHz = 125_000;

/** The slowest LoRa data rate of a region with that bandwidth. */
function slowestDataRate(region: keyof typeof regions): number {
  const row = regions[region].dataRates.find(
    (each) => each.modulation === 'LoRa' && each.direction !== 'downlink' && each.bandwidthHz === bandwidthHz,
  );
  return row?.dataRate ?? 0;
}

/** Law says how often a node may send, which no answer of this worksheet uses. */
const jurisdiction: JurisdictionName = 'EU';

/** The values as the dossier's own parts take them. */
export function planOf(values: TerrainValues): BuiltPlan {
  const { antennaHeightM, gatewayGainDbi, feedlineLossDb, noiseFigureDb, manMadeNoiseDb } = values;
  const { conductedPowerDbm, otherLossDb, frequencyHz } = values;
  return {
    version: 1,
    name: 'worksheet',
    region: regions[values.region].name as BuiltPlan['region'],
    jurisdiction,
    gateway: {
      position: gatewayOf(values),
      antennaHeightM,
      conductedPowerDbm,
      antennaGainDbi: gatewayGainDbi,
      feedlineLossDb,
      noiseFigureDb,
      manMadeNoiseDb,
    },
    node: {
      heightM: values.nodeHeightM,
      conductedPowerDbm,
      feedlineLossDb: otherLossDb,
      antennaGainDbi: values.nodeGainDbi,
      noiseFigureDb,
      uplink: { dataRate: slowestDataRate(values.region), frequencyHz, applicationBytes: 1 },
      intervalSeconds: 600,
    },
    link: { distanceM: values.radiusM, groundDropM: 0 },
  };
}

/** The ground and the air as the dossier's own parts take them. */
export function terrainOf({ deltaN, surfaceRefractivity, clutterHeightM }: TerrainValues): TerrainPlan {
  return { elevation: [], climate: { deltaN, surfaceRefractivity }, clutterHeightM };
}
