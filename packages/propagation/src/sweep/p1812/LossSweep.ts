import {
  anomalousTimePercent,
  greatestAnomalousTimePercent,
  inlandInfluence,
} from '../../p1812/anomalousTime.js';
import {
  angleFactor,
  distanceFactor,
  ductedDiffractionLossDb,
  leastDuctingLossDb,
  leastLineOfSightLossDb,
  timeFactor,
  withTroposcatterDb,
} from '../../p1812/combination.js';
import { complementaryNormalDeviate } from '../../p1812/complementaryNormalDeviate.js';
import { decibels } from '../../p1812/decibels.js';
import {
  ductAngleMrad,
  ductCouplingConstantDb,
  ductLossPerMradDb,
  ductTimeLossDb,
  geometryFactor,
  leastDuctTimeLossDb,
  roughnessFactor,
  seaCouplingDb,
  siteShieldingDb,
} from '../../p1812/ductingLoss.js';
import { angularDistanceMrad } from '../../p1812/horizons.js';
import { focusingPerDecadeDb, slantSpreadingDb, unitFreeSpaceLossDb } from '../../p1812/lineOfSightLoss.js';
import { troposcatterConstantDb, troposcatterPathDb } from '../../p1812/troposcatterLoss.js';

/** Settings of the method that hold for a whole raster. */
export interface LossSweepSettings {
  readonly frequencyHz: number;
  readonly medianEarthRadiusM: number;
  readonly surfaceRefractivity: number;
  readonly timePercent: number;
  /** What the locations add on land and at sea. */
  readonly landLocationDb: number;
  readonly seaLocationDb: number;
  /** Longest path of the raster. */
  readonly radiusM: number;
}

/** Gives what only ducts ask of the path at hand, as it costs more to find. */
export interface DuctSource {
  /** Sets the distances of the horizons of a path in sight. */
  placeHorizons(): void;
  /** Roughness in metres; anything up to 10 m means the same. */
  roughnessM(): number;
}

/** Below this gap, in dB, the weaker of two ways still counts: beyond it adds less than 1e-11 dB. */
const lastingGapDb = 60;
/** How finely lengths are told apart where only a bound is wanted. */
const lengthClasses = 64;
/** Weights below this change a loss by less than 1e-13 dB. */
const lostWeight = 1e-16;

/**
 * The closed forms of the method for one receiver after the other. Filled in field by field and then asked: nothing is allocated. What the
 * path cannot change is computed once, and what cannot change the loss is not computed.
 */
export class LossSweep {
  distanceKm = 0;
  transmitterM = 0;
  receiverM = 0;
  centreLatitudeDeg = 0;
  atSea = false;
  seaShare = 0;
  longestLandKm = 0;
  longestInlandKm = 0;
  transmitterCoastKm: number = Number.POSITIVE_INFINITY;
  receiverCoastKm: number = Number.POSITIVE_INFINITY;
  /** Whether the horizons make up the whole path; then their distances need not be known before they are asked for. */
  inSight = false;
  transmitterHorizonKm = 0;
  receiverHorizonKm = 0;
  transmitterHorizonMrad = 0;
  receiverHorizonMrad = 0;
  ductTransmitterM = 0;
  ductReceiverM = 0;

  private readonly frequencyGHz: number;
  private readonly earthRadiusKm: number;
  private readonly timePercent: number;
  private readonly logTime: number;
  private readonly timeDeviate: number;
  private readonly freeSpaceDb: number;
  private readonly troposcatterDb: number;
  private readonly couplingDb: number;
  private readonly perMradDb: number;
  private readonly landLocationDb: number;
  private readonly seaLocationDb: number;
  private readonly radiusKm: number;
  private anyDuctTimeDb = 0;
  private readonly inlandDuctTimeDb: Float64Array = new Float64Array(lengthClasses);
  private gatewayLatitudeDeg = Number.NaN;
  private influence = 0;
  private anomalousPercent = 0;
  private timeWeight = 0;
  private logAnomalous = 0;
  private knownLatitudeDeg = Number.NaN;
  private knownLandKm = 0;
  private knownInlandKm = 0;

  constructor(settings: LossSweepSettings) {
    const { frequencyHz, medianEarthRadiusM, timePercent, surfaceRefractivity } = settings;
    this.frequencyGHz = frequencyHz / 1e9;
    this.earthRadiusKm = medianEarthRadiusM / 1000;
    this.timePercent = timePercent;
    this.logTime = Math.log10(timePercent / 50);
    this.timeDeviate = complementaryNormalDeviate(timePercent / 100);
    this.freeSpaceDb = unitFreeSpaceLossDb(this.frequencyGHz);
    this.troposcatterDb = troposcatterConstantDb(this.frequencyGHz, surfaceRefractivity, timePercent);
    this.couplingDb = ductCouplingConstantDb(this.frequencyGHz);
    this.perMradDb = ductLossPerMradDb(this.frequencyGHz, this.earthRadiusKm);
    this.landLocationDb = settings.landLocationDb;
    this.seaLocationDb = settings.seaLocationDb;
    this.radiusKm = settings.radiusM / 1000;
  }

