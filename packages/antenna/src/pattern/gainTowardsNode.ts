import { earthRadiusM, standardEarthRadiusFactor } from '@finial/radio';
import { checkObject, checkRange, type Finding } from '@finial/units';
import { checkWithinTable, interpolatePattern } from './interpolatePattern.js';
import { azimuthBounds, checkPattern, type PatternTable } from './PatternTable.js';

/** A gateway's antenna, and a node that it shall hear. */
export interface NodeDirection {
  /** Height of the gateway's antenna in metres above a level that both share (sea level, or flat ground), -500 to 20000. */
  readonly gatewayHeightM: number;
  /** Height of the node in metres above the same level, -500 to 20000. */
  readonly nodeHeightM: number;
  /** Distance along the ground in metres, 0.1 to 1e6. */
  readonly distanceM: number;
  /** Pattern of the gateway's antenna as it stands. */
  readonly pattern: PatternTable;
  /**
   * Azimuth of the node in degrees, in the sense of the pattern's azimuths, -360 to 360. Without azimuths in the pattern it plays no part.
   *
   * @defaultValue 0
   */
  readonly azimuthDeg?: number | undefined;
  /**
   * Factor on the Earth's radius for bent rays, 0.1 to 1000.
   *
   * @defaultValue 4/3, an average atmosphere
   */
  readonly effectiveEarthRadiusFactor?: number | undefined;
}

/** What a gateway's antenna does towards a node. */
export interface NodeGain {
  /** Elevation of the node in degrees as the gateway sees it over the curved Earth; negative is below the horizontal. */
  readonly elevationDeg: number;
  /** Elevation in degrees if the Earth were flat. */
  readonly flatEarthElevationDeg: number;
  /** Gain towards the node in dBi. */
  readonly gainDbi: number;
  /** Greatest gain of the pattern in dBi, over all its directions. */
  readonly maximumGainDbi: number;
  /** Elevation in degrees of that greatest gain. */
  readonly elevationOfMaximumDeg: number;
  /** How much less the node gets than the maximum, in dB, 0 or more. */
  readonly belowMaximumDb: number;
  /** Whether the pattern has a dip here: it rises again further down or further up, and the node lies 10 dB or more below the maximum. */
  readonly isInNull: boolean;
  /** What a person should be told. */
  readonly findings: readonly Finding[];
}

/** From here on a node is said to lie beside the beam, and from the second on, to lie in a null. */
const besideBeamDb = 3;
const nullDb = 10;

/**
 * Gain of a gateway's antenna towards a node, from heights and distance: what a high-gain collinear on a hill loses to the houses at
 * the foot of it.
 *
 * The ray is straight over an Earth whose radius is stretched for the bending of the air; hills, roofs and reflections are not looked
 * at. A node near the mast also has a shorter path: see whether the link budget still closes before changing the antenna.
 *
 * @returns angles in degrees (error below 0.001° to 100 km), gains interpolated linearly in dB between the angles of the pattern
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number`, `missing`, or `out-of-range` also when the pattern does not cover the node
 * @source geometry; Recommendation ITU-R P.1812, section 4.3.1 (bulge of the Earth); the limits of 3 and 10 dB are common practice, no source
 * @example Eight elements on a hill 180 m above the village, 600 m away
 * ```ts
 * import { collinearPattern, gainTowardsNode } from '@finial/antenna';
 *
 * const pattern = collinearPattern({ elements: 8, spacingWavelengths: 0.8 });
 * const village = gainTowardsNode({ gatewayHeightM: 200, nodeHeightM: 20, distanceM: 600, pattern });
 * village.elevationDeg; // ≈ -16.7
 * village.isInNull; // → true
 * village.findings[0]?.rule; // → 'pattern-null'
 * ```
 */
export function gainTowardsNode(direction: NodeDirection): NodeGain {
  checkObject(direction, 'direction');
  const angles = anglesOf(direction);
  const pattern = checkPattern(direction.pattern, 'pattern');
  const { azimuthDeg = 0 } = direction;
  checkRange(azimuthDeg, 'azimuthDeg', azimuthBounds);
  checkWithinTable(pattern, angles.elevationDeg, 'pattern');

  const gainDbi = interpolatePattern(pattern, angles.elevationDeg, azimuthDeg);
  const strongest = strongestOf(pattern);
  const belowMaximumDb = Math.max(0, strongest.maximumGainDbi - gainDbi);
  const isInNull =
    belowMaximumDb >= nullDb && risesOnBothSides(pattern, angles.elevationDeg, azimuthDeg, gainDbi);
  const seen = { ...angles, gainDbi, ...strongest, belowMaximumDb, isInNull };
  return { ...seen, findings: findingsOf(seen) };
}

