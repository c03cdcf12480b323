export { InputError, isInputError } from '@finial/units';
export { attenuationDb } from './cable/attenuationDb.js';
export { type AttenuationFit, attenuationFit, type FittedPoint } from './cable/attenuationFit.js';
export { type CableLength, type CableLoss, cableLoss } from './cable/cableLoss.js';
export { type ElectricalLength, electricalLength } from './cable/electricalLength.js';
export { type MismatchedLineLoss, mismatchedLineLoss } from './cable/mismatchedLineLoss.js';
export { type PowerHandling, powerHandling } from './cable/powerHandling.js';
export { bandFilters } from './catalogue/bandFilters.js';
export { builtInCatalogue } from './catalogue/builtInCatalogue.js';
export { cableNamed } from './catalogue/cableNamed.js';
export { type CatalogueSchema, catalogueSchema } from './catalogue/catalogueSchema.js';
export { checkCatalogue } from './catalogue/checkCatalogue.js';
export { coaxialCables } from './catalogue/coaxialCables.js';
export { commonAdapters } from './catalogue/commonAdapters.js';
export { commonPigtails } from './catalogue/commonPigtails.js';
export { connectorOf } from './catalogue/connectorOf.js';
export { connectorSeries } from './catalogue/connectorSeries.js';
export { type MergeOptions, mergeCatalogues } from './catalogue/mergeCatalogues.js';
export type {
  Adapter,
  Arrestor,
  ArrestorPrinciple,
  AttenuationPoint,
  Cable,
  Catalogue,
  CatalogueRow,
  Connector,
  Coupling,
  FactStatus,
  Filter,
  Gender,
  PartEnd,
  Pigtail,
  Polarity,
  PowerPoint,
  Sealing,
  TwoEndedRow,
} from './catalogue/parts.js';
export { surgeArrestors } from './catalogue/surgeArrestors.js';
export {
  type AdapterPath,
  type AdapterSearch,
  adaptersBetween,
  type PlacedAdapter,
} from './chain/adaptersBetween.js';
export type { ChainCheck, ChainConditions, ChainJoint, ChainPartLoss } from './chain/ChainCheck.js';
export type { CableRun, ChainPart, Port } from './chain/ChainPart.js';
export { checkChain } from './chain/checkChain.js';
export { endName } from './chain/endName.js';
export { type Mating, mates } from './chain/mates.js';
export { partEnd } from './chain/partEnd.js';
export {
  type CableComparison,
  type CableLeftOut,
  type CableQuestion,
  type ComparedCable,
  compareCables,
} from './choice/compareCables.js';
export {
  type GatewayPlacement,
  gatewayAtAntenna,
  type PlacementComparison,
} from './choice/gatewayAtAntenna.js';
export { improveRun, type RunAdvice, type RunImprovement, type RunQuestion } from './choice/improveRun.js';
export type {
  ArrestorPlace,
  JointSeal,
  OutdoorArrestor,
  OutdoorJoint,
  OutdoorRun,
} from './weather/OutdoorRun.js';
export { weatherFindings } from './weather/weatherFindings.js';