  /** Begins a radial. */
  start(transmitterM: number, gatewayLatitudeDeg: number): void {
    this.transmitterM = transmitterM;
    if (gatewayLatitudeDeg !== this.gatewayLatitudeDeg) this.boundDuctTimes(gatewayLatitudeDeg);
    this.gatewayLatitudeDeg = gatewayLatitudeDeg;
    this.knownLatitudeDeg = Number.NaN;
  }

  /** Bounds the loss by the time of ducts: for any path, and by length for paths that are inland all along. */
  private boundDuctTimes(gatewayLatitudeDeg: number): void {
    const { timePercent, radiusKm, inlandDuctTimeDb } = this;
    // Anomalous time falls towards the poles, and the centre of no path is nearer to the equator than this. Past 70° it is 0.0002 higher.
    const nearestDeg = Math.max(0, Math.abs(gatewayLatitudeDeg) - radiusKm / 200 - 0.1);
    const polarDeg = Math.max(nearestDeg, 80);
    const greatest = Math.max(
      greatestAnomalousTimePercent(nearestDeg),
      greatestAnomalousTimePercent(polarDeg),
    );
    this.anyDuctTimeDb = leastDuctTimeLossDb(timePercent, greatest, radiusKm);
    for (let part = 0; part < lengthClasses; part += 1) {
      // It falls with the length, too: the shortest path of a class has the most.
      const fromKm = (part / lengthClasses) * radiusKm;
      const toKm = ((part + 1) / lengthClasses) * radiusKm;
      const influence = inlandInfluence(fromKm);
      const percent = Math.max(
        anomalousTimePercent(nearestDeg, fromKm, influence),
        anomalousTimePercent(polarDeg, fromKm, influence),
      );
      inlandDuctTimeDb[part] = leastDuctTimeLossDb(timePercent, percent, toKm);
    }
  }

  private leastDuctTimeDb(): number {
    const { distanceKm, radiusKm } = this;
    if (this.longestInlandKm < distanceKm || distanceKm >= radiusKm) return this.anyDuctTimeDb;
    return this.inlandDuctTimeDb[Math.floor((distanceKm / radiusKm) * lengthClasses)] as number;
  }

  /** Free space over the slant path. */
  freeSpaceLossDb(): number {
    return this.freeSpaceDb + slantSpreadingDb(this.distanceKm, this.transmitterM - this.receiverM);
  }

  /** Of a path without a point between its ends: there is nothing to diffract at, no horizon, and so no more than free space. */
  openLossDb(): number {
    return this.freeSpaceLossDb() + Math.max(0, this.locationDb());
  }

  /** Weight of anomalous diffraction for the time: 0 for the median. */
  diffractionWeight(): number {
    if (this.timePercent === 50) return 0;
    this.findAnomalousTime(true);
    return this.timeWeight;
  }

  /** Basic transmission loss, once diffraction is known. The source is asked only where ducts can matter. */
  lossDb(medianDiffractionDb: number, diffractionDb: number, source: DuctSource): number {
    const freeSpaceDb = this.freeSpaceLossDb();
    const horizonsKm = this.inSight ? this.distanceKm : this.transmitterHorizonKm + this.receiverHorizonKm;
    const perDecadeDb = focusingPerDecadeDb(horizonsKm);
    const lineOfSightDb = freeSpaceDb + perDecadeDb * this.logTime;
    const angleMrad = angularDistanceMrad(
      this.distanceKm,
      this.earthRadiusKm,
      this.transmitterHorizonMrad,
      this.receiverHorizonMrad,
    );
    const weight = angleFactor(angleMrad);
    let lossDb = 0;
    // Equation (62): either side is left out where the other has all the weight.
    if (weight < 1) {
      lossDb = (1 - weight) * this.ductedDb(lineOfSightDb + diffractionDb, lineOfSightDb, horizonsKm, source);
    }
    if (weight > lostWeight) {
      // At half of the time this counts by 1e-9 of a few dB: its own time need not be exact.
      this.findAnomalousTime(this.timePercent !== 50);
      const leastDb = leastLineOfSightLossDb(
        this.timePercent,
        this.anomalousPercent,
        this.timeWeight,
        1 - this.seaShare,
        lineOfSightDb,
        freeSpaceDb + perDecadeDb * this.logAnomalous,
        diffractionDb,
        freeSpaceDb + medianDiffractionDb,
      );
      lossDb += weight * leastDb;
    }
    const troposcatterDb = this.troposcatterDb + troposcatterPathDb(this.distanceKm, angleMrad);
    if (troposcatterDb - lossDb < lastingGapDb) lossDb = withTroposcatterDb(lossDb, troposcatterDb);
    return Math.max(lineOfSightDb, lossDb + this.locationDb());
  }

