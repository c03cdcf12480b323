import {
  type BoxMoisture,
  boxMoisture,
  type EnclosureDay,
  enclosureDay,
  type MastLoad,
  mastLoad,
  type SupplyDrop,
  safetyFindings,
  supplyDrop,
} from '@finial/site';
import { type Finding, InputError } from '@finial/units';
import { inPlan } from './inPlan.js';
import type { Plan } from './plan.js';
import type { BoxPlan, MoisturePlan, SitePlan } from './sitePlan.js';

/** The site part of the dossier. */
export interface SitePart {
  /** What arrives at the end of the supply line; absent where the plan has none. */
  readonly supply?: SupplyDrop | undefined;
  /** The box hour by hour; absent where the plan has none. */
  readonly box?: EnclosureDay | undefined;
  /** Damp in the box; absent where the plan says nothing of it. */
  readonly moisture?: BoxMoisture | undefined;
  /** The mast in the wind; absent where the plan has none. */
  readonly mast?: MastLoad | undefined;
  /** What the site says to a person. */
  readonly findings: readonly Finding[];
}

/** Works out supply, heat and wind of a site, and names what is dangerous there. */
export function sitePart({ gateway }: Plan, { supply, box, moisture, mast, safety }: SitePlan): SitePart {
  const at = (key: string) => (argument: string) => `site.${key}.${argument}`;
  const drop = supply && inPlan(at('supply'), () => supplyDrop(supply));
  const day = box && inPlan(at('box'), () => enclosureDay({ ...box, ...gateway.position }));
  const damp = moisture && inPlan(at('moisture'), () => dampIn(box, day, moisture));
  const load = mast && inPlan(at('mast'), () => mastLoad(mast));
  const dangers = safety === undefined ? [] : inPlan(at('safety'), () => safetyFindings(safety));
  // The dossier judges exposure by itself, with the power that leaves the antenna.
  const known = dangers.filter(({ rule }) => rule !== 'rf-exposure-not-stated');
  return {
    supply: drop,
    box: day,
    moisture: damp,
    mast: load,
    findings: [
      ...(drop?.findings ?? []),
      ...(day?.findings ?? []),
      ...(damp?.findings ?? []),
      ...(load?.findings ?? []),
      ...known,
    ],
  };
}

/** Humidity falls as the day warms, so that it is stated for the hour of the highest temperature; the dew point stays. */
function dampIn(
  box: BoxPlan | undefined,
  day: EnclosureDay | undefined,
  moisture: MoisturePlan,
): BoxMoisture {
  if (box === undefined || day === undefined) {
    throw new InputError({
      code: 'missing',
      argument: 'box',
      received: undefined,
      expected: 'site.box beside it',
    });
  }
  const { widthM, heightM, depthM, highestAirC } = box;
  return boxMoisture({
    ...moisture,
    hours: day.hours,
    airC: highestAirC,
    volumeM3: widthM * heightM * depthM,
    wallAreaM2: 2 * (widthM * heightM + widthM * depthM + heightM * depthM),
  });
}
