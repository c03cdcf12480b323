import { type MastLoad, type MastPart, type MastQuestion, mastLoad, type WindQuestion } from '@finial/site';
import { decimal, percent } from '../../../packages/dossier/src/page/wording.js';
import { about, literal } from '../frame/codeOf.js';
import type { Outcome, SheetTable } from '../frame/sheet.js';
import { mastPicture } from './mastPicture.js';
import type { WindValues } from './SiteValues.js';

/** What the wind does to the mast, and what holds it. */
export function windOutcome(values: WindValues): Outcome {
  const mast = mastOf(values);
  const load = mastLoad(mast);
  return {
    lead: leadOf(load, values),
    facts: factsOf(load),
    pictures: [
      {
        svg: mastPicture(mast.parts, load).markupText,
        caption:
          'The mast from the side, the wind from the left. An arrow is the push on a part at its middle.',
      },
    ],
    tables: [partsTable(load)],
    findings: load.findings,
    code: codeOf(mast, load),
  };
}

function mastOf(values: WindValues): MastQuestion {
  const { foot, tippingArmM, frictionRatio, ballastKg, footAreaM2 } = values;
  const tube = {
    outerDiameterM: values.tubeDiameterM,
    wallM: values.tubeWallM,
    topM: values.tubeLengthM,
    supportM: values.tubeSupportM,
    material: values.material,
  };
  return {
    wind: windOf(values),
    parts: partsOf(values),
    foot:
      foot === 'ballast'
        ? { kind: 'ballast', tippingArmM, frictionRatio, ballastKg, areaM2: footAreaM2 }
        : { kind: 'fixed' },
    tube,
    iceM: values.iceM,
  };
}

function windOf({ code, gustSpeedMPerS, meanSpeedMPerS, ...rest }: WindValues): WindQuestion {
  const { exposureCategory, terrainCategory, heightAboveGroundM } = rest;
  return code === 'asce-7'
    ? { code, gustSpeedMPerS, exposureCategory, heightAboveGroundM }
    : { code, meanSpeedMPerS, terrainCategory, heightAboveGroundM };
}

function partsOf(values: WindValues): readonly MastPart[] {
  const { tubeDiameterM, tubeLengthM, antennaDiameterM, antennaLengthM } = values;
  const tube: MastPart = {
    name: 'tube',
    shape: 'round',
    widthM: tubeDiameterM,
    heightM: tubeLengthM,
    centreM: tubeLengthM / 2,
  };
  const antenna: MastPart = {
    name: 'antenna',
    shape: 'round',
    widthM: antennaDiameterM,
    heightM: antennaLengthM,
    centreM: Number((tubeLengthM + antennaLengthM / 2).toPrecision(12)),
  };
  if (!values.hasPlate) return [tube, antenna];
  const { plateWidthM, plateHeightM, plateCentreM } = values;
  const plate = { shape: 'flat', widthM: plateWidthM, heightM: plateHeightM, centreM: plateCentreM } as const;
  return [tube, antenna, { name: 'box or awning', ...plate }];
}

function leadOf({ forceN, momentNm, hold }: MastLoad, { ballastKg }: WindValues): string {
  const push = `The wind pushes with ${decimal(forceN, 0)} N and tips with ${decimal(momentNm, 0)} N·m`;
  if (hold === undefined) return `${push}: what the mast is fixed to must bear that.`;
  const need = Math.ceil(hold.ballastNeededKg);
  return ballastKg >= hold.ballastNeededKg
    ? `${push}. It takes ${need} kg of ballast; ${decimal(ballastKg, 0)} kg lie on it.`
    : `${push}. It takes ${need} kg of ballast, and ${decimal(ballastKg, 0)} kg are too little.`;
}

function factsOf({ pressure, hold, tube, uncertaintyRatio, safetyRatio }: MastLoad): Outcome['facts'] {
  const held: Outcome['facts'] =
    hold === undefined
      ? []
      : [
          ['Ballast against tipping', `${decimal(Math.ceil(hold.massAgainstTippingKg), 0)} kg`],
          ['Ballast against sliding', `${decimal(Math.ceil(hold.massAgainstSlidingKg), 0)} kg`],
          ...(hold.roofPressurePa === undefined
            ? []
            : [['Weight on the roof', `${decimal(hold.roofPressurePa / 1000, 2)} kPa`] as const]),
        ];
  const bent: Outcome['facts'] =
    tube === undefined
      ? []
      : [
          [
            'Tube: strength over stress',
            tube.reserveRatio === undefined ? 'no stress' : decimal(tube.reserveRatio, 1),
          ],
          ['Top of the tube moves by', `${decimal(tube.topDeflectionM * 1000, 0)} mm`],
        ];
  return [
    ['Pressure of the wind', `${decimal(pressure.pressurePa, 0)} Pa`],
    ['Force and moment, give or take', percent(uncertaintyRatio)],
    ...held,
    ...bent,
    ['Safety factor in it', decimal(safetyRatio, 1)],
  ];
}

function partsTable({ parts }: MastLoad): SheetTable {
  return {
    caption: 'The wind on each part',
    head: ['Part', 'Area', 'Drag', 'Force', 'Moment'],
    rows: parts.map((part) => [
      part.name,
      `${decimal(part.areaM2, 3)}\u00a0m²`,
      decimal(part.dragRatio, 2),
      `${decimal(part.forceN, 0)}\u00a0N`,
      `${decimal(part.momentNm, 0)}\u00a0N·m`,
    ]),
  };
}

function codeOf(mast: MastQuestion, { forceN, momentNm, hold, tube }: MastLoad): string {
  const held = hold === undefined ? '' : `\nmast.hold?.ballastNeededKg; ${about(hold.ballastNeededKg)}`;
  const bent =
    tube?.reserveRatio === undefined ? '' : `\nmast.tube?.reserveRatio; ${about(tube.reserveRatio)}`;
  return `import { mastLoad } from '@finial/site';

const mast = mastLoad(${literal(mast)});
mast.forceN; ${about(forceN)}
mast.momentNm; ${about(momentNm)}${held}${bent}`;
}
