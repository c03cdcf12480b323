import { functionTargets } from './functionTargets.js';
import { heightTargets } from './heightTargets.js';
import { jsonTargets } from './jsonTargets.js';
import { Random } from './Random.js';
import { surveyTargets } from './surveyTargets.js';
import { sweepTargets } from './sweepTargets.js';
import type { Target } from './Target.js';

/** Every reader of a text or file, then every function that takes numbers. */
export async function allTargets(): Promise<readonly Target[]> {
  return [...sweepTargets, ...surveyTargets, ...heightTargets, ...jsonTargets, ...(await functionTargets())];
}

/** The arguments of one input of a target. */
export function inputOf(target: Target, seed: number, index: number): readonly unknown[] {
  return target.args(new Random(`${seed}:${target.name}:${index}`));
}
