import { checkObject, checkOneOf, checkRange, type Finding } from '@finial/units';
import type { LadderUse } from './SafetyQuestion.js';

const angleSource = '29 CFR 1926.1053(b)(5)(i) (from memory): foot out by a quarter of the working length';
const beyondSource = '29 CFR 1926.1053(b)(1) (from memory): 3 feet above the landing';
const conductingSource = '29 CFR 1926.1053(b)(12) (from memory)';

/** A leaning ladder: its slope, how far it reaches over the edge, whether it conducts. All limits are from memory: notes. */
export function ladderFindings(ladder: LadderUse): readonly Finding[] {
  checkObject(ladder, 'ladder');
  const heightM = checkRange(ladder.supportHeightM, 'supportHeightM', { min: 0.5, max: 20, unit: 'metres' });
  const footM = checkRange(ladder.footDistanceM, 'footDistanceM', { min: 0.05, max: 20, unit: 'metres' });
  const { beyondEdgeM, isConducting } = ladder;
  if (beyondEdgeM !== undefined) checkRange(beyondEdgeM, 'beyondEdgeM', { min: 0, max: 5, unit: 'metres' });
  if (isConducting !== undefined) checkOneOf(isConducting, 'isConducting', [true, false]);
  const angleDeg = (Math.atan2(heightM, footM) * 180) / Math.PI;
  const findings = [note('ladder-caution', cautionText, 'common practice, no source')];
  // A quarter of the length is 75.5°; people who work by eye are given 70 to 80°.
  if (angleDeg < 70 || angleDeg > 80) {
    const wrong = angleDeg < 70 ? 'too flat: its foot slides away' : 'too steep: it tips backwards';
    const wantedM = heightM / Math.sqrt(15);
    const message = `The ladder leans at ${angleDeg.toFixed(0)}°, ${wrong}. Set its foot ${wantedM.toFixed(2)} m out, 75° (unverified).`;
    findings.push({
      ...note('ladder-angle', message, angleSource),
      measured: `${angleDeg.toFixed(0)}°`,
      limit: '70° to 80°',
    });
  }
  if (beyondEdgeM !== undefined && beyondEdgeM < 0.9144) {
    const message =
      'The ladder reaches less than 0.9 m over the edge, so that there is nothing to hold when stepping off (unverified).';
    findings.push({
      ...note('ladder-beyond-edge', message, beyondSource),
      measured: `${beyondEdgeM} m`,
      limit: '0.91 m',
    });
  }
  if (isConducting === true) {
    const message =
      'The ladder conducts: keep it away from every wire that may be live, overhead lines first (unverified).';
    findings.push(note('ladder-conducts', message, conductingSource));
  }
  return findings;
}

const cautionText =
  'Ladder: firm level ground, tied at the top, somebody at its foot, three points of contact, tools on a line and not in the hand. A ladder is a way up, not a ' +
  'place to work with both hands. The rules of the place decide.';

function note(rule: string, message: string, source: string): Finding {
  return { rule, severity: 'note', message, source };
}
