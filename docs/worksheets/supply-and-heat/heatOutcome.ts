import { type EnclosureDay, enclosureDay } from '@finial/site';
import { dayPicture } from '../../../packages/dossier/src/page/dayPicture.js';
import { decimal } from '../../../packages/dossier/src/page/wording.js';
import { about, literal } from '../frame/codeOf.js';
import type { Outcome, SheetTable } from '../frame/sheet.js';
import { boxDay } from './boxDay.js';
import type { BoxValues } from './SiteValues.js';

/** How hot the box gets on a day, and what a change would buy. */
export function heatOutcome(values: BoxValues): Outcome {
  const box = boxDay(values);
  const day = enclosureDay(box);
  return {
    lead: leadOf(day),
    facts: [
      [
        'Hottest inside',
        `${decimal(day.hottestInsideC, 1)} °C at ${timeOfDay(day.hottestTimeOfDaySeconds)} by the sun`,
      ],
      ['Give or take', `${decimal(day.uncertaintyK, 0)} K`],
      ['Hottest wall', `${decimal(day.hottestSkinC, 1)} °C`],
      ['Limit of the electronics', `${decimal(day.electronicsLimitC, 0)} °C`],
      ['With an awning', awning(day)],
    ],
    pictures: [
      {
        svg: dayPicture(day).markupText,
        caption: 'Solid: inside. Dashed: air. Dotted: walls. Dashed red: limit of the electronics.',
      },
    ],
    tables: [remedyTable(day), changesTable(day), hourTable(day)],
    findings: day.findings,
    code: `import { enclosureDay } from '@finial/site';

const day = enclosureDay(${literal(box)});
day.hottestInsideC; ${about(day.hottestInsideC)}
day.uncertaintyK; ${about(day.uncertaintyK)}
day.remedies.find(({ change }) => change === 'awning')?.gainK; ${about(gainOf(day, 'awning'))}`,
  };
}

function leadOf({ hottestInsideC, marginK, electronicsLimitC, uncertaintyK }: EnclosureDay): string {
  const limit = `the limit of ${decimal(electronicsLimitC, 0)} °C`;
  const inside = `Inside it gets ${decimal(hottestInsideC, 1)} °C`;
  if (marginK < 0) return `${inside}, ${decimal(-marginK, 1)} K above ${limit}.`;
  return marginK < uncertaintyK
    ? `${inside}: below ${limit}, but by less than the estimate may be wrong.`
    : `${inside}, ${decimal(marginK, 1)} K below ${limit}.`;
}

function gainOf({ remedies }: EnclosureDay, wanted: EnclosureDay['remedies'][number]['change']): number {
  return remedies.find(({ change }) => change === wanted)?.gainK ?? 0;
}

function awning(day: EnclosureDay): string {
  const gainK = gainOf(day, 'awning');
  return Math.abs(gainK) < 0.05 ? 'nothing more to gain' : `${decimal(gainK, 1)} K cooler`;
}

/** Hours and minutes of a time after midnight. */
function timeOfDay(timeSeconds: number): string {
  const minutes = Math.round(timeSeconds / 60);
  return `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, '0')}`;
}

function remedyTable({ remedies }: EnclosureDay): SheetTable {
  return {
    caption: 'What a change would buy',
    head: ['Change', 'Hottest inside', 'Cooler by'],
    rows: remedies.map(({ change, hottestInsideC, gainK }) => [
      wordsOf(change),
      `${decimal(hottestInsideC, 1)}\u00a0°C`,
      `${decimal(gainK, 1)}\u00a0K`,
    ]),
  };
}

/** Each change in full: too long for a column beside others. */
function changesTable({ remedies }: EnclosureDay): SheetTable {
  return {
    caption: 'What each change is',
    head: ['Change'],
    rows: remedies.map(({ change, description }) => [`${wordsOf(change)}: ${description}`]),
    isFolded: true,
  };
}

function wordsOf(change: string): string {
  return change.replaceAll('-', ' ');
}

function hourTable({ hours }: EnclosureDay): SheetTable {
  return {
    caption: 'Hour by hour, sun time',
    head: ['Hour', 'Air', 'Walls', 'Inside', 'Sun above the horizon'],
    rows: hours.map(({ timeOfDaySeconds, airC, skinC, insideC, sunElevationDeg }) => [
      timeOfDay(timeOfDaySeconds),
      `${decimal(airC, 1)}\u00a0°C`,
      `${decimal(skinC, 1)}\u00a0°C`,
      `${decimal(insideC, 1)}\u00a0°C`,
      sunElevationDeg < 0 ? 'below' : `${decimal(sunElevationDeg, 0)}°`,
    ]),
    isFolded: true,
  };
}
