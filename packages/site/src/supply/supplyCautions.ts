import type { Finding } from '@finial/units';

/**
 * Greatest direct voltage that is commonly taken as harmless to touch in the dry (60 V); power over Ethernet stays below it.
 * From memory, so that it never weighs more than a note.
 */
const touchableV = 60;

/** What to mind with any supply that goes outdoors: cautions, never a permit. */
export function supplyCautions(supplyV: number): readonly Finding[] {
  const caution: Finding = {
    rule: 'mains-below',
    severity: 'note',
    message:
      'Keep mains indoors and send only extra-low voltage from an isolated, certified supply up the mast. Mains outdoors, its residual-current protection and its earth are work for a licensed electrician under the local code.',
    source: 'common practice, no source',
  };
  const fuse: Finding = {
    rule: 'fuse-at-source',
    severity: 'note',
    message:
      'Put a fuse at the source end of the line, rated for the thinnest wire behind it, and surge protection where the line enters the building; bonding follows the local code.',
    source: 'common practice, no source',
  };
  if (supplyV <= touchableV) return [caution, fuse];
  const high: Finding = {
    rule: 'touch-voltage',
    severity: 'note',
    message: `${supplyV} V lies above the 60 V direct voltage commonly taken as safe to touch (unverified): do not handle it yourself, ask a licensed electrician.`,
    measured: `${supplyV} V`,
    limit: '60 V',
    source: 'IEC 62368-1, energy class of direct voltage, from memory; unverified',
  };
  return [caution, fuse, high];
}
