import type { AsceExposureCategory, BoxColour, EnTerrainCategory, MastMaterialName } from '@finial/site';

/** What the supply line asks for. */
export interface SupplyValues {
  readonly supplyV: number;
  readonly leastLoadV: number;
  readonly wire: string;
  readonly wireOhmPerM: number;
  readonly lengthM: number;
  readonly conductorsCount: '1' | '2' | '4';
  readonly connectorsOhm: number;
  readonly wireTemperatureC: number;
  readonly load: 'power' | 'current';
  readonly idleW: number;
  readonly transmitW: number;
  readonly bootW: number;
  readonly idleA: number;
  readonly transmitA: number;
  readonly bootA: number;
}

/** What the box and its day ask for. */
export interface BoxValues {
  readonly widthM: number;
  readonly heightM: number;
  readonly depthM: number;
  readonly mounting: 'free-standing' | 'wall';
  readonly faceAzimuthDeg: number;
  readonly powerW: number;
  readonly colour: BoxColour | 'stated';
  readonly absorptivityRatio: number;
  readonly shadeRatio: number;
  readonly ventAreaM2: number;
  readonly month: string;
  readonly day: number;
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  readonly highestAirC: number;
  readonly lowestAirC: number;
  readonly windMPerS: number;
  readonly albedoRatio: number;
  readonly electronicsLimitC: number;
}

/** What the damp in the box asks for besides. */
export interface DampValues extends BoxValues {
  readonly relativeHumidityPercent: number;
  readonly breathing: 'gasketed' | 'vented';
  readonly desiccantUnitsCount: number;
  readonly serviceDays: number;
  readonly glandsFaceDown: boolean;
  readonly dripLoops: boolean;
  readonly hasDrain: boolean;
}

/** What the mast in the wind asks for. */
export interface WindValues {
  readonly code: 'asce-7' | 'en-1991-1-4';
  readonly gustSpeedMPerS: number;
  readonly meanSpeedMPerS: number;
  readonly exposureCategory: AsceExposureCategory;
  readonly terrainCategory: EnTerrainCategory;
  readonly heightAboveGroundM: number;
  readonly tubeDiameterM: number;
  readonly tubeLengthM: number;
  readonly tubeWallM: number;
  readonly tubeSupportM: number;
  readonly material: MastMaterialName;
  readonly antennaDiameterM: number;
  readonly antennaLengthM: number;
  readonly hasPlate: boolean;
  readonly plateWidthM: number;
  readonly plateHeightM: number;
  readonly plateCentreM: number;
  readonly iceM: number;
  readonly foot: 'ballast' | 'fixed';
  readonly tippingArmM: number;
  readonly frictionRatio: number;
  readonly ballastKg: number;
  readonly footAreaM2: number;
}

/** What the worksheet asks for. */
export interface SiteValues extends SupplyValues, DampValues, WindValues {
  readonly question: 'supply' | 'heat' | 'damp' | 'wind';
}
