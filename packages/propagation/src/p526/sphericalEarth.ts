import type { LinearPolarisation } from '../path/RadioPath.js';
import type { DiffractionConstants } from './diffractionConstants.js';
import { type FirstTerm, firstTerm, landConstants, seaConstants } from './firstTerm.js';

/** Diffraction over smooth spherical Earth, with what it is made of. */
export interface SphericalEarth {
  /** Distance in metres to which the antennas see each other over the smooth Earth. */
  readonly lineOfSightM: number;
  /** Least height of the ray above the smooth Earth in metres; `undefined` beyond the horizon. */
  readonly clearanceM: number | undefined;
  /** Clearance in metres from which there is no loss; `undefined` beyond the horizon. */
  readonly requiredClearanceM: number | undefined;
  /**
   * Earth radius in metres that the first term was taken with: the effective one beyond the horizon, within sight the one that would put
   * the path at its horizon; `undefined` where the clearance suffices.
   */
  readonly usedEarthRadiusM: number | undefined;
  /** First term over land; `undefined` where the clearance suffices or all is sea. */
  readonly land: FirstTerm | undefined;
  /** First term over the sea; `undefined` where the clearance suffices or all is land. */
  readonly sea: FirstTerm | undefined;
  /** Both grounds together in dB, before the clearance scales it; `undefined` where the clearance suffices. */
  readonly firstTermLossDb: number | undefined;
  /** Loss in dB beyond that of free space, 0 or more within sight. */
  readonly lossDb: number;
}

/** Diffraction loss over smooth spherical Earth. Positional and unchecked; heights above the smooth surface, not both 0. */
export function sphericalEarth(
  distanceM: number,
  transmitterHeightM: number,
  receiverHeightM: number,
  effectiveEarthRadiusM: number,
  frequencyHz: number,
  polarisation: LinearPolarisation,
  seaRatio: number,
  constants: DiffractionConstants,
): SphericalEarth {
  const roots = Math.sqrt(transmitterHeightM) + Math.sqrt(receiverHeightM);
  const lineOfSightM = Math.sqrt(2 * effectiveEarthRadiusM) * roots;
  const terms = (radiusM: number): Terms =>
    bothGrounds(seaRatio, (ground) =>
      firstTerm(
        distanceM,
        transmitterHeightM,
        receiverHeightM,
        radiusM,
        frequencyHz,
        polarisation,
        ground,
        constants,
      ),
    );
  if (distanceM >= lineOfSightM) {
    const found = terms(effectiveEarthRadiusM);
    return {
      lineOfSightM,
      clearanceM: undefined,
      requiredClearanceM: undefined,
      usedEarthRadiusM: effectiveEarthRadiusM,
      ...found,
      lossDb: found.firstTermLossDb,
    };
  }
  const wavelengthM = constants.speedOfLightMPerS / frequencyHz;
  const { clearanceM, nearM, farM } = leastClearance(
    distanceM,
    transmitterHeightM,
    receiverHeightM,
    effectiveEarthRadiusM,
  );
  const requiredClearanceM = constants.clearanceFactor * Math.sqrt((nearM / distanceM) * farM * wavelengthM);
  if (clearanceM > requiredClearanceM) {
    return {
      lineOfSightM,
      clearanceM,
      requiredClearanceM,
      usedEarthRadiusM: undefined,
      land: undefined,
      sea: undefined,
      firstTermLossDb: undefined,
      lossDb: 0,
    };
  }
  const usedEarthRadiusM = 0.5 * (distanceM / roots) ** 2;
  const found = terms(usedEarthRadiusM);
  return {
    lineOfSightM,
    clearanceM,
    requiredClearanceM,
    usedEarthRadiusM,
    ...found,
    // Only the negative part is cut, and before the scaling: a path in sight never gains from the ground below it.
    lossDb: (1 - clearanceM / requiredClearanceM) * Math.max(found.firstTermLossDb, 0),
  };
}

interface Terms {
  readonly land: FirstTerm | undefined;
  readonly sea: FirstTerm | undefined;
  readonly firstTermLossDb: number;
}

function bothGrounds(seaRatio: number, term: (ground: typeof landConstants) => FirstTerm): Terms {
  const land = seaRatio < 1 ? term(landConstants) : undefined;
  const sea = seaRatio > 0 ? term(seaConstants) : undefined;
  return {
    land,
    sea,
    firstTermLossDb: seaRatio * (sea?.lossDb ?? 0) + (1 - seaRatio) * (land?.lossDb ?? 0),
  };
}

/** The point where the ray passes nearest above the smooth Earth: its height there and its distance from either end. */
function leastClearance(
  distanceM: number,
  transmitterHeightM: number,
  receiverHeightM: number,
  earthRadiusM: number,
): { readonly clearanceM: number; readonly nearM: number; readonly farM: number } {
  const sum = transmitterHeightM + receiverHeightM;
  const c = (transmitterHeightM - receiverHeightM) / sum;
  const m = ((distanceM / (4 * earthRadiusM)) * distanceM) / sum;
  // Printed with cos(π/3 + acos(x)/3), which is the same; as a sine it keeps its digits where heights are alike. A rounding may carry x
  // past 1, and its arc would be NaN.
  const x = Math.max(-1, Math.min(1, 1.5 * c * Math.sqrt((3 * m) / (m + 1) ** 3)));
  const b = 2 * Math.sqrt((m + 1) / (3 * m)) * Math.sin(Math.asin(x) / 3);
  const nearM = (distanceM / 2) * (1 + b);
  const farM = distanceM - nearM;
  const overNearM = transmitterHeightM - (nearM * nearM) / (2 * earthRadiusM);
  const overFarM = receiverHeightM - (farM * farM) / (2 * earthRadiusM);
  return { clearanceM: (overNearM * farM + overFarM * nearM) / distanceM, nearM, farM };
}
