import type { CalibrationPart } from '../calibrationPart.js';
import type { CoveragePart } from '../coveragePart.js';
import type { Position } from '../position.js';
import type { ReliefPart } from '../reliefPart.js';
import { circleMap, isOnMap, type Placing } from './circleMap.js';
import { type Markup, markup } from './markup.js';
import { at } from './svg.js';
import { decimal } from './wording.js';

type Residual = CalibrationPart['residuals'][number];

/**
 * Classes of error of the prediction in dB, from far too good to far too bad. Orange against blue is told apart by every kind of colour
 * vision; the sign tells them apart in print.
 */
export const errorClasses: readonly { readonly least: number; readonly name: string }[] = [
  { least: 12, name: 'too good by 12 dB or more' },
  { least: 4, name: 'too good by 4 to 12 dB' },
  { least: -4, name: 'right within 4 dB' },
  { least: -12, name: 'too bad by 4 to 12 dB' },
  { least: -Infinity, name: 'too bad by 12 dB or more' },
];

/** Index in {@link errorClasses} of an error. */
function errorClass(errorDb: number): number {
  return errorClasses.findIndex(({ least }) => errorDb >= least);
}

/** The spots of the walk, coloured by how far the prediction was off there. */
export function residualMap(
  gateway: Position,
  { radiusM, knownPolygons }: Pick<CoveragePart, 'radiusM' | 'knownPolygons'>,
  relief: ReliefPart | undefined,
  { residuals }: CalibrationPart,
): Markup {
  const tooGood = residuals.filter(({ errorDb }) => errorDb >= 4).length;
  return circleMap({
    id: 'residual-map',
    title: 'How far the prediction was off, spot by spot',
    description: `${residuals.length} spots, ${tooGood} of them predicted too good by 4 dB or more; the table below lists each.`,
    gateway,
    radiusM,
    knownPolygons,
    relief,
    areas: () => [],
    marks: (place) => residuals.map((spot) => residualMark(spot, place)),
  });
}

/** A ring where nothing arrived: there the error is at least this. */
function residualMark(spot: Residual, place: Placing): Markup {
  const [x, y] = place(spot);
  if (!isOnMap([x, y])) return markup``;
  const isDeaf = spot.missedFrames === spot.usedFrames;
  const words = `${spot.spot}: ${isDeaf ? 'at least ' : ''}${decimal(spot.errorDb, 1)} dB`;
  return markup`<circle class="error ${isDeaf ? 'deaf' : ''} error-${errorClass(spot.errorDb)}" cx="${at(x)}" cy="${at(y)}" r="5"><title>${words}</title></circle>`;
}
