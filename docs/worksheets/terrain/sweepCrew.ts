/// <reference types="vitepress/client" />
// The package's own script, so that the site holds it once.
import scriptUrl from '../../../packages/propagation/src/sweep/workers/sweepWorker.ts?worker&url';

/** Who does a sweep. */
export interface SweepCrew {
  /** 0 where the page does it itself. */
  readonly workers: number;
  readonly workerUrl?: string | undefined;
}

const mostWorkers = 4;
let heldUrl: string | undefined;

/** Fetches the script of the workers and keeps it in the page, so that they start without a network. */
export async function fetchSweepScript(): Promise<void> {
  if (typeof Worker !== 'function' || heldUrl !== undefined) return;
  if (import.meta.env.DEV) {
    // While the site is written the script is not bundled, and its imports need its own address.
    heldUrl = scriptUrl;
    return;
  }
  const response = await fetch(scriptUrl);
  if (!response.ok) throw new Error(`the script of the workers: ${response.status}`);
  heldUrl = URL.createObjectURL(new Blob([await response.text()], { type: 'text/javascript' }));
}

/** As many workers as the machine has cores, up to four; none where there are none, or their script never came. */
export function sweepCrew(): SweepCrew {
  if (heldUrl === undefined) return { workers: 0 };
  const cores = navigator.hardwareConcurrency ?? 1;
  return { workers: Math.max(1, Math.min(mostWorkers, cores)), workerUrl: heldUrl };
}
