import type { Finding } from '@finial/units';
import type { JointLoss } from './jointOf.js';

/** What stands against one joint of a chain, and what mends it. */
export function jointFindings({ joint }: JointLoss): readonly Finding[] {
  return joint.mates
    ? stepFindings(`${joint.between} join, but their impedances differ`, joint.mismatchLossDb)
    : [
        unjoinedFinding(joint),
        ...stepFindings(
          `The adapters for ${joint.between} join halves of different impedances`,
          joint.adapters?.mismatchLossDb ?? 0,
        ),
      ];
}

function unjoinedFinding({ between, reason, harmful, looksJoined, adapters }: JointLoss['joint']): Finding {
  const fix = adapters === undefined ? 'no adapter in the catalogue mends it' : `put in ${adapters.inWords}`;
  return {
    rule: harmful ? 'joint-damages' : looksJoined ? 'joint-only-looks-joined' : 'joint-does-not-mate',
    severity: 'stop',
    message: `${between} do not join (${reason}): ${fix}.`,
    source: 'Shape of the connectors: series, gender, polarity and size of the contacts',
  };
}

function stepFindings(what: string, mismatchLossDb: number): readonly Finding[] {
  if (mismatchLossDb === 0) return [];
  return [
    {
      rule: 'impedance-step',
      severity: 'fix',
      message: `${what}: part of the power is reflected; use parts of one impedance.`,
      measured: `${mismatchLossDb.toFixed(2)} dB`,
      limit: '0 dB',
      source: 'VSWR of a step is the ratio of the two impedances',
    },
  ];
}
