import { InputError } from '@finial/units';
import type { Cable } from './parts.js';

/** The one cable among some that a designation, or the beginning of one, names; the refusal goes by the name of the argument. */
export function cableAmong(cables: readonly Cable[], designation: string, argument: string): Cable {
  if (typeof designation !== 'string') {
    const expected = 'the designation of a cable';
    throw new InputError({ code: 'wrong-type', argument, received: designation, expected });
  }
  const wanted = withoutSpelling(designation);
  const exact = cables.find((cable) => withoutSpelling(cable.designation) === wanted);
  if (exact !== undefined) return exact;
  const beginning = wanted === '' ? [] : cables.filter((cable) => beginsWith(cable.designation, wanted));
  const [only, another] = beginning;
  if (only !== undefined && another === undefined) return only;
  const choice = (only === undefined ? cables : beginning).map((cable) => `'${cable.designation}'`);
  const expected = `one cable: ${choice.join(' or ')}`;
  throw new InputError({ code: 'unknown-option', argument, received: designation, expected });
}

function withoutSpelling(designation: string): string {
  return designation.toUpperCase().replaceAll(/[\s-]/g, '');
}

/** A number must be whole: RG-21 is not the beginning of RG-213. */
function beginsWith(designation: string, wanted: string): boolean {
  const name = withoutSpelling(designation);
  return name.startsWith(wanted) && !(/\d$/.test(wanted) && /^\d/.test(name.slice(wanted.length)));
}
