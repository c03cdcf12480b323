import { channelFrequenciesHz } from './channelFrequenciesHz.js';
import { serves } from './checkedRegion.js';
import { citationOfRow } from './citationOf.js';
import { megahertz } from './figures.js';
import { findingUnder } from './findingUnder.js';
import type { PlannedRadio } from './regionFindings.js';
import type { PlannedFrame } from './shorterFrames.js';
import type { TransmissionFinding } from './Transmission.js';

/** A centre typed in megahertz may miss the exact channel by rounding. */
const centreSlackHz = 1;

/** In which receive window of a node a gateway's frame would be heard, with what the node starts with. */
export function downlinkFindings(frame: PlannedFrame, { frequencyHz }: PlannedRadio): TransmissionFinding[] {
  const { region, row, direction } = frame;
  if (direction === 'uplink' || !serves(row, direction)) return [];
  const { secondWindow } = region;
  if (isSame(frequencyHz, secondWindow.frequencyHz) && row.dataRate === secondWindow.dataRate) return [];
  if (isFirstWindowChannel(frame, frequencyHz)) return [];
  const source = citationOfRow(region, 'secondWindow');
  if (isSame(frequencyHz, secondWindow.frequencyHz)) {
    const message = `in the second window on ${megahertz(frequencyHz)} nodes listen at DR${secondWindow.dataRate}, until the network tells them DR${row.dataRate}`;
    return [
      findingUnder(source, {
        rule: 'second-window',
        severity: 'note',
        message,
        measured: `DR${row.dataRate}`,
        limit: `DR${secondWindow.dataRate}`,
        remedies: [{ dataRate: secondWindow.dataRate }],
      }),
    ];
  }
  const message = `nodes hear ${megahertz(frequencyHz)} only after the network gave them that channel: the second window is on ${megahertz(secondWindow.frequencyHz)}`;
  return [findingUnder(source, { rule: 'window-channel', severity: 'note', message })];
}

function isFirstWindowChannel({ region, row, direction }: PlannedFrame, frequencyHz: number): boolean {
  return region.channels
    .filter((group) => serves(group, direction))
    .filter((group) => row.dataRate >= group.minDataRate && row.dataRate <= group.maxDataRate)
    .some((group) => channelFrequenciesHz(group).some((centreHz) => isSame(centreHz, frequencyHz)));
}

function isSame(oneHz: number, otherHz: number): boolean {
  return Math.abs(oneHz - otherHz) <= centreSlackHz;
}
