import { checkObject, checkRange, type Finding } from '@finial/units';
import type { OverheadLines } from './SafetyQuestion.js';

/** Ten feet between a fallen antenna and a wire. */
const clearanceM = 10 * 0.3048;
const clearanceSource =
  'FCC amateur question pool, element 2, 2022-2026, T0B06: 10 feet from a falling antenna';

/** Overhead lines against the fall circle of the mast. */
export function overheadLineFindings(lines: OverheadLines): readonly Finding[] {
  checkObject(lines, 'overheadLines');
  const distanceM = checkRange(lines.distanceM, 'distanceM', { min: 0, max: 1000, unit: 'metres' });
  const mastHeightM = checkRange(lines.mastHeightM, 'mastHeightM', { min: 0.1, max: 100, unit: 'metres' });
  const leastM = mastHeightM + clearanceM;
  const measured = metres(distanceM);
  const caution: Finding = {
    rule: 'overhead-line-caution',
    severity: 'note',
    message:
      'Every overhead wire counts as live, an insulated drop to a house too. Let go of a mast that falls towards a line. Only the owner of the line may switch it off, ' +
      'cover it or say how near is safe; high voltage needs more than any distance given here.',
    source: 'common practice, no source',
  };
  if (distanceM < leastM) {
    const message =
      `An overhead line at ${measured} is within reach of the falling mast (${metres(mastHeightM)} and 3 m of clearance): electrocution. Do not raise it there; ` +
      'move the mast, or ask the owner of the line.';
    return [
      {
        rule: 'overhead-line-fall-circle',
        severity: 'stop',
        message,
        measured,
        limit: metres(leastM),
        source: clearanceSource,
      },
      caution,
    ];
  }
  if (distanceM < 2 * mastHeightM) {
    const message = `An overhead line at ${measured} is nearer than twice the height of the mast, which is what utilities ask for. Move the mast if you can.`;
    const source = 'common practice (1.5 to 2 times the height), no source';
    return [
      {
        rule: 'overhead-line-near',
        severity: 'note',
        message,
        measured,
        limit: metres(2 * mastHeightM),
        source,
      },
      caution,
    ];
  }
  return [caution];
}

function metres(lengthM: number): string {
  return `${Number(lengthM.toPrecision(3))} m`;
}
