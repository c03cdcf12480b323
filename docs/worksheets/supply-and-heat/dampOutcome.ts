import { type BoxMoisture, boxMoisture, enclosureDay } from '@finial/site';
import { dayPicture } from '../../../packages/dossier/src/page/dayPicture.js';
import { decimal } from '../../../packages/dossier/src/page/wording.js';
import { about, literal } from '../frame/codeOf.js';
import type { Outcome } from '../frame/sheet.js';
import { boxDay } from './boxDay.js';
import type { DampValues } from './SiteValues.js';

/** Whether water condenses in the box, and how long its desiccant lasts. */
export function dampOutcome(values: DampValues): Outcome {
  const box = boxDay(values);
  const day = enclosureDay(box);
  const damp = dampOf(values);
  const moisture = boxMoisture({ ...damp, hours: day.hours });
  return {
    lead: leadOf(moisture),
    facts: factsOf(moisture),
    pictures: [
      {
        svg: dayPicture(day).markupText,
        caption: `Dotted: the walls. Where they lie below the dew point of ${decimal(moisture.dewPointC, 1)} °C, they grow wet. Solid: inside. Dashed: air.`,
      },
    ],
    findings: moisture.findings,
    code: `import { boxMoisture, enclosureDay } from '@finial/site';

const { hours } = enclosureDay(${literal(box)});
const damp = boxMoisture(${literal(damp).replace(/^\{\s*/, '{ hours, ')});
damp.dewPointC; ${about(moisture.dewPointC)}
damp.condensationSeconds; ${about(moisture.condensationSeconds)}
damp.breathedWaterKg; ${about(moisture.breathedWaterKg)}`,
  };
}

function dampOf(values: DampValues) {
  const { widthM, heightM, depthM, highestAirC, relativeHumidityPercent, breathing } = values;
  const { desiccantUnitsCount, serviceDays, glandsFaceDown, dripLoops, hasDrain } = values;
  return {
    airC: highestAirC,
    relativeHumidityPercent,
    volumeM3: tidy(widthM * heightM * depthM),
    wallAreaM2: tidy(2 * (widthM * heightM + widthM * depthM + heightM * depthM)),
    breathing,
    desiccantUnitsCount,
    serviceDays,
    glandsFaceDown,
    dripLoops,
    hasDrain,
  };
}

/** Without the last digits that multiplying leaves: 0.2 × 0.2 × 0.1 is 0.004 in the code that is shown, too. */
function tidy(value: number): number {
  return Number(value.toPrecision(12));
}

function leadOf({ condensationSeconds, dewPointC, drynessMarginK }: BoxMoisture): string {
  const dew = `the dew point of the air is ${decimal(dewPointC, 1)} °C`;
  return condensationSeconds === 0
    ? `The walls stay dry: ${dew}, and the coldest wall lies ${decimal(drynessMarginK, 1)} K above it.`
    : `The walls grow wet for some ${decimal(condensationSeconds / 3600, 1)} hours of such a day: ${dew}.`;
}

function factsOf(moisture: BoxMoisture): Outcome['facts'] {
  const { neededUnitsCount, desiccantLifeDays, condensateKg, breathedM3, breathedWaterKg, wallWaterKg } =
    moisture;
  return [
    ['Dew point of the air outside', `${decimal(moisture.dewPointC, 1)} °C`],
    ['Coldest wall against it', `${decimal(moisture.drynessMarginK, 1)} K`],
    ['Water on the walls in one night, at most', grams(condensateKg)],
    [
      'Air breathed in a day',
      `${decimal(breathedM3 * 1000, 2)} litres, with ${grams(breathedWaterKg)} of water`,
    ],
    ['Water through the walls in a day', grams(wallWaterKg)],
    [
      'Desiccant to the next visit',
      neededUnitsCount === undefined
        ? 'no bag can dry a vented box'
        : `${decimal(Math.ceil(neededUnitsCount), 0)} units`,
    ],
    ...(desiccantLifeDays === undefined
      ? []
      : [['What is in it lasts', `${decimal(desiccantLifeDays, 0)} days`] as const]),
  ];
}

function grams(massKg: number): string {
  return `${decimal(massKg * 1000, massKg < 0.001 ? 3 : 1)} g`;
}
