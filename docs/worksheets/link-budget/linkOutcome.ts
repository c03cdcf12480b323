import { requiredSnrDb } from '@finial/lora';
import {
  earthBulgeM,
  type FresnelClearance,
  fresnelClearance,
  type LinkDirection,
  radioHorizonM,
  radioLineOfSightM,
} from '@finial/radio';
import { checkRange, type Finding } from '@finial/units';
import { levelDiagram } from '../../../packages/dossier/src/page/levelDiagram.js';
import { decibels, decimal, distance } from '../../../packages/dossier/src/page/wording.js';
import type { Outcome, SheetTable } from '../frame/sheet.js';
import type { Link } from './Link.js';
import { linkCode } from './linkCode.js';

/** The ground under the link: how far one sees over it, and how far it reaches into the first Fresnel zone when it is flat. */
interface FlatGround {
  readonly horizonM: number;
  readonly lineOfSightM: number;
  readonly halfway: FresnelClearance;
}

/** What the worksheet says of a link. */
export function linkOutcome(link: Link): Outcome {
  const { uplink, downlink } = link.budget;
  const ground = flatGround(link);
  return {
    lead: leadOf(link),
    facts: [
      ['Margin of the uplink', decibels(uplink.marginDb, 'dB')],
      ['Margin of the downlink', decibels(downlink.marginDb, 'dB')],
      ['Free-space loss', decibels(link.plan.pathLossDb, 'dB')],
      ['Arrives at the gateway', arrival(uplink)],
      ['Arrives at the node', arrival(downlink)],
      ['Sensitivity of the receivers alone', sensitivities(link)],
      [
        'Radiated power (EIRP)',
        `node ${decibels(uplink.eirpDbm, 'dBm')}, gateway ${decibels(downlink.eirpDbm, 'dBm')}`,
      ],
      ['First Fresnel zone halfway', `${decimal(ground.halfway.firstZoneRadiusM, 1)} m in radius`],
      ['Radio horizon of the gateway', distance(ground.horizonM)],
      ['The two see each other over smooth ground up to', distance(ground.lineOfSightM)],
    ],
    pictures: [
      {
        svg: levelDiagram('uplink', 'Uplink: node to gateway', uplink).markupText,
        caption: `Uplink, node to gateway. Dashed red: the weakest level that can be decoded; dotted grey: the noise.`,
      },
      {
        svg: levelDiagram('downlink', 'Downlink: gateway to node', downlink).markupText,
        caption: 'Downlink, gateway to node.',
      },
    ],
    tables: [
      rateTable(link),
      itemTable('Uplink, item by item', uplink),
      itemTable('Downlink, item by item', downlink),
    ],
    findings: [
      ...marginFinding('uplink', uplink),
      ...marginFinding('downlink', downlink),
      ...groundFindings(link, ground),
    ],
    code: linkCode(link),
  };
}

function leadOf({ budget: { uplink, downlink }, values: { distanceM } }: Link): string {
  const weaker = uplink.marginDb <= downlink.marginDb ? 'uplink' : 'downlink';
  const leastDb = Math.min(uplink.marginDb, downlink.marginDb);
  const over = `Over ${distance(distanceM)}`;
  return leastDb < 0
    ? `${over} the ${weaker} lacks ${decibels(-leastDb, 'dB')}: the link does not close.`
    : `${over} both ways close; the weaker one, the ${weaker}, has ${decibels(leastDb, 'dB')} to spare.`;
}

function arrival({ receivedPowerDbm, snrDb, requiredSnrDb: needed }: LinkDirection): string {
  return `${decibels(receivedPowerDbm, 'dBm')}, SNR ${decibels(snrDb, 'dB')} of ${decibels(needed, 'dB')} needed`;
}

function sensitivities({ gatewaySensitivityDbm, nodeSensitivityDbm }: Link): string {
  return `gateway ${decibels(gatewaySensitivityDbm, 'dBm')}, node ${decibels(nodeSensitivityDbm, 'dBm')}`;
}

const heightBounds = { min: 0, max: 20_000, unit: 'metres' };

