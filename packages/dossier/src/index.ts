export { InputError, isInputError } from '@finial/units';
export type { AntennaPart, PatternPart, SweepCurves } from './antennaPart.js';
export { type AssembleOptions, assembleDossier, type PlanFiles, type Progress } from './assembleDossier.js';
export type { CalibrationPart, ProbabilityBand } from './calibrationPart.js';
export type { AreaPolygons } from './contourAreas.js';
export type { CoverageBand, CoveragePart, SweptCoverage } from './coveragePart.js';
export type { Dossier, MissingPart, Verdict } from './Dossier.js';
export type { FeedlinePart } from './feedlinePart.js';
export type {
  CableRunPlan,
  FeedlinePartPlan,
  FeedlinePlan,
  PortPlan,
  ReadyPartPlan,
} from './feedlinePlan.js';
export type { DataRateRow, LawPart } from './lawPart.js';
export type { LinkBudgetPart, LinkCertainty } from './linkBudgetPart.js';
export { parsePlan } from './parsePlan.js';
export type {
  AntennaPlan,
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
export { renderHtml } from './renderHtml.js';
export type { SitePart } from './sitePart.js';
export type { BoxPlan, MoisturePlan, SitePlan } from './sitePlan.js';
export type { SiteArea, SitePoint, SiteRow, SitesPart } from './sitesPart.js';
export type { SkylinePart, TerrainPart } from './terrainPart.js';
export type { CandidateSitePlan, ClimatePlan, CoveragePlan, PointPlan, TerrainPlan } from './terrainPlan.js';
export { toGeoJson } from './toGeoJson.js';
export type { SpotSummary, WalkFrame, WalkPart } from './walkPart.js';
