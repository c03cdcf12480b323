import { checkObject, checkOneOf, checkRange, InputError } from '@finial/units';
import type { Sealing } from '../catalogue/parts.js';
import type { ArrestorPlace, JointSeal, OutdoorArrestor, OutdoorJoint, OutdoorRun } from './OutdoorRun.js';

/** Refuses what is no outdoor run. */
export function checkedOutdoorRun(run: OutdoorRun): void {
  checkObject(run, 'run');
  const { joints, arrestor } = run;
  // An empty list is an answer here: a run without any joint in the open.
  if (!Array.isArray(joints)) {
    throw new InputError({
      code: 'wrong-type',
      argument: 'run.joints',
      received: joints,
      expected: 'a list',
    });
  }
  joints.forEach((joint, index) => {
    checkJoint(joint, `run.joints[${index}]`);
  });
  checkYesNo(run.hasDripLoops, 'run.hasDripLoops');
  checkYesNo(run.isSunlightResistant, 'run.isSunlightResistant');
  checkYesNo(run.isInTheSun, 'run.isInTheSun');
  checkYesNo(run.isMastBonded, 'run.isMastBonded');
  checkLength(run.tieSpacingM, 'run.tieSpacingM', { min: 0.01, max: 1000 });
  checkLength(run.tightestBendRadiusM, 'run.tightestBendRadiusM', { min: 1e-3, max: 100 });
  checkLength(run.leastBendRadiusM, 'run.leastBendRadiusM', { min: 1e-3, max: 5 });
  if (arrestor !== undefined && arrestor !== 'none') checkArrestor(arrestor);
}

function checkJoint(joint: OutdoorJoint, path: string): void {
  checkObject(joint, path);
  if (typeof joint.name !== 'string') {
    throw new InputError({
      code: 'wrong-type',
      argument: `${path}.name`,
      received: joint.name,
      expected: 'a name',
    });
  }
  checkOneOf<Sealing>(joint.sealing, `${path}.sealing`, ['gasket', 'splash', 'none']);
  const seals: readonly JointSeal[] = ['mastic-and-tape', 'adhesive-shrink-sleeve', 'own-gasket', 'nothing'];
  checkOneOf<JointSeal>(joint.seal, `${path}.seal`, seals);
  checkYesNo(joint.isOpen, `${path}.isOpen`);
}

function checkArrestor(arrestor: OutdoorArrestor): void {
  checkObject(arrestor, 'run.arrestor');
  checkOneOf<ArrestorPlace>(arrestor.place, 'run.arrestor.place', ['building-entry', 'antenna', 'radio']);
  checkOneOf<boolean>(arrestor.isBonded, 'run.arrestor.isBonded', [true, false]);
  checkLength(arrestor.bondLengthM, 'run.arrestor.bondLengthM', { min: 0, max: 100 });
}

function checkYesNo(value: unknown, argument: string): void {
  if (value !== undefined) checkOneOf<boolean>(value, argument, [true, false]);
}

function checkLength(
  value: unknown,
  argument: string,
  bounds: { readonly min: number; readonly max: number },
): void {
  if (value !== undefined) checkRange(value, argument, { ...bounds, unit: 'metres' });
}
