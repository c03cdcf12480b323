import type { Finding, Severity } from '@finial/units';
import { checkedOutdoorRun } from './checkedOutdoorRun.js';
import type { OutdoorArrestor, OutdoorJoint, OutdoorRun } from './OutdoorRun.js';

const practice = 'common practice, no source';
const localCode =
  'Bonding and lightning protection belong to a licensed person under the local electrical code; no arrestor withstands a direct strike.';
/** Beyond this a cable swings in the wind and pulls on its connector. */
const greatestTieSpacingM = 1;
/** A longer bonding conductor holds the arrestor's body far above earth during a surge, by its inductance. */
const greatestBondLengthM = 1;

/**
 * What water, sun, wind and lightning will do to a feedline in the open, and what to do first.
 *
 * The rules are those of the trade, for which no standard text was found; they tell good work from bad and replace no inspection. Nothing here
 * says that a site is safe: two findings on work at height and on lightning come in every answer.
 *
 * @returns findings, `fix` for what is known to be wrong and `note` for what was not told; never a `stop`, since no document stands behind it
 * @throws {@link InputError} `wrong-type`, `unknown-option`, `not-a-finite-number` or `out-of-range`
 * @source Common practice, no source
 * @example A taped antenna joint without a drip loop
 * ```ts
 * import { weatherFindings } from '@finial/feedline';
 *
 * const findings = weatherFindings({
 *   joints: [{ name: 'antenna', sealing: 'gasket', seal: 'mastic-and-tape' }],
 *   hasDripLoops: false,
 * });
 * findings.filter(({ severity }) => severity === 'fix').map(({ rule }) => rule); // → ['drip-loop']
 * ```
 */
export function weatherFindings(run: OutdoorRun): readonly Finding[] {
  checkedOutdoorRun(run);
  return [
    ...run.joints.flatMap(sealFindings),
    ...waterFindings(run),
    ...sunFindings(run),
    ...pullFindings(run),
    ...bendFindings(run),
    ...arrestorFindings(run.arrestor),
    ...mastFindings(run),
    ...untoldFindings(run),
    finding(
      'work-at-height',
      'note',
      'Falls and overhead lines kill: work on a roof or mast only with fall protection, never alone, in wind or near power lines, and keep to local rules.',
    ),
    finding('lightning', 'note', localCode),
  ];
}

function finding(rule: string, severity: Severity, message: string, figures: Partial<Finding> = {}): Finding {
  return { ...figures, rule, severity, message, source: practice };
}

function sealFindings({ name, sealing, seal, isOpen = false }: OutdoorJoint): readonly Finding[] {
  if (isOpen)
    return [
      finding(
        'open-connector',
        'fix',
        `Cap the unused connector at ${name}: water runs along the braid from there.`,
      ),
    ];
  if (seal === 'nothing' && sealing !== 'gasket') {
    return [
      finding(
        'joint-unsealed',
        'fix',
        `Seal ${name}: its connectors keep no rain out. Wrap self-amalgamating tape or butyl, stretched and half overlapped, from below upwards, then a sunlight-proof tape over it.`,
      ),
    ];
  }
  if (seal === 'own-gasket' && sealing !== 'gasket') {
    return [
      finding(
        'no-gasket',
        'fix',
        `The series at ${name} has no gasket of its own: tape it, or use a series that has one.`,
      ),
    ];
  }
  if (seal === 'own-gasket' || seal === 'nothing') {
    return [
      finding(
        'gasket-only',
        'note',
        `At ${name} only the gasket keeps water out: tighten it to its torque, and tape it as well where it cannot be looked at each year.`,
      ),
    ];
  }
  return [];
}

function waterFindings({ hasDripLoops }: OutdoorRun): readonly Finding[] {
  if (hasDripLoops !== false) return [];
  return [
    finding(
      'drip-loop',
      'fix',
      'Let the cable hang below each entry and each connector before it rises into it: without that loop water runs in along the jacket.',
    ),
  ];
}

