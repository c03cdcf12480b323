export { InputError, isInputError } from '@finial/units';
export { type BackhaulChoice, type BackhaulSite, backhaulChoices } from './backhaul/backhaulChoices.js';
export { type IndoorPath, indoorLossDb } from './backhaul/indoorLossDb.js';
export { type Slab, type SlabMaterial, type SlabQuestion, slabLossDb } from './backhaul/slabLossDb.js';
export { type WallLoss, type WifiBackhaul, type WifiPath, wifiBackhaul } from './backhaul/wifiBackhaul.js';
export { type WifiThreshold, wifiThresholds } from './backhaul/wifiThresholds.js';
export type { Enclosure } from './heat/Enclosure.js';
export { type BoxShape, effectiveAreaM2 } from './heat/effectiveAreaM2.js';
export { type EnclosureBalance, type EnclosureInWeather, enclosureBalance } from './heat/enclosureBalance.js';
export {
  type EnclosureDay,
  type EnclosureHour,
  type EnclosureOnADay,
  enclosureDay,
} from './heat/enclosureDay.js';
export { enclosureRiseK, type SealedBox } from './heat/enclosureRiseK.js';
export type { HeatRemedy } from './heat/heatRemedies.js';
export { type BoxColour, solarAbsorptivityRatios } from './heat/solarAbsorptivity.js';
export { type PlateInAir, surfaceConvectionWPerM2K } from './heat/surfaceConvection.js';
export { absoluteHumidityKgPerM3 } from './moisture/absoluteHumidityKgPerM3.js';
export { type BoxInDamp, type BoxMoisture, type BoxMoment, boxMoisture } from './moisture/boxMoisture.js';
export { type DesiccantNeed, type DryingTask, desiccantUnits } from './moisture/desiccantUnits.js';
export { dewPointC, type MoistAir } from './moisture/dewPointC.js';
export { magnusPressurePa } from './moisture/magnusPressurePa.js';
export { saturationPressurePa } from './moisture/saturationPressurePa.js';
export type {
  LadderUse,
  LightningState,
  MainsUse,
  OverheadLines,
  SafetyQuestion,
} from './safety/SafetyQuestion.js';
export { safetyFindings } from './safety/safetyFindings.js';
export { type ClearSky, clearSky } from './sun/clearSky.js';
export { type FaceSunshine, type SunlitFace, sunOnFace } from './sun/sunOnFace.js';
export { type SunPosition, type SunSighting, sunPosition } from './sun/sunPosition.js';
export type { SupplyState } from './supply/lineState.js';
export { longestRunM } from './supply/longestRunM.js';
export {
  type CablePower,
  type CablePowerResult,
  type CablePowerType,
  powerOverCable,
} from './supply/powerOverCable.js';
export type { LoadState, SupplyNeed, SupplyReach } from './supply/SupplyLine.js';
export { type SolarLoad, type SolarSizing, solarSizing } from './supply/solarSizing.js';
export { type SupplyDrop, type SupplyLine, supplyDrop } from './supply/supplyDrop.js';
export { type SupplyWireRow, supplyWireTable } from './supply/supplyWireTable.js';
export { type SupplyRoute, thinnestWire } from './supply/thinnestWire.js';
export type { MeasuredWire, SupplyWire } from './supply/wireNamed.js';
export { type WireRun, wireResistanceOhm } from './supply/wireResistanceOhm.js';
export {
  type DragCoefficient,
  type DragQuestion,
  type DragShape,
  dragCoefficient,
} from './wind/dragCoefficient.js';
export {
  type BallastFoot,
  type BallastHold,
  type FixedFoot,
  type MastLoad,
  type MastPart,
  type MastQuestion,
  mastLoad,
  type PartLoad,
} from './wind/mastLoad.js';
export { type MastMaterial, type MastMaterialName, mastMaterials } from './wind/mastMaterials.js';
export { type RidgeClamp, type RidgeClampQuestion, ridgeClamp } from './wind/ridgeClamp.js';
export { type MastTube, type SpreadForce, type TubeInWind, tubeInWind } from './wind/tubeInWind.js';
export {
  type AsceExposureCategory,
  type AsceWind,
  type EnTerrainCategory,
  type EnWind,
  type WindPressure,
  type WindQuestion,
  windPressure,
} from './wind/windPressure.js';
