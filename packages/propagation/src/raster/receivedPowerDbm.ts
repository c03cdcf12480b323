import { type Elevation, heightSampler } from '@finial/terrain';
import { checkObject, checkRange, InputError } from '@finial/units';
import { effectiveEarthRadius } from '../p526/effectiveEarthRadius.js';
import type { CoverageRaster } from '../sweep/SweepJob.js';
import { type GainPattern, gainTowards } from './GainPattern.js';
import { beside, positionAt, wrapped } from './placement.js';
import { intervalsFor, PlaneMap, type PlanePoint } from './planeMap.js';
import { checkFrame, mapFigures } from './RasterFrame.js';

/** Powers, gains and losses of a link between the gateway and a node at each cell. */
export interface CoverageLink {
  /**
   * Power in dBm that the transmitter hands to its feedline, -100 to 100: the gateway's for the downlink, the node's for the uplink. Gains and
   * losses hold for both directions.
   */
  readonly conductedPowerDbm: number;
  /**
   * Loss of the gateway's feedline in dB, 0 to 200.
   *
   * @defaultValue 0
   */
  readonly feedlineLossDb?: number | undefined;
  /** Gain of the gateway's antenna in dBi, -100 to 100, the same in all directions. Either this or `pattern`. */
  readonly gatewayGainDbi?: number | undefined;
  /** Gain of the gateway's antenna by elevation and, if it is not the same all around, azimuth. Needs `elevation`. */
  readonly pattern?: GainPattern | undefined;
  /**
   * Bearing in degrees from true north to which azimuth 0 of the pattern is turned, -360 to 360.
   *
   * @defaultValue 0
   */
  readonly patternBearingDeg?: number | undefined;
  /** Heights of the ground that the coverage was swept over: they say how far below the antenna each cell lies. Only with `pattern`. */
  readonly elevation?: Elevation | undefined;
  /**
   * Gain of the node's antenna in dBi, -100 to 100.
   *
   * @defaultValue 0
   */
  readonly nodeGainDbi?: number | undefined;
  /**
   * Whatever else is lost at the node, in dB, 0 to 200: a wall, a body, a worn antenna.
   *
   * @defaultValue 0
   */
  readonly otherLossDb?: number | undefined;
}

/**
 * Power at the other end of the link from every cell, in dBm: conducted power and gains, less feedline, other losses and path.
 *
 * The gain of a pattern is that towards the node itself, over an Earth whose radius is stretched as in the model of the coverage (4/3 where
 * that has none). Behind a hill the ray really leaves towards the edge of the hill; mostly that is less than a degree away, but near a steep
 * ridge a narrow beam may be judged wrongly by some decibels.
 *
 * @returns dBm, one for each cell, NaN where the coverage has no data; error that of the losses, plus rounding to 32 bits (1e-5 dB)
 * @throws {@link InputError} `wrong-type`, `not-a-finite-number`, `out-of-range` (also where a cell lies beyond the elevations of the
 * pattern), `unknown-option` or `missing`
 * @source definition of the basic transmission loss: Recommendation ITU-R P.341, section 4 (from memory); bulge of the Earth:
 * Recommendation ITU-R P.1812-8 (09/2025), Annex 1, section 4.3.1; linear interpolation in decibels: common practice, no source
 * @example A gateway's 14 dBm through 1.5 dB of cable and a 5 dBi antenna
 * ```ts
 * import { receivedPowerDbm, sweepCoverage, type SweepQuestion } from '@finial/propagation';
 *
 * const gateway = { position: { latitudeDeg: 50, longitudeDeg: 16 }, antennaHeightM: 12 };
 * const question: SweepQuestion = {
 *   gateway, frequencyHz: 868.1e6, model: { kind: 'p525' }, radiusM: 300, cellM: 100, receiverHeightM: 1.5,
 * };
 * const tile = {
 *   name: 'plain', columns: 2, rows: 2, heightsM: new Float32Array(4), voidCount: 0,
 *   grid: { kind: 'geographic' as const, northDeg: 51, westDeg: 15, rowStepDeg: 2, columnStepDeg: 2 },
 * };
 * const elevation = { tiles: [tile], voidCount: 0, filledCount: 0 };
 * const raster = await sweepCoverage({ ...question, elevation });
 * const powerDbm = receivedPowerDbm(raster, { conductedPowerDbm: 14, feedlineLossDb: 1.5, gatewayGainDbi: 5 });
 * powerDbm[3 * 7 + 4]; // ≈ -53.77
 * ```
 */
export function receivedPowerDbm(raster: CoverageRaster, link: CoverageLink): Float32Array {
  checkFrame(raster);
  checkObject(link, 'link');
  const { feedlineLossDb = 0, nodeGainDbi = 0, otherLossDb = 0, gatewayGainDbi, pattern } = link;
  const gains = { min: -100, max: 100, unit: 'dBi' };
  const losses = { min: 0, max: 200, unit: 'dB (a loss is positive)' };
  const withoutGatewayDbm =
    checkRange(link.conductedPowerDbm, 'conductedPowerDbm', { min: -100, max: 100, unit: 'dBm' }) +
    checkRange(nodeGainDbi, 'nodeGainDbi', gains) -
    checkRange(feedlineLossDb, 'feedlineLossDb', losses) -
    checkRange(otherLossDb, 'otherLossDb', losses);
  if (pattern === undefined) {
    const eirpDbm = withoutGatewayDbm + checkRange(gatewayGainDbi, 'gatewayGainDbi', gains);
    return mapFigures(raster.lossDb, (lossDb) => eirpDbm - lossDb);
  }
  if (gatewayGainDbi !== undefined) {
    const expected = 'to be left out where there is a pattern';
    throw new InputError({
      code: 'out-of-range',
      argument: 'gatewayGainDbi',
      received: gatewayGainDbi,
      expected,
    });
  }
  return throughPattern(raster, link, pattern, withoutGatewayDbm);
}