function sunFindings({ isInTheSun, isSunlightResistant }: OutdoorRun): readonly Finding[] {
  if (isInTheSun !== true || isSunlightResistant !== false) return [];
  return [
    finding(
      'sunlight',
      'fix',
      'The jacket does not withstand sunlight: it cracks within years and lets water into the braid. Put it in conduit, or take a black jacket made for outdoors.',
    ),
  ];
}

function pullFindings({ tieSpacingM }: OutdoorRun): readonly Finding[] {
  if (tieSpacingM === undefined || tieSpacingM <= greatestTieSpacingM) return [];
  return [
    finding(
      'strain-relief',
      'fix',
      'Tie the cable more often, and first just below its upper connector: its weight and the wind must not hang on the connector.',
      { measured: `${tieSpacingM} m`, limit: `${greatestTieSpacingM} m` },
    ),
  ];
}

function bendFindings({ tightestBendRadiusM, leastBendRadiusM }: OutdoorRun): readonly Finding[] {
  if (tightestBendRadiusM === undefined || leastBendRadiusM === undefined) return [];
  if (tightestBendRadiusM >= leastBendRadiusM) return [];
  return [
    finding(
      'tight-bend',
      'fix',
      'Open the tightest bend: the insulation creeps, and the impedance changes there.',
      {
        measured: `${tightestBendRadiusM} m`,
        limit: `${leastBendRadiusM} m`,
      },
    ),
  ];
}

function arrestorFindings(arrestor: OutdoorRun['arrestor']): readonly Finding[] {
  if (arrestor === undefined) return [];
  if (arrestor === 'none') {
    return [
      finding(
        'no-arrestor',
        'fix',
        'Put a surge arrestor where the line enters the building, bonded to its earth.',
      ),
    ];
  }
  return [...placeFindings(arrestor), ...bondFindings(arrestor)];
}

function placeFindings({ place }: OutdoorArrestor): readonly Finding[] {
  if (place === 'building-entry') return [];
  const message =
    place === 'radio'
      ? 'Move the arrestor from the radio to the building entry: at the radio the surge is already inside.'
      : 'An arrestor at the antenna protects nothing indoors: put one at the building entry as well.';
  return [finding('arrestor-place', 'fix', message)];
}

function bondFindings({ isBonded, bondLengthM }: OutdoorArrestor): readonly Finding[] {
  if (!isBonded) {
    return [
      finding(
        'arrestor-not-bonded',
        'fix',
        `The arrestor leads a surge nowhere until its body is bonded to the earth of the building. ${localCode}`,
      ),
    ];
  }
  if (bondLengthM === undefined || bondLengthM <= greatestBondLengthM) return [];
  return [
    finding('long-bond', 'fix', `Bond the arrestor by a short, straight conductor. ${localCode}`, {
      measured: `${bondLengthM} m`,
      limit: `${greatestBondLengthM} m`,
    }),
  ];
}

function mastFindings({ isMastBonded }: OutdoorRun): readonly Finding[] {
  if (isMastBonded !== false) return [];
  return [
    finding(
      'mast-not-bonded',
      'fix',
      `Mast and cable screen must be bonded to the earth of the building. ${localCode}`,
    ),
  ];
}

/** One note for all that was not told: silence must not read as approval. */
function untoldFindings(run: OutdoorRun): readonly Finding[] {
  const questions: readonly (readonly [unknown, string])[] = [
    [run.hasDripLoops, 'drip loops'],
    [run.isInTheSun === false || run.isSunlightResistant, 'sunlight on the jacket'],
    [run.tieSpacingM, 'distance of the ties'],
    [run.tightestBendRadiusM === undefined ? undefined : run.leastBendRadiusM, 'bend radius'],
    [run.arrestor, 'arrestor'],
    [run.isMastBonded, 'bonding of the mast'],
  ];
  const untold = questions.flatMap(([answer, subject]) => (answer === undefined ? [subject] : []));
  if (untold.length === 0) return [];
  return [finding('not-told', 'note', `Not judged, since not told: ${untold.join(', ')}.`)];
}
