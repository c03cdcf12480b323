export { InputError, isInputError } from '@finial/units';
export type { AntennaCut, AntennaPart, PatternPart, SweepCurves } from './antennaPart.js';
export { type AssembleOptions, assembleDossier, type PlanFiles, type Progress } from './assembleDossier.js';
export type { BeaconDay } from './beaconDays.js';
export type { BeaconPart, BeaconWatch } from './beaconPart.js';
export type { BeaconPoint } from './beaconPoints.js';
export type { CalibrationPart, ProbabilityBand } from './calibrationPart.js';
export type { AreaPolygons } from './contourAreas.js';
export type { CoverageBand, CoveragePart, SweptCoverage } from './coveragePart.js';
export type { Dossier, MissingPart, Verdict } from './Dossier.js';
export type { FeedlinePart, OtherRun } from './feedlinePart.js';
export type {
  CableRunPlan,
  FeedlinePartPlan,
  FeedlinePlan,
  OtherRunPlan,
  PortPlan,
  ReadyPartPlan,
} from './feedlinePlan.js';
export type { GroundPath } from './groundPath.js';
export type { DataRateRow, LawPart } from './lawPart.js';
export type { LinkBudgetPart, LinkCertainty } from './linkBudgetPart.js';
export { parsePlan } from './parsePlan.js';
export type { NamedPlace, PlacePath } from './placePaths.js';
export type {
  AntennaPlan,
  BeaconPlan,
  ChannelUse,
  ElementSweepPlan,
  GatewayPlan,
  LinkPlan,
  NamedLoss,
  NodePlan,
  PatternPlan,
  Plan,
  RegionName,
  SweepLeadPlan,
  TransmissionPlan,
  WalkColumn,
  WalkPlan,
} from './plan.js';
export { planJsonSchema } from './planJsonSchema.js';
export type { Position } from './position.js';
export type { ReliefPart } from './reliefPart.js';
export { renderHtml } from './renderHtml.js';
export type { SitePart } from './sitePart.js';
export type { BoxPlan, MoisturePlan, SitePlan } from './sitePlan.js';
export type { SiteArea, SitePoint, SiteRow, SitesPart } from './sitesPart.js';
export type { SkylinePart, TerrainPart } from './terrainPart.js';
export type { CandidateSitePlan, ClimatePlan, CoveragePlan, PointPlan, TerrainPlan } from './terrainPlan.js';
export { toGeoJson } from './toGeoJson.js';
export type { SpotSummary, WalkFrame, WalkPart } from './walkPart.js';
