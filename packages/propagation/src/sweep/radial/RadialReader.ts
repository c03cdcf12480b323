import { clutterProfile, type HeightSampler, heightSampler, type LandCoverRaster } from '@finial/terrain';
import type { SweepGeometry } from '../SweepGeometry.js';
import type { SweepQuestion } from '../SweepJob.js';
import type { SweptGround } from '../SweptGround.js';
import { LocalMap } from './LocalMap.js';
import type { RadialGround } from './RadialGround.js';

/** Reads the ground along one radial after the other into the same arrays. Unchecked. */
export class RadialReader {
  /** The radial that was read last. */
  readonly ground: RadialGround;
  /** Cell of each receiver of that radial, by its index in the raster. */
  readonly cell: Int32Array;
  /** Receivers of that radial whose ground, or the ground before them, is not known. They stand after the known ones in `cell`. */
  missingCount = 0;

  private readonly map: LocalMap;
  private readonly heights: HeightSampler;
  private readonly landCover: LandCoverRaster | undefined;
  private readonly eastM: Float64Array;
  private readonly northM: Float64Array;
  private readonly cellHeightM: Float64Array;
  private readonly cellLatitudeDeg: Float64Array;
  private readonly cellLongitudeDeg: Float64Array;

  constructor(
    private readonly question: SweepQuestion,
    private readonly geometry: SweepGeometry,
    { elevation, landCover }: SweptGround,
  ) {
    const { pointCount, mostReceivers } = geometry;
    this.ground = emptyGround(question.cellM, pointCount, mostReceivers);
    this.cell = new Int32Array(mostReceivers);
    this.map = new LocalMap(question.gateway.position, question.radiusM);
    this.heights = heightSampler(elevation);
    this.eastM = new Float64Array(mostReceivers);
    this.northM = new Float64Array(mostReceivers);
    this.cellHeightM = new Float64Array(mostReceivers);
    this.cellLatitudeDeg = new Float64Array(mostReceivers);
    this.cellLongitudeDeg = new Float64Array(mostReceivers);
    this.landCover = landCover;
  }

  /** Reads a radial. */
  read(radial: number): void {
    const { ground, map, heights } = this;
    const { pointCount, radialCount } = this.geometry;
    map.placesOnLine(
      (2 * Math.PI * radial) / radialCount,
      ground.distanceM,
      pointCount,
      ground.latitudeDeg,
      ground.longitudeDeg,
    );
    heights.fill(ground.latitudeDeg, ground.longitudeDeg, pointCount, ground.heightM);
    ground.pointCount = knownPoints(ground.heightM, pointCount);
    this.coverPoints();
    this.placeReceivers(radial);
  }

  /** Sea and clutter of the points. */
  private coverPoints(): void {
    const { pointCount, heightM, obstacleM, isSea } = this.ground;
    const { seaLevelM = -Infinity, clutterHeightM: clutter = 0 } = this.question;
    const covered = this.landCover && this.clutterUnder(this.landCover);
    for (let point = 0; point < pointCount; point += 1) {
      const height = heightM[point] as number;
      const sea = height <= seaLevelM;
      isSea[point] = sea ? 1 : 0;
      obstacleM[point] = sea ? height : height + (covered ? (covered[point] as number) : clutter);
    }
    obstacleM[0] = heightM[0] as number;
  }

  private clutterUnder(landCover: LandCoverRaster): Float64Array {
    const { pointCount, latitudeDeg, longitudeDeg } = this.ground;
    const latitudesDeg = latitudeDeg.subarray(0, pointCount);
    const longitudesDeg = longitudeDeg.slice(0, pointCount);
    longitudesDeg.forEach((longitude, point) => {
      if (Math.abs(longitude) > 180) longitudesDeg[point] = longitude - 360 * Math.sign(longitude);
    });
    return clutterProfile(landCover, { latitudesDeg, longitudesDeg }).clutterHeightM;
  }

  /** Distance and ground of the receivers; those that nothing is known of go to the end. */
  private placeReceivers(radial: number): void {
    const { ground, geometry, eastM, northM } = this;
    const { cellM, seaLevelM = -Infinity } = this.question;
    const { order, size } = geometry;
    const first = geometry.start[radial] as number;
    const count = (geometry.start[radial + 1] as number) - first;
    const middle = (size - 1) / 2;
    for (let index = 0; index < count; index += 1) {
      const cell = order[first + index] as number;
      const row = Math.floor(cell / size);
      eastM[index] = (cell - row * size - middle) * cellM;
      northM[index] = (middle - row) * cellM;
    }
    this.map.places(eastM, northM, count, this.cellLatitudeDeg, this.cellLongitudeDeg);
    this.heights.fill(this.cellLatitudeDeg, this.cellLongitudeDeg, count, this.cellHeightM);
    const knownM = ground.pointCount < geometry.pointCount ? ground.pointCount * cellM : Infinity;
    let known = 0;
    let unknown = count;
    for (let index = 0; index < count; index += 1) {
      const east = (eastM[index] as number) / cellM;
      const north = (northM[index] as number) / cellM;
      // Squares of whole numbers: a receiver exactly as far as a point comes out so, and that point is no obstacle to it.
      const distance = cellM * Math.sqrt(east * east + north * north);
      const height = this.cellHeightM[index] as number;
      const cell = order[first + index] as number;
      if (distance <= knownM && ground.pointCount > 0 && !Number.isNaN(height)) {
        this.cell[known] = cell;
        ground.receiverDistanceM[known] = distance;
        ground.receiverHeightM[known] = height;
        ground.receiverIsSea[known] = height <= seaLevelM ? 1 : 0;
        known += 1;
      } else {
        unknown -= 1;
        this.cell[unknown] = cell;
      }
    }
    ground.receiverCount = known;
    this.missingCount = count - known;
  }
}

function emptyGround(stepM: number, points: number, receivers: number): RadialGround {
  return {
    stepM,
    pointCount: 0,
    distanceM: Float64Array.from({ length: points }, (_, point) => point * stepM),
    heightM: new Float64Array(points),
    obstacleM: new Float64Array(points),
    isSea: new Uint8Array(points),
    latitudeDeg: new Float64Array(points),
    longitudeDeg: new Float64Array(points),
    receiverCount: 0,
    receiverDistanceM: new Float64Array(receivers),
    receiverHeightM: new Float64Array(receivers),
    receiverIsSea: new Uint8Array(receivers),
    lossDb: new Float64Array(receivers),
  };
}

/** Points before the first that is not known. */
function knownPoints(heightM: Float64Array, count: number): number {
  for (let point = 0; point < count; point += 1) if (Number.isNaN(heightM[point])) return point;
  return count;
}
