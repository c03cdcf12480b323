export { InputError, isInputError } from '@finial/units';
export {
  type CollinearArray,
  type CollinearDirection,
  type CollinearPattern,
  type CollinearTable,
  collinearGainDbi,
  collinearPattern,
} from './pattern/collinearPattern.js';
export {
  type ElevationPattern,
  type ElevationPatternQuestion,
  elevationPattern,
} from './pattern/elevationPattern.js';
export { gainTowardsDbi, type PatternDirection } from './pattern/gainTowardsDbi.js';
export { gainTowardsNode, type NodeDirection, type NodeGain } from './pattern/gainTowardsNode.js';
export { type ElevationDirection, halfWaveDipoleGainDbi } from './pattern/halfWaveDipoleGainDbi.js';
export { type PatternTable, patternFloorDbi } from './pattern/PatternTable.js';
export { type Collinear, type CollinearQuestion, collinear } from './sizing/collinear.js';
export { type Dipole, dipole } from './sizing/dipole.js';
export type { ElementQuestion } from './sizing/elementChecks.js';
export { type FiveEighths, type FiveEighthsQuestion, fiveEighths } from './sizing/fiveEighths.js';
export { type GroundPlane, type GroundPlaneQuestion, groundPlane } from './sizing/groundPlane.js';
export { type JPole, jPole } from './sizing/jPole.js';
export { type Monopole, monopole } from './sizing/monopole.js';
export type { AntennaFigures, CutLengths } from './sizing/sizedElement.js';
export { type SleeveDipole, type SleeveDipoleQuestion, sleeveDipole } from './sizing/sleeveDipole.js';
export { deembedFeedline, embedFeedline } from './sweep/deembedFeedline.js';
export {
  deembedTwoPort,
  embedTwoPort,
  type InsertionLossQuestion,
  insertionLossDb,
} from './sweep/deembedTwoPort.js';
export type { FeedlineLead } from './sweep/feedlineLead.js';
export { formatTouchstone, type TouchstoneForm } from './sweep/formatTouchstone.js';
export type { MatchBand } from './sweep/matchBand.js';
export { knowsPhase, type MagnitudeSweep, type OnePortSweep } from './sweep/OnePortSweep.js';
export { parseSweepCsv, type SweepCsvColumns, type SweepCsvSource } from './sweep/parseSweepCsv.js';
export { parseTouchstone, parseTouchstoneTwoPort, type TouchstoneSource } from './sweep/parseTouchstone.js';
export type { QualityFactor } from './sweep/qualityFactor.js';
export type { ReactanceZero } from './sweep/reactanceZeros.js';
export { readSweep, type SweepQuestion, type SweepReading } from './sweep/readSweep.js';
export type { SweepPoint } from './sweep/SweepPoint.js';
export type { ComplexSeries, TwoPortSweep } from './sweep/TwoPortSweep.js';
export { type TrimAdvice, type TrimCut, type TrimPlan, trimAdvice } from './trim/trimAdvice.js';
export type { TrimmedPart } from './trim/trimSlopes.js';
export { averageGainRatio } from './wires/averageGainRatio.js';
export { type ConvergenceStep, type ConvergenceSteps, convergence } from './wires/convergence.js';
export {
  type FarFieldDirection,
  type FarFieldGain,
  farFieldGain,
  farFieldGainDbi,
} from './wires/farFieldGain.js';
export { type MaximumGain, maximumGain } from './wires/maximumGain.js';
export {
  type AzimuthCut,
  azimuthCut,
  type ElevationCut,
  elevationCut,
  type GainCut,
} from './wires/patternCuts.js';
export type { SolveWiresSettings } from './wires/SolveWiresSettings.js';
export { solveWires } from './wires/solveWires.js';
export type { Point, Wire, WireGround, WireSource } from './wires/Wire.js';
export type { SolvedWire, WireFeed, WireSolution } from './wires/WireSolution.js';
