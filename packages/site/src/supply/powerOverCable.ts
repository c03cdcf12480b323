import { checkObject, checkOneOf, checkRange, type Finding, InputError } from '@finial/units';
import { lineState } from './lineState.js';
import { checkedNeed, loopOhmPerM } from './SupplyLine.js';
import { supplyCautions } from './supplyCautions.js';
import { type SupplyWire, wireNamed } from './wireNamed.js';
import { lineLengthBounds } from './wireResistanceOhm.js';

/** Types of IEEE 802.3 power, and `passive` for a voltage that is put on the pairs without asking. */
export type CablePowerType = 'type-1' | 'type-2' | 'type-3' | 'type-4' | 'passive';

/** Power sent up a data cable. */
export interface CablePower {
  /** The weaker of what the injector and the gateway state: `type-1` is 802.3af, `type-2` 802.3at, `type-3` and `type-4` 802.3bt. */
  readonly type: CablePowerType;
  /** Length of the data cable in metres, 0.01 to 1000; Ethernet over copper is made for 100. */
  readonly lengthM: number;
  /** Power in watts at the gateway's socket, its converter's loss included, at its peak, 1e-6 to 1000. */
  readonly loadW: number;
  /**
   * Wire of the cable.
   *
   * @defaultValue `24 AWG`
   */
  readonly wire?: SupplyWire | undefined;
  /**
   * Voltage in volts of the injector, 1 to 60. A must for `passive`.
   *
   * @defaultValue the least voltage that the type allows
   */
  readonly supplyV?: number | undefined;
  /**
   * Least voltage in volts at the gateway, 1 to 60. A must for `passive`.
   *
   * @defaultValue the least voltage that the type allows
   */
  readonly leastLoadV?: number | undefined;
  /**
   * Temperature of the copper in degrees C, -60 to 200.
   *
   * @defaultValue 20
   */
  readonly temperatureC?: number | undefined;
}

/** What arrives at the far end of a data cable. */
export interface CablePowerResult {
  /** Whether power, voltage and current are all within what the type allows. */
  readonly works: boolean;
  /** Pairs that carry power; half of them lead there, half back. */
  readonly pairsCount: number;
  /** Resistance in ohms of the powered pairs, there and back. */
  readonly loopResistanceOhm: number;
  /** Whether any voltage at the gateway carries this power. */
  readonly holds: boolean;
  /** Voltage in volts at the gateway; not there where it does not hold. */
  readonly loadV?: number | undefined;
  /** Voltage in volts lost on the cable. */
  readonly dropV?: number | undefined;
  /** Current in amperes, all pairs together. */
  readonly currentA?: number | undefined;
  /** Power in watts that heats the cable. */
  readonly wirePowerW?: number | undefined;
  /** Power in watts that the type promises at the gateway; not there for `passive`. */
  readonly promisedW?: number | undefined;
  /** What to change, and what to mind. */
  readonly findings: readonly Finding[];
}

interface TypeLimits {
  readonly pairsCount: 2 | 4;
  readonly leastSupplyV: number;
  readonly leastLoadV: number;
  readonly promisedW: number;
  readonly greatestA: number;
}

const source = 'IEEE 802.3, clauses 33 and 145, table of types as reprinted on three public pages (read)';
const typeLimits: Readonly<Record<Exclude<CablePowerType, 'passive'>, TypeLimits>> = {
  'type-1': { pairsCount: 2, leastSupplyV: 44, leastLoadV: 37, promisedW: 12.95, greatestA: 0.35 },
  'type-2': { pairsCount: 2, leastSupplyV: 50, leastLoadV: 42.5, promisedW: 25.5, greatestA: 0.6 },
  'type-3': { pairsCount: 4, leastSupplyV: 50, leastLoadV: 42.5, promisedW: 51, greatestA: 1.2 },
  'type-4': { pairsCount: 4, leastSupplyV: 52, leastLoadV: 41.1, promisedW: 71.3, greatestA: 1.92 },
};
const voltBounds = { min: 1, max: 60, unit: 'volts' };
const greatestEthernetM = 100;

/**
 * Voltage and current of a gateway that is fed over its data cable.
 *
 * Two powered pairs form one loop whose conductors lie two side by side in each direction; four pairs form two such loops. Contacts add
 * the usual 0.04 ohm (common practice, no source). Equal sharing between the pairs is assumed; real pairs differ by some per
 * cent. The heat of bundled cables and the start of the converter are not in it.
 *
 * @returns volts, amperes and watts, as uncertain as the resistance of the wire (1.2 % of the drop for a full-size gauge; thin patch cables differ more)
 * @throws {@link InputError} `wrong-type`, `unknown-option`, `missing`, `not-a-finite-number` or `out-of-range`
 * @source IEEE 802.3, clauses 33 and 145, limits of the types as reprinted; circuit law for a constant-power load (own derivation)
 * @example 8 W up 50 m of data cable
 * ```ts
 * import { powerOverCable } from '@finial/site';
 *
 * const fed = powerOverCable({ type: 'type-1', lengthM: 50, loadW: 8 });
 * fed.loadV; // ≈ 43.21
 * fed.works; // → true
 * ```
 */