  private locationDb(): number {
    return this.atSea ? this.seaLocationDb : this.landLocationDb;
  }

  /** Equation (61). The diffraction path stands where ducts, at their least loss, are no better. */
  private ductedDb(
    diffractionPathDb: number,
    lineOfSightDb: number,
    horizonsKm: number,
    source: DuctSource,
  ): number {
    const angleMrad = this.inSight
      ? this.ductAngleMrad(0, 0)
      : this.ductAngleMrad(this.transmitterHorizonKm, this.receiverHorizonKm);
    const spreadingDb = this.couplingDb + decibels(horizonsKm * horizonsKm);
    // A bound: a nearer horizon never makes the angle more, and the sea gains at most 6 dB at either end. Then with shielding.
    const leastDb =
      spreadingDb + this.perMradDb * angleMrad + this.leastDuctTimeDb() - (this.seaShare < 0.75 ? 0 : 12);
    if (leastDb > diffractionPathDb) return diffractionPathDb;
    if (this.inSight) source.placeHorizons();
    const shieldingDb = this.shieldingDb();
    if (leastDb + shieldingDb > diffractionPathDb) return diffractionPathDb;
    const ductingDb = spreadingDb + shieldingDb + this.seaDb() + this.ductPathDb(horizonsKm, source);
    return ductedDiffractionLossDb(
      diffractionPathDb,
      leastDuctingLossDb(ductingDb, lineOfSightDb),
      distanceFactor(this.distanceKm),
    );
  }

  private ductPathDb(horizonsKm: number, source: DuctSource): number {
    const angleMrad = this.ductAngleMrad(this.transmitterHorizonKm, this.receiverHorizonKm);
    return this.perMradDb * angleMrad + this.ductTimeDb(horizonsKm, source);
  }

  private ductAngleMrad(transmitterHorizonKm: number, receiverHorizonKm: number): number {
    return ductAngleMrad(
      this.distanceKm,
      this.earthRadiusKm,
      this.transmitterHorizonMrad,
      this.receiverHorizonMrad,
      transmitterHorizonKm,
      receiverHorizonKm,
    );
  }

  private shieldingDb(): number {
    return (
      siteShieldingDb(this.frequencyGHz, this.transmitterHorizonMrad, this.transmitterHorizonKm) +
      siteShieldingDb(this.frequencyGHz, this.receiverHorizonMrad, this.receiverHorizonKm)
    );
  }

  private seaDb(): number {
    return (
      seaCouplingDb(this.seaShare, this.transmitterCoastKm, this.transmitterHorizonKm, this.transmitterM) +
      seaCouplingDb(this.seaShare, this.receiverCoastKm, this.receiverHorizonKm, this.receiverM)
    );
  }

  private ductTimeDb(horizonsKm: number, source: DuctSource): number {
    this.findAnomalousTime(true);
    const byGeometry = geometryFactor(
      this.distanceKm,
      this.earthRadiusKm,
      this.ductTransmitterM,
      this.ductReceiverM,
      this.influence,
    );
    const byRoughness = roughnessFactor(source.roughnessM(), this.distanceKm - horizonsKm);
    return ductTimeLossDb(
      this.timePercent,
      this.anomalousPercent * byGeometry * byRoughness,
      this.distanceKm,
    );
  }

  /** Finds β0 of this path and what hangs on it; if it need not be exact, those of a path of nearly the same zones stay. */
  private findAnomalousTime(exact: boolean): void {
    const { longestLandKm, longestInlandKm, centreLatitudeDeg } = this;
    // Where it comes near to half of the time, as over tropical seas, its deviate is about 0 and divides: then it must be exact, too.
    const near = exact || this.anomalousPercent > 20 ? 0 : 0.1;
    if (
      Math.abs(longestLandKm - this.knownLandKm) <= near * longestLandKm &&
      Math.abs(longestInlandKm - this.knownInlandKm) <= near * longestInlandKm &&
      Math.abs(centreLatitudeDeg - this.knownLatitudeDeg) <= near
    ) {
      return;
    }
    this.influence = inlandInfluence(longestInlandKm);
    this.anomalousPercent = anomalousTimePercent(centreLatitudeDeg, longestLandKm, this.influence);
    this.timeWeight = timeFactor(this.timePercent, this.anomalousPercent, this.timeDeviate);
    this.logAnomalous = Math.log10(this.anomalousPercent / 50);
    this.knownLandKm = longestLandKm;
    this.knownInlandKm = longestInlandKm;
    this.knownLatitudeDeg = centreLatitudeDeg;
  }
}
