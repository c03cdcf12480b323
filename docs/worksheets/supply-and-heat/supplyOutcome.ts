import { type LoadState, type SupplyDrop, type SupplyLine, supplyDrop } from '@finial/site';
import { decimal, percent } from '../../../packages/dossier/src/page/wording.js';
import { about, literal } from '../frame/codeOf.js';
import type { Outcome } from '../frame/sheet.js';
import type { SupplyValues } from './SiteValues.js';
import { supplyPicture } from './supplyPicture.js';

/** What voltage arrives at the end of a supply line. */
export function supplyOutcome(values: SupplyValues): Outcome {
  const line = lineOf(values);
  const drop = supplyDrop(line);
  return {
    lead: leadOf(drop, line),
    facts: factsOf(drop),
    pictures: [
      {
        svg: supplyPicture(line, drop.longestLengthM).markupText,
        caption:
          'Voltage at the gateway over the length of the line, one curve for each state. Dashed red: the least that it works with. Upright: the length entered.',
      },
    ],
    tables: [statesTable(drop)],
    findings: drop.findings,
    code: codeOf(line, drop),
  };
}

function lineOf(values: SupplyValues): SupplyLine {
  const { supplyV, leastLoadV, lengthM, connectorsOhm, wireTemperatureC: temperatureC } = values;
  return {
    supplyV,
    leastLoadV,
    wire: values.wire === 'measured' ? { resistanceOhmPerM: values.wireOhmPerM } : values.wire,
    lengthM,
    conductorsCount: Number(values.conductorsCount) as 1 | 2 | 4,
    connectorsOhm,
    temperatureC,
    states: statesOf(values),
  };
}

function statesOf({ load, idleW, transmitW, bootW, idleA, transmitA, bootA }: SupplyValues): LoadState[] {
  if (load === 'current') {
    return [
      { name: 'idle', currentA: idleA },
      { name: 'transmit', currentA: transmitA },
      { name: 'boot', currentA: bootA },
    ];
  }
  return [
    { name: 'idle', powerW: idleW },
    { name: 'transmit', powerW: transmitW },
    { name: 'boot', powerW: bootW },
  ];
}

function leadOf({ works, states, worstState }: SupplyDrop, { leastLoadV }: SupplyLine): string {
  const worst = states.find(({ name }) => name === worstState);
  const least = `it works from ${decimal(leastLoadV, 2)} V`;
  if (worst?.loadV === undefined)
    return `At ${worstState} no voltage holds at the end of this line; ${least}.`;
  const arrives = `${decimal(worst.loadV, 2)} V arrive at ${worstState}`;
  return works
    ? `The line carries every state: ${arrives}, and ${least}.`
    : `The line is too long or too thin: ${arrives}; ${least}.`;
}

function factsOf(drop: SupplyDrop): Outcome['facts'] {
  const { longestLengthM, thinnestWire, raisedSupplyV, loopResistanceOhm, resistanceUncertaintyRatio } = drop;
  return [
    ['Longest line of this wire', longestLengthM === 0 ? 'none works' : `${decimal(longestLengthM, 1)} m`],
    ['Thinnest listed wire for this length', thinnestWire?.replace('mm2', 'mm²') ?? 'none works'],
    ...(raisedSupplyV === undefined
      ? []
      : [['Lowest voltage that would do, with a converter in the box', `${raisedSupplyV} V`] as const]),
    ['Resistance of the whole loop', `${decimal(loopResistanceOhm, 3)} Ω`],
    ['The wire may differ by', percent(resistanceUncertaintyRatio)],
  ];
}

function statesTable({ states }: SupplyDrop) {
  const shown = (value: number | undefined, digits: number, unit: string) =>
    value === undefined ? '–' : `${decimal(value, digits)}\u00a0${unit}`;
  return {
    caption: 'What arrives at the gateway',
    head: ['State', 'Voltage', 'To spare', 'Current'],
    rows: states.map(({ name, loadV, marginV, currentA }) => [
      name,
      loadV === undefined ? 'none holds' : shown(loadV, 2, 'V'),
      shown(marginV, 2, 'V'),
      shown(currentA, 2, 'A'),
    ]),
  };
}

function codeOf(line: SupplyLine, { works, states, longestLengthM, loopResistanceOhm }: SupplyDrop): string {
  const lines = states.map(({ loadV }, index) =>
    loadV === undefined
      ? `line.states[${index}]?.holds; // → false`
      : `line.states[${index}]?.loadV; ${about(loadV)}`,
  );
  return `import { supplyDrop } from '@finial/site';

const line = supplyDrop(${literal(line)});
line.works; // → ${works}
${lines.join('\n')}
line.loopResistanceOhm; ${about(loopResistanceOhm)}
line.longestLengthM; ${about(longestLengthM)}`;
}