export function powerOverCable(cable: CablePower): CablePowerResult {
  checkObject(cable, 'cable');
  const { wire = '24 AWG', temperatureC } = cable;
  const type = checkOneOf(cable.type, 'type', ['type-1', 'type-2', 'type-3', 'type-4', 'passive']);
  const limits = type === 'passive' ? undefined : typeLimits[type];
  const pairsCount = limits?.pairsCount ?? 2;
  const need = checkedNeed({
    supplyV: volts(cable.supplyV, 'supplyV', limits?.leastSupplyV),
    leastLoadV: volts(cable.leastLoadV, 'leastLoadV', limits?.leastLoadV),
    states: [
      { name: 'peak', powerW: checkRange(cable.loadW, 'loadW', { min: 1e-6, max: 1000, unit: 'watts' }) },
    ],
    conductorsCount: pairsCount,
    temperatureC,
  });
  const lengthM = checkRange(cable.lengthM, 'lengthM', lineLengthBounds);
  const loopResistanceOhm = loopOhmPerM(need, wireNamed(wire, 'wire')) * lengthM;
  const [load] = need.states;
  if (load === undefined) throw new Error('a cable has one load');
  const { holds, works, loadV, dropV, currentA, wirePowerW } = lineState(
    load,
    loopResistanceOhm + need.connectorsOhm,
    need,
  );
  const problems = [
    ...voltageFindings(works, loadV, need.leastLoadV),
    ...(limits === undefined ? [] : limitFindings(cable.loadW, currentA, limits)),
    ...lengthFindings(lengthM),
  ];
  return {
    works: problems.length === 0,
    pairsCount,
    loopResistanceOhm,
    holds,
    loadV,
    dropV,
    currentA,
    wirePowerW,
    promisedW: limits?.promisedW,
    findings: [...problems, ...cableCautions(type), ...supplyCautions(need.supplyV)],
  };
}

function volts(given: number | undefined, argument: string, fallback: number | undefined): number {
  if (given !== undefined) return checkRange(given, argument, voltBounds);
  if (fallback !== undefined) return fallback;
  const expected = 'volts, because passive power follows no standard';
  throw new InputError({ code: 'missing', argument, received: given, expected });
}

function voltageFindings(works: boolean, loadV: number | undefined, leastLoadV: number): readonly Finding[] {
  if (works) return [];
  const measured = loadV === undefined ? undefined : `${loadV.toFixed(1)} V`;
  const limit = `${leastLoadV} V`;
  const message = `The gateway has ${measured ?? 'no voltage that holds'}, it needs ${limit}: shorten the cable, take thicker copper, or a type with more voltage or more pairs.`;
  return [{ rule: 'cable-power-voltage', severity: 'fix', message, measured, limit, source }];
}

function limitFindings(loadW: number, currentA: number | undefined, limits: TypeLimits): readonly Finding[] {
  const found: Finding[] = [];
  if (loadW > limits.promisedW) {
    const [measured, limit] = [`${loadW} W`, `${limits.promisedW} W`];
    const message = `The gateway draws ${measured}, this type promises ${limit} at the far end: take the next type.`;
    found.push({ rule: 'cable-power-class', severity: 'fix', message, measured, limit, source });
  }
  // A hair over the limit is rounding of the standard's own figures: 12.95 W at 37 V is 0.35 A.
  if (currentA !== undefined && currentA > limits.greatestA * (1 + 1e-9)) {
    const [measured, limit] = [`${currentA.toFixed(3)} A`, `${limits.greatestA} A`];
    const message = `The cable would carry ${measured}, this type allows ${limit}: raise the voltage or take the next type.`;
    found.push({ rule: 'cable-power-current', severity: 'fix', message, measured, limit, source });
  }
  return found;
}

function lengthFindings(lengthM: number): readonly Finding[] {
  if (lengthM <= greatestEthernetM) return [];
  const [measured, limit] = [`${lengthM} m`, '100 m'];
  const message = `Ethernet over copper is made for ${limit} including patch cords, this cable has ${measured}: put a switch between, or fibre.`;
  const rule = 'cable-length';
  return [
    {
      rule,
      severity: 'fix',
      message,
      measured,
      limit,
      source: 'IEEE 802.3, 100 m channel (common practice)',
    },
  ];
}

function cableCautions(type: CablePowerType): readonly Finding[] {
  const note = (rule: string, message: string): Finding => ({
    rule,
    severity: 'note',
    message,
    source: 'common practice, no source',
  });
  const general = [
    note(
      'cable-surge',
      'A data cable to the roof needs surge protection of its own at the entry, tied to the common bonding point under the local code; fibre breaks the path altogether. Ask a licensed practitioner.',
    ),
    note(
      'cable-copper',
      'Use solid full-copper cable for outdoors: copper-clad aluminium drops half as much again and is barred from power over Ethernet.',
    ),
  ];
  if (type !== 'passive') return general;
  const message =
    'Passive injectors put voltage on the pairs without asking: check voltage, polarity and pairs of both ends, and never plug other equipment into that cable.';
  return [note('cable-passive', message), ...general];
}
