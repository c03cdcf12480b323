// @ts-check

/** @type {string[]} */
const faults = [];
/** @type {string[]} */
const skips = [];
/** @type {string[]} */
const exercised = [];

/**
 * Says how a step went, and remembers a fault.
 * @param {string} step
 * @param {string | undefined} fault what went wrong; nothing if all is well
 */
export function report(step, fault) {
  console.log(`${fault === undefined ? 'ok     ' : 'FAULT  '} ${step}`);
  if (fault === undefined) return;
  faults.push(step);
  console.log(indented(fault));
}

/**
 * Says that a step could not be taken on this machine. That is no fault, but it is said again at the end.
 * @param {string} step
 * @param {string} reason
 */
export function reportSkipped(step, reason) {
  console.log(`skipped ${step}`);
  console.log(indented(reason));
  skips.push(step);
}

/**
 * Remembers a program that the packages were tried in.
 * @param {string} program its name and version
 */
export function exercise(program) {
  if (!exercised.includes(program)) exercised.push(program);
}

/** Says what was tried and what was not, and sets the exit code. */
export function conclude() {
  console.log(`Exercised in ${exercised.join(', ') || 'nothing'}.`);
  if (skips.length > 0) console.log(`Skipped: ${skips.join('; ')}.`);
  console.log(
    faults.length === 0
      ? 'All packages are fit to publish.'
      : `${faults.length} faults: ${faults.join('; ')}.`,
  );
  process.exitCode = faults.length === 0 ? 0 : 1;
}

/** @param {string} text */
function indented(text) {
  return text.replace(/^/gm, '        ');
}