function anglesOf(direction: NodeDirection): { elevationDeg: number; flatEarthElevationDeg: number } {
  const heights = { min: -500, max: 20_000, unit: 'metres' };
  const gatewayM = checkRange(direction.gatewayHeightM, 'gatewayHeightM', heights);
  const nodeM = checkRange(direction.nodeHeightM, 'nodeHeightM', heights);
  const distanceM = checkRange(direction.distanceM, 'distanceM', { min: 0.1, max: 1e6, unit: 'metres' });
  const { effectiveEarthRadiusFactor: factor = standardEarthRadiusFactor } = direction;
  const factors = { min: 0.1, max: 1000, unit: 'as a factor on the Earth radius' };
  checkRange(factor, 'effectiveEarthRadiusFactor', factors);
  const dropM = distanceM ** 2 / (2 * earthRadiusM * factor);
  const degrees = (riseM: number) => (Math.atan2(riseM, distanceM) * 180) / Math.PI;
  return {
    elevationDeg: degrees(nodeM - gatewayM - dropM),
    flatEarthElevationDeg: degrees(nodeM - gatewayM),
  };
}

function strongestOf({ elevationDeg, gainDbi }: PatternTable): {
  maximumGainDbi: number;
  elevationOfMaximumDeg: number;
} {
  let best = 0;
  for (let index = 1; index < gainDbi.length; index++) {
    if ((gainDbi[index] as number) > (gainDbi[best] as number)) best = index;
  }
  return {
    maximumGainDbi: gainDbi[best] as number,
    elevationOfMaximumDeg: elevationDeg[best % elevationDeg.length] as number,
  };
}

/** Whether the gain is 3 dB more somewhere above and somewhere below: a dip between lobes, not the edge of the only one. */
function risesOnBothSides(
  pattern: PatternTable,
  elevationDeg: number,
  azimuthDeg: number,
  gainDbi: number,
): boolean {
  let [above, below] = [false, false];
  for (let index = 0; index < pattern.elevationDeg.length; index++) {
    const elevation = pattern.elevationDeg[index] as number;
    if (interpolatePattern(pattern, elevation, azimuthDeg) < gainDbi + besideBeamDb) continue;
    if (elevation > elevationDeg) above = true;
    else below = true;
  }
  return above && below;
}

function findingsOf(seen: Omit<NodeGain, 'findings'>): Finding[] {
  const { belowMaximumDb, elevationDeg, gainDbi, maximumGainDbi } = seen;
  if (belowMaximumDb < besideBeamDb) return [];
  const common = {
    measured: `${gainDbi.toFixed(1)} dBi`,
    source: 'common practice, no source: 3 dB is the edge of the beam, 10 dB a null',
  };
  const where = `The node lies ${angle(elevationDeg)}, where the antenna gives ${gainDbi.toFixed(1)} dBi, ${belowMaximumDb.toFixed(1)} dB less than at its best (${maximumGainDbi.toFixed(1)} dBi at ${seen.elevationOfMaximumDeg.toFixed(1)}°)`;
  if (belowMaximumDb < nullDb) {
    const message = `${where}: it is beside the beam. Count this gain in its link budget, not the one on the label.`;
    const limit = `${(maximumGainDbi - besideBeamDb).toFixed(1)} dBi`;
    return [{ rule: 'pattern-beside-beam', severity: 'note', message, limit, ...common }];
  }
  const message = `${where}: it is ${seen.isInNull ? 'in a null between two lobes' : 'far outside the beam'}. If the link budget with this gain does not close, take an antenna with less gain, tilt the beam down, or give this place its own gateway.`;
  const limit = `${(maximumGainDbi - nullDb).toFixed(1)} dBi`;
  return [{ rule: 'pattern-null', severity: 'fix', message, limit, ...common }];
}

function angle(elevationDeg: number): string {
  const size = Math.abs(elevationDeg).toFixed(1);
  return `${size}° ${elevationDeg < 0 ? 'below' : 'above'} the horizontal`;
}
