export { InputError, isInputError } from '@finial/units';
export { bitRateBps, type LoRaModulation } from './bitRateBps.js';
export { type Citation, type CitationStatus, citationText } from './Citation.js';
export { channelFrequenciesHz } from './channelFrequenciesHz.js';
export { checkTransmission, type TransmissionCheck } from './checkTransmission.js';
export { type DutyCycledFrame, minimumIntervalSeconds } from './dutyCycle.js';
export { type DwellingFrame, dwellIntervalSeconds } from './dwellTime.js';
export { type AnsweredUplink, firstWindowDataRate } from './firstWindowDataRate.js';
export type {
  AcrossAnEdge,
  BandPlace,
  BandPlan,
  FreeOfDutyCycle,
  InReservedBand,
  InSubBand,
  NotCovered,
  ReservedBand,
  SubBand,
} from './law/bandPlan.js';
export { euBandPlan } from './law/eu.js';
export {
  type AntennaBackOff,
  conductedLimitDbm,
  type HoppingRule,
  type UsRules,
  usBandPlan,
  usRules,
} from './law/us.js';
export { loraBandwidthsHz } from './loraBandwidth.js';
export type { LowDataRateOptimize } from './lowDataRateOptimize.js';
export { type MaxPayload, maxPayload, type PayloadQuestion } from './maxPayload.js';
export { type DataFrame, phyPayloadBytes } from './phyPayloadBytes.js';
export type {
  ChannelGroup,
  DataRate,
  DataRateRow,
  Direction,
  FirstWindow,
  FskDataRate,
  LoRaDataRate,
  LrFhssDataRate,
  ReceiveDelays,
  Region,
  RegionDwell,
  RegionGroup,
  RegionPower,
  SecondWindow,
} from './Region.js';
export * as regions from './regions.js';
export { requiredSnrDb } from './requiredSnrDb.js';
export { type LoRaReceiver, sensitivityDbm } from './sensitivityDbm.js';
export { type Channel, subBandAt } from './subBandAt.js';
export type {
  ChannelUse,
  JurisdictionName,
  Transmission,
  TransmissionChange,
  TransmissionFinding,
} from './Transmission.js';
export { type Frame, type TimeOnAir, timeOnAir } from './timeOnAir.js';
