import { scaleLinear } from 'd3-scale';
import type { CalibrationPart } from '../calibrationPart.js';
import { join, type Markup, markup } from './markup.js';
import { at, label, line, picture, pictureWidth } from './svg.js';
import { decimal } from './wording.js';

const left = 40;
const right = pictureWidth - 10;
const top = 12;
const bottom = 250;

/** One mark for each spot: measured level over predicted. Spots on the line are as predicted, below it the prediction is optimistic. */
export function predictedAgainstMeasured({ residuals }: CalibrationPart): Markup {
  const spots = residuals.map(({ predictedDbm, errorDb, usedFrames, missedFrames }) => ({
    predictedDbm,
    measuredDbm: predictedDbm - errorDb,
    isHeard: missedFrames < usedFrames,
  }));
  const levels = spots.flatMap(({ predictedDbm, measuredDbm }) => [predictedDbm, measuredDbm]);
  const range = [Math.min(...levels) - 3, Math.max(...levels) + 3] as const;
  const x = scaleLinear().domain(range).nice().range([left, right]);
  const y = scaleLinear().domain(range).nice().range([bottom, top]);
  const [least = 0, most = 0] = x.domain();
  const ticks = x
    .ticks(5)
    .map((level) =>
      join([
        line('grid', left, y(level), right, y(level)),
        label(left - 5, y(level) + 4, decimal(level, 0), 'mark', 'end'),
        label(x(level), bottom + 15, decimal(level, 0), 'mark', 'middle'),
      ]),
    );
  const description = `${spots.length} spots; the table below lists each with its predicted level and its error.`;
  return picture(
    {
      id: 'predicted-measured',
      height: bottom + 34,
      title: 'Measured level over predicted level, spot by spot',
      description,
    },
    [
      ...ticks,
      line('rule', x(least), y(least), x(most), y(most)),
      ...spots.map(({ predictedDbm, measuredDbm, isHeard }) => {
        const [cx, cy] = [at(x(predictedDbm)), at(y(measuredDbm))];
        return isHeard
          ? markup`<circle class="frame strong" cx="${cx}" cy="${cy}" r="4"/>`
          : markup`<path class="unjoined" d="M${cx - 4} ${cy - 3}l4 5 4 -5"/>`;
      }),
      label(right, bottom + 29, 'predicted, dBm', 'mark', 'end'),
      label(left - 36, top - 2, 'measured', 'mark'),
    ],
  );
}
