import type { ChainCheck } from '@finial/feedline';
import { about, literal } from '../frame/codeOf.js';
import type { CableValues, Slot } from './CableValues.js';
import { readyMadeLists, takenSlots } from './chainOf.js';

/** The code that checks the same run. */
export function cableCode(values: CableValues, check: ChainCheck): string {
  const taken = takenSlots(values);
  const looked = taken.flatMap((slot) => lookUp(values, slot));
  const { frequencyHz, temperatureC, conductedPowerDbm, antennaGainDbi, receiverNoiseFigureDb } = values;
  const conditions = {
    frequencyHz,
    temperatureC,
    conductedPowerDbm,
    antennaGainDbi,
    receiverNoiseFigureDb,
    outsideValidity: 'allow',
  };
  return `import { ${namesOf(values, taken).join(', ')} } from '@finial/feedline';

${looked.map((line) => `${line}\n`).join('')}const chain = checkChain(
  [
    { kind: 'port', name: 'gateway', end: partEnd(${literal(values.gatewayEnd)}) },
${taken.map((slot) => `    ${partCode(values, slot)},\n`).join('')}    { kind: 'port', name: 'antenna', end: partEnd(${literal(values.antennaEnd)}) },
  ],
  ${literal(conditions, '  ')},
);
chain.joins; // → ${check.joins}
chain.lossDb; ${about(check.lossDb)}
chain.joints.map(({ mates }) => mates); // → [${check.joints.map(({ mates }) => mates).join(', ')}]
chain.eirpDbm; ${about(check.eirpDbm ?? 0)}`;
}

function namesOf(values: CableValues, taken: readonly Slot[]): readonly string[] {
  const names = taken.map((slot) => {
    const kind = values[`part${slot}`];
    return kind === 'cable' || kind === 'none' ? 'cableNamed' : readyMadeLists[kind].name;
  });
  return [...new Set([...names, 'checkChain', 'partEnd'])].sort();
}

function lookUp(values: CableValues, slot: Slot): readonly string[] {
  const kind = values[`part${slot}`];
  if (kind === 'cable' || kind === 'none') return [];
  const wanted = literal(values[`${kind}${slot}`]);
  return [
    `const part${slot} = ${readyMadeLists[kind].name}.find(({ designation }) => designation === ${wanted})!;`,
  ];
}

function partCode(values: CableValues, slot: Slot): string {
  const kind = values[`part${slot}`];
  if (kind !== 'cable' && kind !== 'none') {
    const name = `part${slot}`;
    return values[`turned${slot}`] ? `{ ...${name}, ends: [${name}.ends[1], ${name}.ends[0]] }` : name;
  }
  const ends = `[partEnd(${literal(values[`from${slot}`])}), partEnd(${literal(values[`to${slot}`])})]`;
  const cable = `cableNamed(${literal(values[`cable${slot}`])})`;
  return `{ kind: 'cable-run', cable: ${cable}, lengthM: ${values[`length${slot}M`]}, ends: ${ends} }`;
}
