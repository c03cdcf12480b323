import { eirpDbm, noiseFigureCascade } from '@finial/radio';
import { checkObject, checkOneOf, checkRange, frequencyHints, InputError } from '@finial/units';
import { builtInCatalogue } from '../catalogue/builtInCatalogue.js';
import type { ChainCheck, ChainConditions } from './ChainCheck.js';
import type { ChainPart } from './ChainPart.js';
import type { ChainTerms } from './ChainTerms.js';
import { chainFindings } from './chainFindings.js';
import { checkedParts, checkTemperature } from './checkedParts.js';
import { type JointLoss, jointOf } from './jointOf.js';
import { combinedUncertaintyDb } from './lossDoubts.js';
import { partLoss } from './partLoss.js';
import { searchableCatalogue } from './searchableCatalogue.js';

/**
 * Loss of a chain of parts from the radio to the antenna, whether its joints mate, and what is missing.
 *
 * Every part is judged with its neighbours; a joint that does not mate gets the fewest adapters that mend it, and counts with their loss. Cable
 * lengths of one designation err together and their uncertainties add; contacts, arrestors and filters err independently. Reflections are
 * counted step by step, without the standing wave between a radio and an antenna that are not matched.
 *
 * Passive intermodulation is left out: no row states it.
 *
 * @param parts - 1 to 100, the first end of each towards the radio; a port only first or last. Cable runs 0.001 to 1000 m, pigtails to 100 m;
 *   losses of rows 0 to 60 dB, their uncertainties 0 to 20 dB; impedances 1 to 500 ohms
 * @returns losses in dB with their uncertainty, and findings; a joint that does not mate is a `stop`, since no signal passes or a part breaks
 * @throws {@link InputError} `wrong-type`, `missing`, `unknown-option`, `not-a-finite-number`, `out-of-range`, or `outside-validity` where the
 *   figures of a cable do not reach the frequency and this was not allowed
 * @source Cable law: see {@link cableLoss}; pair of connectors with the square root of frequency: common practice, no source; uncertainties of
 *   independent causes: JCGM 100:2008 (GUM), 5.1.2 and, for those of one cause, 5.2.2
 * @example 10 m of cable on the wrong kind of jack
 * ```ts
 * import { cableNamed, checkChain, partEnd } from '@finial/feedline';
 *
 * const chain = checkChain(
 *   [
 *     { kind: 'port', name: 'gateway', end: partEnd('RP-SMA jack') },
 *     { kind: 'cable-run', cable: cableNamed('RG-58C/U'), lengthM: 10, ends: [partEnd('SMA plug'), partEnd('N plug')] },
 *     { kind: 'port', name: 'antenna', end: partEnd('N jack') },
 *   ],
 *   { frequencyHz: 868.1e6 },
 * );
 * chain.joins; // → false
 * chain.joints[0]?.reason; // → 'the bodies join, pin meets pin: a bent contact, or none'
 * chain.parts[1]?.lossDb; // ≈ 6.3
 * ```
 */
export function checkChain(parts: readonly ChainPart[], conditions: ChainConditions): ChainCheck {
  const terms = checkedTerms(conditions);
  const checked = checkedParts(parts, terms.catalogue.connectors);
  const measured = checked.map((part) => ({ ...part, loss: partLoss(part, terms) }));
  const losses = measured.map(({ loss }) => loss);
  const joints: JointLoss[] = [];
  checked.reduce((radioSide, antennaSide) => {
    joints.push(jointOf(radioSide, antennaSide, terms));
    return antennaSide;
  });

  const lossDb = [...losses, ...joints.map(({ joint }) => joint)].reduce((sum, item) => sum + item.lossDb, 0);
  const lossUncertaintyDb = combinedUncertaintyDb([...losses, ...joints].flatMap(({ doubts }) => doubts));
  const shareOfLossRatio = (ownDb: number) => (lossDb === 0 ? 0 : ownDb / lossDb);
  const unmended = joints.filter(({ joint }) => !joint.mates && joint.adapters === undefined);
  return {
    joins: joints.every(({ joint }) => joint.mates),
    lossDb,
    lossUncertaintyDb,
    leastLossDb: Math.max(0, lossDb - lossUncertaintyDb),
    greatestLossDb: lossDb + lossUncertaintyDb,
    parts: measured.map(({ name, part, loss }) => ({
      name,
      kind: part.kind,
      lossDb: loss.lossDb,
      lossUncertaintyDb: combinedUncertaintyDb(loss.doubts),
      shareOfLossRatio: shareOfLossRatio(loss.lossDb),
    })),
    joints: joints.map(({ joint }) => ({ ...joint, shareOfLossRatio: shareOfLossRatio(joint.lossDb) })),
    findings: chainFindings({ parts: measured, joints, lossDb, terms }),
    warnings: [
      ...losses.flatMap(({ warnings }) => warnings),
      ...unmended.map(
        ({ joint }) =>
          `the loss leaves out the joint of ${joint.between}, which nothing in the catalogue mends`,
      ),
    ],
    ...radiationOf(lossDb, conditions),
    ...receptionOf(lossDb, conditions),
  };
}

function checkedTerms(conditions: ChainConditions): ChainTerms {
  checkObject(conditions, 'conditions');
  const { temperatureC = 20, catalogue = builtInCatalogue, outsideValidity = 'refuse' } = conditions;
  const band = { min: 1e6, max: 100e9, unit: 'hertz', hints: frequencyHints };
  return {
    frequencyHz: checkRange(conditions.frequencyHz, 'frequencyHz', band),
    temperatureC: checkTemperature(temperatureC, 'temperatureC'),
    catalogue: searchableCatalogue(catalogue, 'catalogue'),
    outsideValidity: checkOneOf<'refuse' | 'allow'>(outsideValidity, 'outsideValidity', ['refuse', 'allow']),
  };
}

function radiationOf(
  feedlineLossDb: number,
  { conductedPowerDbm, antennaGainDbi }: ChainConditions,
): Pick<ChainCheck, 'eirpDbm'> {
  if (conductedPowerDbm === undefined && antennaGainDbi === undefined) return {};
  const [argument, other] =
    conductedPowerDbm === undefined
      ? ['conductedPowerDbm', 'antennaGainDbi']
      : ['antennaGainDbi', 'conductedPowerDbm'];
  if (conductedPowerDbm === undefined || antennaGainDbi === undefined) {
    throw new InputError({
      code: 'missing',
      argument,
      received: undefined,
      expected: `a value beside ${other}`,
    });
  }
  return { eirpDbm: eirpDbm({ conductedPowerDbm, feedlineLossDb, antennaGainDbi }) };
}

/** The chain ahead of the receiver, as a passive part at 290 K: its noise figure is its loss. */
function receptionOf(
  lossDb: number,
  { receiverNoiseFigureDb }: ChainConditions,
): Pick<ChainCheck, 'systemNoiseFigureDb'> {
  if (receiverNoiseFigureDb === undefined) return {};
  checkRange(receiverNoiseFigureDb, 'receiverNoiseFigureDb', { min: 0, max: 100, unit: 'dB' });
  const chain = { noiseFigureDb: lossDb, gainDb: -lossDb };
  const receiver = { noiseFigureDb: receiverNoiseFigureDb, gainDb: 0 };
  return { systemNoiseFigureDb: noiseFigureCascade([chain, receiver]).noiseFigureDb };
}
