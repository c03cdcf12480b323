import { checkObject, checkOneOf, type Finding } from '@finial/units';
import type { LightningState } from './SafetyQuestion.js';

const bonding =
  'NEC article 810 (810.21), IEC 60728-11 clause 11, IEC 62305-3 clause 6 (subject of the articles; from memory, unverified)';
const practice = 'common practice, no source';

/** Lightning and bonding: which articles to ask about, never how to do it. */
export function lightningFindings(state: LightningState): readonly Finding[] {
  checkObject(state, 'lightning');
  const protection = checkOneOf(state.protectionSystem, 'protectionSystem', ['present', 'absent', 'unknown']);
  const { isBonded, hasArrestor, hasCopperData } = state;
  for (const [name, value] of Object.entries({ isBonded, hasArrestor, hasCopperData })) {
    if (value !== undefined) checkOneOf(value, name, [true, false]);
  }
  return [
    note('lightning-caution', cautionText, bonding),
    ...(protection === 'absent'
      ? []
      : [note('lightning-protection-system', systemText(protection), bonding)]),
    ...(isBonded === true ? [] : [note('mast-bonding', bondText(isBonded), bonding)]),
    ...(hasArrestor === true && isBonded !== true
      ? [note('arrestor-without-bond', arrestorText, practice)]
      : []),
    ...(hasCopperData === true ? [note('copper-data-cable', copperText, practice)] : []),
  ];
}

const cautionText =
  'Nothing here protects from a direct strike. Bonding of mast and cable shield and lightning protection follow the local electrical code, which differs from country ' +
  'to country, and are work for a licensed practitioner. Stay away from mast and cables when thunder is heard.';
const arrestorText =
  'An arrestor without a good bond to the earth of the building protects nothing. Have a licensed practitioner see to the bond.';
const copperText =
  'A copper data cable leads surges from the mast into the house. Ask about its own protection, or part the two with optical fibre.';

function systemText(protection: 'present' | 'unknown'): string {
  return protection === 'present'
    ? 'The building has a lightning protection system: its designer decides where the mast may stand and whether it is bonded or kept apart. Ask before building.'
    : 'Whether the building has a lightning protection system is unknown. Find out before building: its designer would decide about the mast.';
}

function bondText(isBonded: boolean | undefined): string {
  return (
    `Mast and cable shield are ${isBonded === false ? 'not bonded' : 'not known to be bonded'} to the earth of the building. Ask a licensed practitioner what the ` +
    'local code wants, before use; an earth rod of its own, apart from that of the building, is itself a danger (unverified).'
  );
}

function note(rule: string, message: string, source: string): Finding {
  return { rule, severity: 'note', message, source };
}
