import { checkObject, checkOneOf, checkRange, type Finding, InputError } from '@finial/units';
import { cableLoss } from '../cable/cableLoss.js';
import type { Cable } from '../catalogue/parts.js';

/** A radio below with a long cable, against the same radio at the antenna with a long supply. */
export interface GatewayPlacement {
  /** The long cable of the radio below: a row of any catalogue, or a designation of the built-in one. */
  readonly cable: Cable | string;
  /** Length of that cable in metres, 0 to 10 000. */
  readonly lengthM: number;
  /** Frequency in hertz, 1e6 to 100e9. */
  readonly frequencyHz: number;
  /**
   * Temperature of the cable in degrees C, -60 to 200.
   *
   * @defaultValue 20
   */
  readonly temperatureC?: number | undefined;
  /**
   * What joints and arrestor of the long run lose besides its cable, in dB, 0 to 20.
   *
   * @defaultValue 0
   */
  readonly jointsLossDb?: number | undefined;
  /** What the short link between the antenna and a radio beside it would lose, joints and arrestor included, in dB, 0 to 20. */
  readonly shortLinkLossDb: number;
  /** Voltage in volts of the supply, at its end of the wire, above 0 to 400. */
  readonly supplyV: number;
  /** Power in watts that the radio draws whatever its voltage is (a switching regulator does that), above 0 to 1000. Take its peak. */
  readonly loadW: number;
  /** Length of the supply line in metres, one way, above 0 to 1000. */
  readonly wireLengthM: number;
  /** Resistance of one conductor in ohms per metre at 20 degrees C, above 0 to 10; `supplyWireTable` of `@finial/site` holds standard ones. */
  readonly wireOhmPerM: number;
  /**
   * How many conductors carry the current side by side in each direction: 2 where power over Ethernet uses two pairs, 4 where it uses four.
   *
   * @defaultValue 1
   */
  readonly conductorsCount?: 1 | 2 | 4 | undefined;
  /**
   * Temperature of the wire in degrees C, -60 to 200.
   *
   * @defaultValue 20
   */
  readonly wireTemperatureC?: number | undefined;
  /** Least voltage in volts at which the radio works, above 0 to 400. */
  readonly leastLoadV: number;
  /**
   * Gain in dB from which the move is worth its work outdoors, 0 to 20 (common practice, no source).
   *
   * @defaultValue 1
   */
  readonly worthwhileDb?: number | undefined;
  /**
   * Whether the cable may be taken beyond its published points: `refuse` or `allow` with a warning.
   *
   * @defaultValue `refuse`
   */
  readonly outsideValidity?: 'refuse' | 'allow' | undefined;
}

/** What moving the radio to the antenna gains, and whether its supply follows. */
export interface PlacementComparison {
  /** Where the radio belongs, by the gain and by its supply. */
  readonly recommendation: 'at-antenna' | 'below';
  /** Why, in one sentence with its figures. */
  readonly message: string;
  /** Loss in dB of the long run: cable, joints, arrestor. */
  readonly longRunLossDb: number;
  /** Uncertainty of it in dB. */
  readonly longRunLossUncertaintyDb: number;
  /** What the gateway hears better at the antenna, in dB; negative where it loses. */
  readonly uplinkGainDb: number;
  /** What it sends stronger at the same transmit power, in dB; law may ask to turn that down again. */
  readonly downlinkGainDb: number;
  /** How much farther it hears in free space, as a ratio. */
  readonly uplinkRangeRatio: number;
  /** Resistance in ohms of the supply line, there and back. */
  readonly loopResistanceOhm: number;
  /** Whether any voltage at the radio carries this power through this line. */
  readonly supplyHolds: boolean;
  /** Voltage in volts at the radio; not there where the supply does not hold. */
  readonly loadV?: number | undefined;
  /** Voltage in volts lost on the line. */
  readonly dropV?: number | undefined;
  /** Current in amperes. */
  readonly currentA?: number | undefined;
  /** Power in watts that heats the line. */
  readonly wirePowerW?: number | undefined;
  /** What is wrong with the supply, and what to mind outdoors. */
  readonly findings: readonly Finding[];
  /** Where the figures of the cable go beyond their source. */
  readonly warnings: readonly string[];
}

