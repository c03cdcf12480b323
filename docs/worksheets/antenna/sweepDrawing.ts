import { type MagnitudeSweep, type OnePortSweep, readSweep } from '@finial/antenna';
import { type SweepSeries, sweepPicture } from '../../../packages/dossier/src/page/sweepPicture.js';
import type { ReadCut } from './sweepOutcome.js';

/** The last sweep with those before it, as a picture. */
export function sweepDrawing(cuts: readonly Pick<ReadCut, 'sweep' | 'reading'>[], targetHz: number): string {
  const curves = cuts.map(({ sweep }) => curvesOf(sweep, targetHz));
  const last = curves.at(-1) ?? { frequencyHz: [], reflectionCoefficient: [] };
  const reading = cuts.at(-1)?.reading;
  const { lowerHz, upperHz } = reading?.tenDbBand ?? {};
  return sweepPicture({
    ...last,
    earlier: curves.slice(0, -1),
    targetHz,
    resonanceHz: reading?.resonanceHz,
    band: reading?.tenDbBand && { lowerHz, upperHz },
  }).markupText;
}

type Curves = Pick<SweepSeries, 'frequencyHz' | 'reflectionCoefficient' | 'resistanceOhm' | 'reactanceOhm'>;

/** An open end has no finite impedance; the picture draws it at its edge. */
const openOhm = 1e9;

function curvesOf(sweep: OnePortSweep | MagnitudeSweep, targetHz: number): Curves {
  // Asked for on its own points, a sweep is read as it stands.
  const { channels } = readSweep(sweep, { targetHz, channelsHz: [...sweep.frequencyHz] });
  const curves = {
    frequencyHz: channels.map(({ frequencyHz }) => frequencyHz),
    reflectionCoefficient: channels.map(({ reflectionCoefficient }) => reflectionCoefficient),
  };
  if (channels.every(({ reflectionReal }) => reflectionReal === undefined)) return curves;
  return {
    ...curves,
    resistanceOhm: channels.map(({ resistanceOhm }) => resistanceOhm ?? openOhm),
    reactanceOhm: channels.map(({ reactanceOhm }) => reactanceOhm ?? 0),
  };
}
