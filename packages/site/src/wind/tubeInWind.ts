import { checkObject, checkOneOf, checkRange, InputError } from '@finial/units';
import { type MastMaterialName, mastMaterials } from './mastMaterials.js';

/** The tube of a mast: a cantilever above its topmost support. */
export interface MastTube {
  /** Outer diameter in metres, 0.005 to 1. */
  readonly outerDiameterM: number;
  /** Wall thickness in metres, 0.0005 up to half the diameter. */
  readonly wallM: number;
  /** Top of the tube above the foot in metres, 0.1 to 100. */
  readonly topM: number;
  /**
   * Topmost support above the foot in metres, 0 or more and below the top: the upper bracket; 0 where the foot holds the tube.
   *
   * @defaultValue 0
   */
  readonly supportM?: number | undefined;
  /** Material by name; its figures are from memory. Leave it out where both figures are given. */
  readonly material?: MastMaterialName | undefined;
  /** Stress in pascals at which the tube yields, 1e6 to 3e9, from the maker's sheet; welded aluminium has about half. */
  readonly strengthPa?: number | undefined;
  /** Modulus of elasticity in pascals, 1e9 to 1e12, from the maker's sheet. */
  readonly modulusPa?: number | undefined;
}

/** A force of the wind that is spread evenly over a height. */
export interface SpreadForce {
  /** Force in newtons, 0 to 1e9. */
  readonly forceN: number;
  /** Lower end above the foot in metres, 0 to 200. */
  readonly fromM: number;
  /** Upper end above the foot in metres, above the lower end, up to 200. */
  readonly toM: number;
}

/** What the wind does to the tube. */
export interface TubeInWind {
  /** Bending moment at the topmost support in newton metres. */
  readonly supportMomentNm: number;
  /** Section modulus of the tube in cubic metres. */
  readonly sectionModulusM3: number;
  /** Bending stress at the support in pascals. */
  readonly stressPa: number;
  /** Stress at which the tube yields, in pascals. */
  readonly strengthPa: number;
  /** Strength over stress as a ratio: below 1 the tube bends for good. Missing where nothing acts above the support. */
  readonly reserveRatio?: number | undefined;
  /** How far the top of the tube moves in metres, as far as small bending goes. */
  readonly topDeflectionM: number;
  /** Whether strength and modulus came from the caller; false for figures from memory. */
  readonly isVerified: boolean;
}

/**
 * Bending stress at the topmost support of a mast tube and movement of its top, under forces across it. A straight cantilever of one tube: no
 * guys, no buckling of a thin wall, no holes, no rust, no swaying in the rhythm of its own eddies, which breaks masts in moderate wind.
 *
 * @returns moment, stress and deflection; exact for small bending, too small a deflection beyond a tenth of the length
 * @throws {@link InputError} `wrong-type`, `missing`, `unknown-option`, `not-a-finite-number` or `out-of-range`
 * @source elementary beam theory: stress M/W, W = π (D⁴ - d⁴)/(32 D); cantilever under a load at a: P a² (3 L - a)/(6 E I)
 * @example 150 N spread over 2 m of a steel tube
 * ```ts
 * import { tubeInWind } from '@finial/site';
 *
 * const tube = { outerDiameterM: 0.0483, wallM: 0.0032, topM: 2, material: 'steel-s235' } as const;
 * const bent = tubeInWind(tube, [{ forceN: 150, fromM: 0, toM: 2 }]);
 * bent.stressPa; // ≈ 31.3e6
 * bent.topDeflectionM; // ≈ 0.0062
 * ```
 */