const unsourced = 'common practice, no source';
const temperatureBounds = { min: -60, max: 200, unit: 'degrees Celsius' };
const lossBounds = { min: 0, max: 20, unit: 'dB' };
const voltBounds = { min: 1e-3, max: 400, unit: 'volts' };
/** Copper at 20 degrees C, as the attenuation law has it too. */
const copperPerKelvin = 0.00393;

/**
 * Compares a radio at the antenna, fed through a long supply line, with the same radio below and a long coaxial cable.
 *
 * Loss ahead of a receiver counts in full against the signal (a line at 290 K; under a quiet sky slightly more), and in full against the
 * power sent. A radio draws constant power, so a lower voltage draws more current, which lowers the voltage again: with the loop resistance R its
 * voltage is (V + sqrt(V² - 4 P R)) / 2, and above P = V² / (4 R) there is none. Only steady state is computed: starting
 * currents, the limits of a supply or of a power-over-Ethernet class, and inductance are not in it; nor are the reflections of a cable of
 * another impedance (see `compareCables`).
 *
 * @returns losses as uncertain as the cable's row; volts and amperes as exact as the resistance (the arithmetic adds less than 1e-9)
 * @throws {@link InputError} `wrong-type`, `unknown-option`, `not-a-finite-number`, `out-of-range` or `outside-validity`
 * @source circuit law for a constant-power load (own derivation); conductor resistances IEC 60228:2004; copper 0.393 % per kelvin at 20 degrees C
 * @example 20 m of RG-58C/U against 12 V over 1.5 mm2
 * ```ts
 * import { gatewayAtAntenna } from '@finial/feedline';
 *
 * const choice = gatewayAtAntenna({
 *   cable: 'RG-58C/U', lengthM: 20, frequencyHz: 868.1e6, shortLinkLossDb: 0.4,
 *   supplyV: 12, loadW: 8, wireLengthM: 20, wireOhmPerM: 0.0133, leastLoadV: 10.8,
 * });
 * choice.recommendation; // → 'at-antenna'
 * choice.uplinkGainDb; // ≈ 12.3
 * choice.loadV; // ≈ 11.634
 * ```
 */
export function gatewayAtAntenna(placement: GatewayPlacement): PlacementComparison {
  checkObject(placement, 'placement');
  const { jointsLossDb = 0, worthwhileDb = 1 } = placement;
  const { cable, lengthM, frequencyHz, temperatureC, outsideValidity } = placement;
  const run = cableLoss({ cable, lengthM, frequencyHz, temperatureC, outsideValidity });
  const longRunLossDb = run.lossDb + checkRange(jointsLossDb, 'jointsLossDb', lossBounds);
  const shortLinkLossDb = checkRange(placement.shortLinkLossDb, 'shortLinkLossDb', lossBounds);
  const gainDb = longRunLossDb - shortLinkLossDb;
  const worthDb = checkRange(worthwhileDb, 'worthwhileDb', lossBounds);
  const leastLoadV = checkRange(placement.leastLoadV, 'leastLoadV', voltBounds);
  const supply = supplyLine(placement);

  const reaches = supply.loadV !== undefined && supply.loadV >= leastLoadV;
  const atAntenna = reaches && gainDb >= worthDb;
  const figures = {
    longRunLossDb,
    longRunLossUncertaintyDb: run.lossUncertaintyDb,
    uplinkGainDb: gainDb,
    downlinkGainDb: gainDb,
    uplinkRangeRatio: finiteRatio(gainDb),
    ...supply,
    warnings: run.warnings,
  };
  return {
    recommendation: atAntenna ? 'at-antenna' : 'below',
    message: messageFor({ gainDb, worthDb, leastLoadV, loadV: supply.loadV, reaches }),
    ...figures,
    findings: [...supplyFindings(supply.loadV, leastLoadV), ...(atAntenna ? outdoorFindings(gainDb) : [])],
  };
}

/** In free space 20 dB are ten times the distance. Not `dbToRatio`, whose refusal would name an argument that nobody gave. */
function finiteRatio(gainDb: number): number {
  const ratio = 10 ** (gainDb / 20);
  if (Number.isFinite(ratio)) return ratio;
  throw new InputError({
    code: 'out-of-range',
    argument: 'lengthM',
    received: gainDb,
    expected: 'a run whose loss in dB leaves a range that a number can hold',
  });
}

