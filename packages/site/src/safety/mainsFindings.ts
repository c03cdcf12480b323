import { checkObject, checkOneOf, type Finding } from '@finial/units';
import type { MainsUse } from './SafetyQuestion.js';

const practice = 'common practice, no source';

/** Mains voltage at a gateway. */
export function mainsFindings(mains: MainsUse): readonly Finding[] {
  checkObject(mains, 'mains');
  const isOutdoors = checkOneOf(mains.isOutdoors, 'isOutdoors', [true, false]);
  const caution: Finding = {
    rule: 'mains-caution',
    severity: 'note',
    message:
      'Mains voltage kills. Fixed mains wiring is work for a licensed electrician by the local code; unplug before a box is opened, and check that it is dead.',
    source: practice,
  };
  if (!isOutdoors) return [caution];
  const message =
    'Mains voltage goes outdoors. Keep it indoors if you can and send extra-low voltage up from a certified supply; else residual-current protection, cable and ' +
    'box for wet places are for a licensed electrician to choose and test.';
  return [caution, { rule: 'mains-outdoors', severity: 'fix', message, source: practice }];
}
