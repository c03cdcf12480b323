import type { CheckedEnclosure } from './Enclosure.js';
import { solarAbsorptivityRatios } from './solarAbsorptivity.js';

/** One change to a box and what it buys on the same day. */
export interface HeatRemedy {
  /** What is changed. */
  readonly change: 'awning' | 'white-paint' | 'awning-and-white-paint' | 'bigger-box' | 'vents';
  /** The change in words, with its figures. */
  readonly description: string;
  /** Hottest inside temperature with the change, in degrees C. */
  readonly hottestInsideC: number;
  /** How much cooler that is, in kelvin; negative where the change makes it hotter. */
  readonly gainK: number;
  /** Margin to the electronics' limit with the change, in kelvin. */
  readonly marginK: number;
}

const awningShade = 0.8;
const growth = 1.5;
const ventM2 = 0.001;

/** Runs the same day for each change. A change that the box already has gains nothing and is still listed. */
export function remediesFor(
  box: CheckedEnclosure,
  hottestInsideC: number,
  limitC: number,
  runOf: (box: CheckedEnclosure) => { readonly hottestInsideC: number },
): readonly HeatRemedy[] {
  const shadeRatio = Math.max(box.shadeRatio, awningShade);
  const absorptivityRatio = Math.min(box.absorptivityRatio, solarAbsorptivityRatios.white);
  const bigger = {
    widthM: box.widthM * growth,
    heightM: box.heightM * growth,
    depthM: box.depthM * growth,
    wallJPerK: box.wallJPerK * growth ** 2,
  };
  const changes: readonly [HeatRemedy['change'], string, Partial<CheckedEnclosure>][] = [
    [
      'awning',
      'an awning with free air behind it that keeps off 80 % of sun and sky; count its area in the wind load',
      { shadeRatio },
    ],
    ['white-paint', 'white paint (absorptivity 0.25, from memory)', { absorptivityRatio }],
    [
      'awning-and-white-paint',
      'an awning (80 %) together with white paint',
      { shadeRatio, absorptivityRatio },
    ],
    ['bigger-box', 'a box 1.5 times as wide, high and deep; without shade it also takes up more sun', bigger],
    [
      'vents',
      'a vent of 10 cm² free area at the bottom and one at the top, screened against insects and rain',
      { ventAreaM2: Math.max(box.ventAreaM2, ventM2) },
    ],
  ];
  return changes.map(([change, description, altered]) => {
    const { hottestInsideC: then } = runOf({ ...box, ...altered });
    return {
      change,
      description,
      hottestInsideC: then,
      gainK: hottestInsideC - then,
      marginK: limitC - then,
    };
  });
}
