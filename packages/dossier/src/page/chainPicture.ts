import type { ChainJoint, ChainPartLoss } from '@finial/feedline';
import { join, type Markup, markup } from './markup.js';
import { at, label, line, picture, pictureWidth } from './svg.js';
import { decimal } from './wording.js';

/** A run of parts with its joints, as the check returns it. */
export interface DrawnChain {
  readonly parts: readonly ChainPartLoss[];
  readonly joints: readonly ChainJoint[];
  readonly lossDb: number;
  /** Name of the run, where it is not the plan's own. */
  readonly name?: string | undefined;
}

const top = 12;
const partHeight = 40;
const jointHeight = 34;
const spine = 16;

/**
 * The feedline from the gateway (top) to the antenna (bottom): a box for each part with its loss, and between two parts a mark that says
 * whether they join.
 */
export function chainPicture({ parts, joints, lossDb, name }: DrawnChain, id = 'chain'): Markup {
  const height = top + parts.length * partHeight + joints.length * jointHeight + 6;
  const greatest = Math.max(0.01, ...parts.map((part) => part.lossDb));
  const drawn = parts.map((part, index) => {
    const y = top + index * (partHeight + jointHeight);
    const joint = joints[index];
    return join([
      partBox(part, y, greatest),
      joint === undefined ? markup`` : jointMark(joint, y + partHeight),
    ]);
  });
  const broken = joints.filter(({ mates }) => !mates).length;
  const description = `${parts.length} parts, ${decimal(lossDb, 2)} dB in all. ${broken === 0 ? 'Every joint mates.' : `${broken} of ${joints.length} joints do not mate.`} The table below names each.`;
  const title = `Feedline from gateway to antenna${name === undefined ? '' : `: ${name}`}`;
  return picture({ id, height, title, description }, drawn);
}

function partBox(part: ChainPartLoss, y: number, greatest: number): Markup {
  const isPort = part.kind === 'port';
  const width = ((pictureWidth - 60) * part.lossDb) / greatest;
  return join([
    isPort
      ? markup`<circle class="gateway" cx="${spine}" cy="${y + partHeight / 2}" r="8"/>`
      : markup`<rect class="chain-part" x="${spine - 8}" y="${y}" width="16" height="${partHeight}" rx="4"/>`,
    label(spine + 16, isPort ? y + partHeight / 2 + 4 : y + 16, part.name, 'name'),
    isPort ? markup`` : label(pictureWidth - 8, y + 16, `${decimal(part.lossDb, 2)} dB`, 'name', 'end'),
    isPort
      ? markup``
      : markup`<rect class="bar loss" x="${spine + 16}" y="${y + 23}" width="${at(Math.max(1, width))}" height="8" rx="1.5"/>`,
  ]);
}

function jointMark(joint: ChainJoint, y: number): Markup {
  const middle = y + jointHeight / 2;
  const words = joint.mates ? `joins, ${decimal(joint.lossDb, 2)} dB` : 'does not join';
  return join([
    line(joint.mates ? 'chain-line' : 'limit', spine, y, spine, y + jointHeight),
    markup`<path class="${joint.mates ? 'joined' : 'unjoined'}" d="${joint.mates ? tick(middle) : cross(middle)}"/>`,
    label(spine + 16, middle + 4, words, joint.mates ? 'mark' : 'name'),
  ]);
}

function tick(y: number): string {
  return `M${spine - 6} ${y}l4 5l8 -9`;
}

function cross(y: number): string {
  return `M${spine - 6} ${y - 6}l12 12m0 -12l-12 12`;
}