type SupplyFigures = Pick<
  PlacementComparison,
  'loopResistanceOhm' | 'supplyHolds' | 'loadV' | 'dropV' | 'currentA' | 'wirePowerW'
>;

function supplyLine(placement: GatewayPlacement): SupplyFigures {
  const { conductorsCount = 1, wireTemperatureC = 20 } = placement;
  const supplyV = checkRange(placement.supplyV, 'supplyV', voltBounds);
  const loadW = checkRange(placement.loadW, 'loadW', { min: 1e-6, max: 1000, unit: 'watts' });
  const lengthM = checkRange(placement.wireLengthM, 'wireLengthM', { min: 1e-3, max: 1000, unit: 'metres' });
  const ohmPerM = checkRange(placement.wireOhmPerM, 'wireOhmPerM', {
    min: 1e-6,
    max: 10,
    unit: 'ohms per metre',
  });
  const conductors = checkOneOf(conductorsCount, 'conductorsCount', [1, 2, 4]);
  const temperatureC = checkRange(wireTemperatureC, 'wireTemperatureC', temperatureBounds);
  const warmth = 1 + copperPerKelvin * (temperatureC - 20);
  const loopResistanceOhm = ((2 * lengthM * ohmPerM) / conductors) * warmth;

  const discriminant = supplyV ** 2 - 4 * loadW * loopResistanceOhm;
  if (discriminant < 0) return { loopResistanceOhm, supplyHolds: false };
  // The lower of the two roots is where a regulator stalls; a supply that comes up from zero with a load that waits settles on the upper.
  const loadV = (supplyV + Math.sqrt(discriminant)) / 2;
  const currentA = loadW / loadV;
  return {
    loopResistanceOhm,
    supplyHolds: true,
    loadV,
    dropV: currentA * loopResistanceOhm,
    currentA,
    wirePowerW: currentA ** 2 * loopResistanceOhm,
  };
}

function messageFor(choice: {
  readonly gainDb: number;
  readonly worthDb: number;
  readonly leastLoadV: number;
  readonly loadV: number | undefined;
  readonly reaches: boolean;
}): string {
  const { gainDb, worthDb, leastLoadV, loadV, reaches } = choice;
  const gain = `at the antenna the radio gains ${gainDb.toFixed(1)} dB each way`;
  if (gainDb < worthDb)
    return `Leave the radio below: ${gain}, less than the ${worthDb} dB that the move is worth.`;
  if (reaches) return `Move the radio: ${gain} and has ${loadV?.toFixed(2)} V.`;
  const left = loadV === undefined ? 'the line cannot carry its power' : `it has only ${loadV.toFixed(2)} V`;
  return `Leave the radio below with this line: ${gain}, but ${left} of the ${leastLoadV} V it needs. Take thicker wire or a higher voltage.`;
}

function supplyFindings(loadV: number | undefined, leastLoadV: number): readonly Finding[] {
  const limit = `${leastLoadV} V`;
  const source = 'circuit law for a constant-power load; IEC 60228:2004 resistances';
  if (loadV === undefined) {
    const message =
      'This line cannot carry the power of the radio at any voltage: take thicker wire or a higher voltage.';
    return [{ rule: 'supply-line', severity: 'fix', message, limit, source }];
  }
  if (loadV >= leastLoadV) return [];
  const measured = `${loadV.toFixed(2)} V`;
  const message = `The radio at the antenna would have ${measured}, it needs ${limit}: take thicker wire or a higher voltage.`;
  return [{ rule: 'supply-line', severity: 'fix', message, measured, limit, source }];
}

function outdoorFindings(gainDb: number): readonly Finding[] {
  const note = (rule: string, message: string): Finding => ({
    rule,
    severity: 'note',
    message,
    source: unsourced,
  });
  return [
    note(
      'radiated-power',
      `At the same transmit power the antenna radiates ${gainDb.toFixed(1)} dB more: check the limit of your region and turn down.`,
    ),
    note(
      'outdoor-radio',
      'A radio outdoors meets heat, condensation and lightning: shade, vent and bond it, protect supply and data line as well as the antenna.',
    ),
    note(
      'supply-safety',
      'Lead extra-low voltage from an isolated supply up the mast, never mains. Fuse it at the source. Earthing and surge protection follow the local code and are work for licensed people; no work on a roof in wind, wet or thunder.',
    ),
  ];
}
