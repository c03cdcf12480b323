import type { Finding } from '@finial/units';

/** What the sums came to. */
interface DampOutcome {
  readonly dewPointC: number;
  readonly condensationSeconds: number;
  readonly drynessMarginK: number;
  readonly breathing: 'gasketed' | 'vented';
  readonly serviceDays: number;
  readonly unitsCount: number;
  readonly neededUnitsCount?: number | undefined;
  readonly desiccantLifeDays?: number | undefined;
}

/** How the box is built, as far as known. */
interface DampBuild {
  readonly glandsFaceDown?: boolean | undefined;
  readonly dripLoops?: boolean | undefined;
  readonly hasDrain?: boolean | undefined;
}

const practice = 'common practice, no source';

/** Weighs the damp of a box and the way it is built. */
export function moistureFindings(outcome: DampOutcome, build: DampBuild): readonly Finding[] {
  return [...condensation(outcome, build), ...desiccant(outcome), ...construction(outcome, build)];
}

function condensation(outcome: DampOutcome, { hasDrain }: DampBuild): readonly Finding[] {
  const { condensationSeconds, dewPointC, drynessMarginK, breathing } = outcome;
  if (condensationSeconds === 0) return [];
  const hours = (condensationSeconds / 3600).toFixed(1);
  const isMended = breathing === 'vented' && hasDrain === true;
  return [
    {
      rule: 'condensation',
      severity: isMended ? 'note' : 'fix',
      message: `The walls are colder than the dew point for ${hours} hours of this day and grow wet inside unless the box is kept dry; give it a membrane vent and a drain at the lowest point, keep boards off the walls, and keep a few watts inside through the night.`,
      measured: `wall ${(dewPointC + drynessMarginK).toFixed(1)} °C`,
      limit: `dew point ${dewPointC.toFixed(1)} °C`,
      source: 'WMO-No. 8, annex 4.B (dew point); remedies: common practice, no source',
    },
  ];
}

function desiccant(outcome: DampOutcome): readonly Finding[] {
  const { breathing, unitsCount, desiccantLifeDays = 0, neededUnitsCount = 0, serviceDays } = outcome;
  if (unitsCount === 0) return [];
  if (breathing === 'vented') {
    return [
      {
        rule: 'desiccant-vented',
        severity: 'note',
        message:
          'Desiccant in a vented box is soaked within days and then dries nothing: leave it out, or close the box.',
        source: practice,
      },
    ];
  }
  if (desiccantLifeDays >= serviceDays) return [];
  return [
    {
      rule: 'desiccant-life',
      severity: 'fix',
      message: `The desiccant lasts about ${desiccantLifeDays.toFixed(0)} days (within a factor of 2): put in ${neededUnitsCount} units, or change it sooner.`,
      measured: `${desiccantLifeDays.toFixed(0)} days`,
      limit: `${serviceDays} days to the next visit`,
      source: 'DIN 55474 (formula), as quoted on a supplier’s sheet',
    },
  ];
}

function construction({ breathing }: DampOutcome, build: DampBuild): readonly Finding[] {
  const { glandsFaceDown, dripLoops, hasDrain } = build;
  const rules: readonly [boolean, string, Finding['severity'], string][] = [
    [
      glandsFaceDown === false,
      'glands-face-down',
      'fix',
      'A cable enters from above or the side: a box that cools sucks the rain standing on its gland in; bring every cable in from below.',
    ],
    [
      dripLoops === false,
      'drip-loop',
      'fix',
      'A cable runs straight down into its entry: let it hang in a loop below the entry, so that water drips off before it.',
    ],
    [
      hasDrain === false,
      'drain',
      'note',
      'Without a drain at the lowest point whatever water comes in stays: make one with an insect screen, where the protection class of the box allows it.',
    ],
    [
      breathing === 'gasketed',
      'membrane-vent',
      'note',
      'A closed box breathes through its gaskets and glands each time it cools: a membrane vent lets air pass and keeps rain out.',
    ],
  ];
  return rules
    .filter(([applies]) => applies)
    .map(([, rule, severity, message]) => ({ rule, severity, message, source: practice }));
}