function flatGround({ values }: Link): FlatGround {
  const { frequencyHz, distanceM } = values;
  const gatewayHeightM = checkRange(values.gatewayHeightM, 'gatewayHeightM', heightBounds);
  const nodeHeightM = checkRange(values.nodeHeightM, 'nodeHeightM', heightBounds);
  const halves = { distanceToStartM: distanceM / 2, distanceToEndM: distanceM / 2 };
  // The bulge is a parabola for ranges on Earth; beyond them nothing is in sight in any case.
  const bulgeM = distanceM <= 1e6 ? earthBulgeM(halves) : Number(distanceM);
  const clearanceM = (gatewayHeightM + nodeHeightM) / 2 - bulgeM;
  return {
    horizonM: radioHorizonM({ heightM: gatewayHeightM }),
    lineOfSightM: radioLineOfSightM({ transmitHeightM: gatewayHeightM, receiveHeightM: nodeHeightM }),
    halfway: fresnelClearance({ frequencyHz, ...halves, clearanceM }),
  };
}

/** Below this margin an obstacle or a fade too many ends the link. */
const comfortableMarginDb = 10;

function marginFinding(name: 'uplink' | 'downlink', { marginDb }: LinkDirection): Finding[] {
  if (marginDb >= comfortableMarginDb) return [];
  return [
    {
      rule: `${name}-margin`,
      severity: marginDb < 0 ? 'stop' : 'fix',
      message:
        marginDb < 0
          ? `The ${name} lacks ${(-marginDb).toFixed(1)} dB. Take a higher spreading factor, a better or higher antenna, less cable, or a shorter way.`
          : `The ${name} has only ${marginDb.toFixed(1)} dB to spare; hills, houses and fading easily take more than was entered.`,
      measured: `${marginDb.toFixed(1)} dB`,
      limit: `${comfortableMarginDb} dB`,
      source: 'common practice, no source (10 dB allowance for fading and obstacles)',
    },
  ];
}

function groundFindings({ values: { distanceM } }: Link, { lineOfSightM, halfway }: FlatGround): Finding[] {
  if (distanceM > lineOfSightM) {
    return [
      {
        rule: 'beyond-the-horizon',
        severity: 'fix',
        message: `Over smooth ground these two do not see each other beyond ${(lineOfSightM / 1000).toFixed(1)} km: free space is not what is between them. Raise an antenna, or look at the real ground in the terrain worksheet.`,
        measured: `${(distanceM / 1000).toFixed(1)} km`,
        limit: `${(lineOfSightM / 1000).toFixed(1)} km`,
        source: 'Recommendation ITU-R P.1812, equation 22 (smooth Earth, 4/3 radius)',
      },
    ];
  }
  if (halfway.isClear) return [];
  return [
    {
      rule: 'fresnel-zone-filled',
      severity: 'note',
      message: `Flat ground would reach into the first Fresnel zone halfway: the line of sight passes ${(halfway.clearanceRatio * halfway.firstZoneRadiusM).toFixed(1)} m above it, ${halfway.requiredClearanceM.toFixed(1)} m are wanted. Expect more loss than in free space, unless a hill lifts the antenna.`,
      measured: `${(halfway.clearanceRatio * 100).toFixed(0)} % of the radius`,
      limit: '60 %',
      source: 'Recommendation ITU-R P.526, section 2.1; 60 %: Recommendation ITU-R P.530 (from memory)',
    },
  ];
}

/** The same link at every spreading factor: what slower sending would buy. */
function rateTable({ budget: { uplink, downlink } }: Link): SheetTable {
  const rows = [7, 8, 9, 10, 11, 12].map((factor) => {
    const up = uplink.marginDb + uplink.requiredSnrDb - requiredSnrDb(factor);
    const down = downlink.marginDb + downlink.requiredSnrDb - requiredSnrDb(factor);
    return [`SF${factor}`, decibels(requiredSnrDb(factor), 'dB'), decibels(up, 'dB'), decibels(down, 'dB')];
  });
  return {
    caption: 'Margins of the same link at every spreading factor',
    head: ['Factor', 'SNR needed', 'Up', 'Down'],
    rows,
  };
}

function itemTable(caption: string, direction: LinkDirection): SheetTable {
  const items = direction.items.map(({ name, kind, valueDb, levelDbm }) => [
    name,
    kind === 'power' ? decibels(valueDb, 'dBm') : decibels(kind === 'loss' ? -valueDb : valueDb, 'dB'),
    decibels(levelDbm, 'dBm'),
  ]);
  return {
    caption,
    head: ['Item', 'Value', 'Level after it'],
    rows: [
      ...items,
      ['thermal noise (290 K)', '', decibels(direction.thermalNoiseDbm, 'dBm')],
      ['noise at the receiver', '', decibels(direction.noisePowerDbm, 'dBm')],
      ['most path loss that still works', decibels(direction.maximumPathLossDb, 'dB'), ''],
    ],
    isFolded: true,
  };
}