function throughPattern(
  raster: CoverageRaster,
  link: CoverageLink,
  pattern: GainPattern,
  withoutGatewayDbm: number,
): Float32Array {
  const gain = gainTowards(pattern, 'pattern');
  const { patternBearingDeg = 0 } = link;
  checkRange(patternBearingDeg, 'patternBearingDeg', { min: -360, max: 360, unit: 'degrees' });
  const riseOf = risesAboveGateway(raster, link.elevation);
  const degrees = 180 / Math.PI;
  const middle = (raster.columns - 1) / 2;
  const powerDbm = new Float32Array(raster.lossDb.length).fill(Number.NaN);
  for (let row = 0, index = 0; row < raster.rows; row++) {
    const northM = (middle - row) * raster.cellM;
    for (let column = 0; column < raster.columns; column++, index++) {
      const lossDb = raster.lossDb[index] as number;
      if (lossDb - lossDb !== 0) continue;
      const eastM = (column - middle) * raster.cellM;
      const distanceM = Math.sqrt(eastM * eastM + northM * northM);
      const elevationDeg = Math.atan2(riseOf(eastM, northM, distanceM), distanceM) * degrees;
      const gainDbi = gain(elevationDeg, Math.atan2(eastM, northM) * degrees - patternBearingDeg);
      if (Number.isNaN(gainDbi) && !Number.isNaN(elevationDeg)) throw beyondPattern(pattern, elevationDeg);
      powerDbm[index] = withoutGatewayDbm + gainDbi - lossDb;
    }
  }
  return powerDbm;
}

/** How far a node rises above the gateway's antenna, less the bulge of the Earth between them, in metres. */
function risesAboveGateway(
  raster: CoverageRaster,
  elevation: Elevation | undefined,
): (eastM: number, northM: number, distanceM: number) => number {
  if (elevation === undefined) {
    const expected = 'the ground of the coverage, which a pattern needs';
    throw new InputError({ code: 'missing', argument: 'elevation', received: elevation, expected });
  }
  const { gateway, receiverHeightM, model } = checkObject(raster.question, 'raster.question');
  checkObject(gateway, 'raster.question.gateway');
  const heights = { min: 0.1, max: 3000, unit: 'metres' };
  checkRange(receiverHeightM, 'raster.question.receiverHeightM', heights);
  checkRange(gateway.antennaHeightM, 'raster.question.gateway.antennaHeightM', heights);
  checkObject(model, 'raster.question.model');
  const deltaN = model.kind === 'p526' || model.kind === 'p1812' ? model.deltaN : undefined;
  const twiceRadiusM = 2 * effectiveEarthRadius({ deltaN });
  const { heightM } = heightSampler(elevation);
  const { origin, columns, cellM } = raster;
  const groundM = heightM(origin.latitudeDeg, origin.longitudeDeg);
  if (Number.isNaN(groundM)) {
    const expected = 'known ground at the gateway';
    throw new InputError({ code: 'missing', argument: 'elevation', received: groundM, expected });
  }
  const betweenM = receiverHeightM - groundM - gateway.antennaHeightM;
  const locate = positions(raster, (columns * cellM) / 2);
  const place: PlanePoint = { x: 0, y: 0 };
  return (eastM, northM, distanceM) => {
    locate(eastM, northM, place);
    return heightM(place.y, wrapped(place.x)) + betweenM - (distanceM * distanceM) / twiceRadiusM;
  };
}

/** Longitude (x, past 180 at the date line) and latitude (y) of offsets from the gateway. */
function positions(
  { origin }: CoverageRaster,
  halfM: number,
): (eastM: number, northM: number, into: PlanePoint) => void {
  const exact = (eastM: number, northM: number): PlanePoint => {
    const { latitudeDeg, longitudeDeg } = positionAt(origin, { eastM, northM });
    return { x: beside(longitudeDeg, origin.longitudeDeg), y: latitudeDeg };
  };
  // Around a pole longitudes are not smooth: there every cell is solved for itself.
  if (Math.abs(origin.latitudeDeg) + halfM / 70_000 > 89) {
    return (eastM, northM, into) => Object.assign(into, exact(eastM, northM));
  }
  const square = { left: -halfM, right: halfM, top: halfM, bottom: -halfM };
  const map = new PlaneMap(square, intervalsFor(halfM), exact);
  return (eastM, northM, into) => map.locate(eastM, northM, into);
}

function beyondPattern({ elevationDeg: table }: GainPattern, elevationDeg: number): InputError {
  return new InputError({
    code: 'out-of-range',
    argument: 'pattern.elevationDeg',
    received: elevationDeg,
    expected: `a pattern that covers all cells; this one covers ${table[0]} to ${table[table.length - 1]} degrees`,
  });
}