export function tubeInWind(tube: MastTube, forces: readonly SpreadForce[]): TubeInWind {
  const { topM, supportM, sectionModulusM3, stiffnessNm2, strengthPa, isVerified } = checkedTube(tube);
  const lengthM = topM - supportM;
  let supportMomentNm = 0;
  let topDeflectionM = 0;
  checkedForces(forces).forEach(({ forceN, fromM, toM }) => {
    const perM = forceN / (toM - fromM);
    const low = Math.max(fromM - supportM, 0);
    const high = Math.max(toM - supportM, 0);
    supportMomentNm += (perM * (high ** 2 - low ** 2)) / 2;
    const [start, end] = [Math.min(low, lengthM), Math.min(high, lengthM)];
    // Integral of a² (3 L - a) over the part that stands beside the tube …
    const along = lengthM * (end ** 3 - start ** 3) - (end ** 4 - start ** 4) / 4;
    // … and force and moment at the top from what stands above it.
    const above = perM * (high - end - (low - start));
    const arm = (Math.max(low, lengthM) + Math.max(high, lengthM)) / 2 - lengthM;
    topDeflectionM += (perM * along) / 6 / stiffnessNm2;
    topDeflectionM += (above * (lengthM ** 3 / 3 + (arm * lengthM ** 2) / 2)) / stiffnessNm2;
  });
  const stressPa = supportMomentNm / sectionModulusM3;
  const reserveRatio = stressPa > 1e-6 ? strengthPa / stressPa : undefined;
  return {
    supportMomentNm,
    sectionModulusM3,
    stressPa,
    strengthPa,
    reserveRatio,
    topDeflectionM,
    isVerified,
  };
}

function checkedTube(tube: MastTube) {
  checkObject(tube, 'tube');
  const { supportM = 0 } = tube;
  const outerDiameterM = checkRange(tube.outerDiameterM, 'outerDiameterM', {
    min: 0.005,
    max: 1,
    unit: 'metres',
  });
  const wallM = checkRange(tube.wallM, 'wallM', { min: 0.0005, max: outerDiameterM / 2, unit: 'metres' });
  const topM = checkRange(tube.topM, 'topM', { min: 0.1, max: 100, unit: 'metres' });
  checkRange(supportM, 'supportM', { min: 0, max: topM - 0.05, unit: 'metres' });
  const innerM = outerDiameterM - 2 * wallM;
  const bendingM4 = (Math.PI * (outerDiameterM ** 4 - innerM ** 4)) / 64;
  const { strengthPa, modulusPa, isVerified } = checkedMaterial(tube);
  const sectionModulusM3 = bendingM4 / (outerDiameterM / 2);
  return {
    topM,
    supportM,
    sectionModulusM3,
    stiffnessNm2: modulusPa * bendingM4,
    strengthPa,
    isVerified,
  };
}

function checkedMaterial({ material, strengthPa, modulusPa }: MastTube) {
  const known =
    material === undefined
      ? undefined
      : mastMaterials[
          checkOneOf(material, 'material', ['steel-s235', 'stainless-1.4301', 'aluminium-6060-t66'])
        ];
  if (known === undefined && (strengthPa === undefined || modulusPa === undefined)) {
    const argument = strengthPa === undefined ? 'strengthPa' : 'modulusPa';
    throw new InputError({
      code: 'missing',
      argument,
      received: undefined,
      expected: 'a material, or both strengthPa and modulusPa',
    });
  }
  return {
    strengthPa: checkRange(strengthPa === undefined ? known?.strengthPa : strengthPa, 'strengthPa', {
      min: 1e6,
      max: 3e9,
      unit: 'pascals',
    }),
    modulusPa: checkRange(modulusPa === undefined ? known?.modulusPa : modulusPa, 'modulusPa', {
      min: 1e9,
      max: 1e12,
      unit: 'pascals',
    }),
    isVerified: strengthPa !== undefined && modulusPa !== undefined,
  };
}

function checkedForces(forces: readonly SpreadForce[]): readonly SpreadForce[] {
  if (!Array.isArray(forces)) {
    throw new InputError({
      code: 'wrong-type',
      argument: 'forces',
      received: forces,
      expected: 'a list of forces',
    });
  }
  return (forces as readonly SpreadForce[]).map((force, index) => {
    const place = `forces[${index}]`;
    checkObject(force, place);
    checkRange(force.forceN, `${place}.forceN`, { min: 0, max: 1e9, unit: 'newtons' });
    const fromM = checkRange(force.fromM, `${place}.fromM`, { min: 0, max: 199, unit: 'metres' });
    checkRange(force.toM, `${place}.toM`, { min: fromM + 1e-4, max: 200, unit: 'metres' });
    return force;
  });
}
