// @ts-check
import { spawnSync } from 'node:child_process';
import { delimiter } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The workspace's own folder. */
export const root = fileURLToPath(new URL('../..', import.meta.url));

/**
 * Runs a command as it would run outside this workspace, and gives what it said.
 * @param {string} command
 * @param {readonly string[]} args
 * @param {string} cwd
 */
export function run(command, args, cwd) {
  const { status, stdout, stderr, error } = spawnSync(command, args, {
    cwd,
    encoding: 'utf8',
    env: outsideEnvironment(),
    // npm and npx are scripts of the shell there.
    shell: process.platform === 'win32' && !/[\\/]/.test(command),
    timeout: 300_000,
  });
  const said = `${stdout ?? ''}${stderr ?? ''}${error?.message ?? ''}`.trim();
  return { ok: status === 0, stdout: (stdout ?? '').trim(), said };
}

/** The environment without this workspace: no tool of its own on the path, no setting of the package manager. */
function outsideEnvironment() {
  const path = (process.env['PATH'] ?? '')
    .split(delimiter)
    .filter((entry) => !entry.includes('node_modules'))
    .join(delimiter);
  const kept = Object.entries(process.env).filter(
    ([name]) => !/^npm_(config_|package_|lifecycle_)/i.test(name),
  );
  return { ...Object.fromEntries(kept), PATH: path };
}
