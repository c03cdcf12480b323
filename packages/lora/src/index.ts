export { InputError, isInputError } from '@finial/units';
export { type AlohaDelivery, type AlohaTraffic, alohaDelivery, type Capture } from './alohaDelivery.js';
export { type BatteryLife, type BatteryUse, batteryLife } from './batteryLife.js';
export { bitRateBps, type LoRaModulation } from './bitRateBps.js';
export { type Citation, type CitationStatus, citationText } from './Citation.js';
export { channelFrequenciesHz } from './channelFrequenciesHz.js';
export { checkTransmission, type TransmissionCheck } from './checkTransmission.js';
export type { ChipGeneration } from './chipGeneration.js';
export { type CitedRows, citationOf } from './citationOf.js';
export { describeReception, type Reception, type ReceptionDescription } from './describeReception.js';
export { type DownlinkLimit, type DownlinkQuestion, downlinkLimits } from './downlinkLimits.js';
export { type DutyCycledFrame, minimumIntervalSeconds } from './dutyCycle.js';
export { type DwellingFrame, dwellIntervalSeconds } from './dwellTime.js';
export {
  type CurrentPhase,
  type EnergyItem,
  energyPerFrame,
  type FrameEnergy,
  type NodeCycle,
} from './energyPerFrame.js';
export { type DemodulatorDemand, erlangBlockingRatio } from './erlangBlockingRatio.js';
export { type AnsweredUplink, firstWindowDataRate } from './firstWindowDataRate.js';
export type { FrameTime, FskFrameTime, LoRaFrameTime, LrFhssFrameTime } from './frameTimeOnAir.js';
export { type FskFrame, type FskTimeOnAir, fskTimeOnAir } from './fskTimeOnAir.js';
export {
  type CapacityLoss,
  type CapacityLossName,
  type DownlinkLoad,
  type GatewayCapacity,
  type GatewayLoad,
  type GroupDelivery,
  gatewayCapacity,
  type NodeGroup,
} from './gatewayCapacity.js';
export { type AirtimeLimit, type AirtimeQuestion, airtimeLimits } from './law/airtimeLimits.js';
export { auBandPlan } from './law/au.js';
export type {
  AcrossAnEdge,
  BandFact,
  BandPlace,
  BandPlan,
  FreeOfDutyCycle,
  InReservedBand,
  InSubBand,
  Listening,
  NotCovered,
  ReservedBand,
  SubBand,
} from './law/bandPlan.js';
export { cnBandPlan } from './law/cn.js';
export { type AntennaBackOff, conductedLimitDbm } from './law/conductedLimitDbm.js';
export { euBandPlan } from './law/eu.js';
export { inBandPlan } from './law/india.js';
export { jpBandPlan } from './law/jp.js';
export { krBandPlan } from './law/kr.js';
export type { LawRule } from './law/LawRule.js';
export { lawRules } from './law/lawRules.js';
export { type HoppingRule, type UsRules, usBandPlan, usRules } from './law/usRules.js';
export { type LawfulPace, lawfulPace, type SteadySender } from './lawfulPace.js';
export type { LedgerFrame, LedgerTransmission, WaitingFrame } from './ledger/LedgerFrame.js';
export type { LedgerEntry, LedgerState } from './ledger/LedgerState.js';
export { type LongestPayload, longestPayloadBytes, type PayloadTime } from './longestPayloadBytes.js';
export { loraBandwidthsHz } from './loraBandwidth.js';
export { type LoRaSymbol, loraSymbol, type SymbolModulation } from './loraSymbol.js';
export type { LowDataRateOptimize } from './lowDataRateOptimize.js';
export { type LrFhssFrame, type LrFhssTimeOnAir, lrFhssTimeOnAir } from './lrFhssTimeOnAir.js';
export { type MaxPayload, maxPayload, type PayloadQuestion } from './maxPayload.js';
export { type ChannelPlanChoice, onChannelPlan } from './onChannelPlan.js';
export { type DataFrame, phyPayloadBytes } from './phyPayloadBytes.js';
export { processingGainDb } from './processingGainDb.js';
export type {
  ChannelGroup,
  ChannelPlan,
  DataRate,
  DataRateRow,
  Direction,
  FirstWindow,
  FskDataRate,
  JoinChannel,
  LoRaDataRate,
  LowerPowerPart,
  LrFhssDataRate,
  ReceiveDelays,
  Region,
  RegionDefaults,
  RegionDwell,
  RegionGroup,
  RegionPower,
  RowCitations,
  SecondWindow,
} from './Region.js';
export { type RadioCurrent, radioCurrents } from './radioCurrents.js';
export { type ReceptionTerm, receptionTerms } from './receptionTerms.js';
export * as regions from './regions.js';
export { requiredSnrDb } from './requiredSnrDb.js';
export { type LoRaReceiver, sensitivityDbm } from './sensitivityDbm.js';
export { type ReportedLevel, type SignalAndNoise, signalAndNoiseDbm } from './signalAndNoiseDbm.js';
export { type DataRateQuestion, type SlowestDataRate, slowestDataRate } from './slowestDataRate.js';
export { type Channel, subBandAt } from './subBandAt.js';
export type {
  Access,
  ChannelSet,
  ChannelUse,
  JurisdictionName,
  Transmission,
  TransmissionChange,
  TransmissionFinding,
} from './Transmission.js';
export { type Frame, type FrameSettings, type TimeOnAir, timeOnAir } from './timeOnAir.js';
export { type FrameSeries, timesOnAirSeconds } from './timesOnAirSeconds.js';
export {
  type BookUse,
  type LedgerAnswer,
  type LedgerSettings,
  type TransmitLedger,
  transmitLedger,
} from './transmitLedger.js';
export {
  type DataRateChoice,
  type UsableDataRate,
  type UsableDataRatesQuestion,
  usableDataRates,
} from './usableDataRates.js';
