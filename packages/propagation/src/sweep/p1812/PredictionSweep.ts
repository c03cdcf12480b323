import { earthRadiusM } from '@finial/radio';
import { medianEarthRadiusM } from '../../p1812/anomalousTime.js';
import { anomalousEarthRadiusFactor, diffractionConstants } from '../../p1812/constants.js';
import { locationLossDb } from '../../p1812/locationVariability.js';
import type { LinearPolarisation } from '../../path/RadioPath.js';
import { BlockMaxima } from '../blockMaxima.js';
import { DiffractionSweep } from '../p526/DiffractionSweep.js';
import { SmoothSurfaceSweep } from '../p526/SmoothSurfaceSweep.js';
import type { RadialGround, RadialModel } from '../radial/RadialGround.js';
import type { SweptPrediction } from '../SweepJob.js';
import { greatestRoughnessM } from './greatestRoughnessM.js';
import { HorizonSweep } from './HorizonSweep.js';
import { type DuctSource, LossSweep } from './LossSweep.js';
import { seaZone } from './ZoneSweep.js';
import { ZonesAlong } from './ZonesAlong.js';

/** What a sweep by this method holds fixed. */
export interface PredictionSweepSettings {
  readonly model: SweptPrediction;
  readonly frequencyHz: number;
  readonly polarisation: LinearPolarisation;
  /** Antennas above their ground. */
  readonly transmitterHeightM: number;
  readonly receiverHeightM: number;
  /** Longest path. */
  readonly radiusM: number;
  /** Most points and receivers of a radial. */
  readonly pointCapacity: number;
  readonly receiverCapacity: number;
}

/**
 * Recommendation ITU-R P.1812 for every receiver of a radial, equal to the point-to-point method on each receiver's own profile.
 *
 * What the method asks of a profile is kept up while its points arrive; the closed forms are those of the point-to-point method. That one
 * refuses fewer than five points; here paths of three and four points take the same formulas, and a path without a point between its
 * ends has free space alone. The middle of each path has its own latitude; the climate is one for all.
 */
export class PredictionSweep implements RadialModel, DuctSource {
  private readonly zones: ZonesAlong;
  private readonly smooth: SmoothSurfaceSweep;
  private readonly horizons: HorizonSweep;
  private readonly median: DiffractionSweep;
  private readonly anomalous: DiffractionSweep | undefined;
  private readonly ground: BlockMaxima;
  private readonly losses: LossSweep;
  private readonly medianDb: Float64Array;
  private readonly anomalousDb: Float64Array;
  private ductTransmitterGroundM = 0;
  private ductReceiverGroundM = 0;
  private lengthM = 0;
  private stepM = 1;

  constructor(private readonly settings: PredictionSweepSettings) {
    const { model, pointCapacity, receiverCapacity, radiusM, frequencyHz } = settings;
    const { timePercent = 50, locationPercent = 50, locationSigmaDb = 0 } = model;
    const radius = medianEarthRadiusM(earthRadiusM, model.deltaN);
    this.zones = new ZonesAlong(receiverCapacity);
    this.smooth = new SmoothSurfaceSweep(pointCapacity, receiverCapacity);
    this.horizons = new HorizonSweep(pointCapacity, radius);
    this.median = this.diffraction(radius);
    // At half of the time anomalous conditions have no weight: their diffraction is not even computed.
    this.anomalous =
      timePercent === 50 ? undefined : this.diffraction(anomalousEarthRadiusFactor * earthRadiusM);
    this.ground = new BlockMaxima(pointCapacity);
    this.medianDb = new Float64Array(receiverCapacity);
    this.anomalousDb = new Float64Array(receiverCapacity);
    this.losses = new LossSweep({
      frequencyHz,
      medianEarthRadiusM: radius,
      surfaceRefractivity: model.surfaceRefractivity,
      timePercent,
      landLocationDb: locationSigmaDb === 0 ? 0 : locationLossDb(locationPercent, locationSigmaDb),
      seaLocationDb: 0,
      radiusM,
    });
  }

  private diffraction(effectiveEarthRadiusM: number): DiffractionSweep {
    return new DiffractionSweep({
      ...this.settings,
      effectiveEarthRadiusM,
      constants: diffractionConstants,
    });
  }

  lossesAlong(ground: RadialGround): void {
    const { settings, zones, smooth, medianDb, anomalousDb } = this;
    const { receiverHeightM } = settings;
    const transmitterM = (ground.heightM[0] as number) + settings.transmitterHeightM;
    zones.findAlong(ground);
    smooth.heightsAlong(ground, transmitterM, receiverHeightM);
    this.median.lossesAlong(ground, transmitterM, receiverHeightM, smooth, zones.seaShare, medianDb);
    this.anomalous?.lossesAlong(ground, transmitterM, receiverHeightM, smooth, zones.seaShare, anomalousDb);
    this.start(ground, transmitterM);
    let next = 1;
    for (let receiver = 0; receiver < ground.receiverCount; receiver += 1) {
      const lengthM = ground.receiverDistanceM[receiver] as number;
      for (; next < ground.pointCount && (ground.distanceM[next] as number) < lengthM; next += 1) {
        this.horizons.push(next);
        this.ground.push(next, ground.heightM[next] as number);
      }
      ground.lossDb[receiver] = this.lossOf(receiver, ground, next > 1);
    }
  }

  /** Horizons of the path at hand, in sight: see {@link DuctSource}. */
  placeHorizons(): void {
    this.horizons.findDominant(this.lengthM, this.losses.receiverM);
    this.setHorizonDistances();
  }

  /** Roughness of the path at hand: see {@link DuctSource}. */
  roughnessM(): number {
    const { horizons, ductTransmitterGroundM, ductReceiverGroundM } = this;
    return greatestRoughnessM(
      this.ground,
      this.stepM,
      ductTransmitterGroundM,
      (ductReceiverGroundM - ductTransmitterGroundM) / this.lengthM,
      horizons.transmitterIndex,
      horizons.receiverIndex,
      10,
    );
  }

  private start(ground: RadialGround, transmitterM: number): void {
    this.stepM = ground.stepM;
    this.horizons.start(transmitterM, ground);
    this.ground.push(0, ground.heightM[0] as number);
    this.losses.start(transmitterM, ground.latitudeDeg[0] as number);
  }

  private lossOf(receiver: number, ground: RadialGround, obstructible: boolean): number {
    const { losses, zones } = this;
    const groundM = ground.receiverHeightM[receiver] as number;
    const lengthM = ground.receiverDistanceM[receiver] as number;
    losses.distanceKm = lengthM / 1000;
    losses.receiverM = groundM + this.settings.receiverHeightM;
    losses.atSea = ground.receiverIsSea[receiver] === seaZone;
    if (!obstructible) return losses.openLossDb();
    losses.centreLatitudeDeg = centreLatitudeDeg(ground, lengthM);
    losses.seaShare = zones.seaShare[receiver] as number;
    losses.longestLandKm = (zones.longestLandM[receiver] as number) / 1000;
    losses.longestInlandKm = (zones.longestInlandM[receiver] as number) / 1000;
    losses.transmitterCoastKm = (zones.transmitterCoastM[receiver] as number) / 1000;
    losses.receiverCoastKm = (zones.receiverCoastM[receiver] as number) / 1000;
    this.setHorizons(lengthM);
    this.setDuctHeights(receiver, ground.heightM[0] as number, groundM);
    const medianDb = this.medianDb[receiver] as number;
    const anomalousDb = this.anomalous === undefined ? medianDb : (this.anomalousDb[receiver] as number);
    const diffractionDb = medianDb + losses.diffractionWeight() * (anomalousDb - medianDb);
    return losses.lossDb(medianDb, diffractionDb, this);
  }

  private setHorizons(lengthM: number): void {
    const { horizons, losses } = this;
    this.lengthM = lengthM;
    horizons.find(lengthM, losses.receiverM);
    losses.inSight = !horizons.transhorizon;
    losses.transmitterHorizonMrad = horizons.transmitterMrad;
    losses.receiverHorizonMrad = horizons.receiverMrad;
    if (horizons.transhorizon) this.setHorizonDistances();
  }

  private setHorizonDistances(): void {
    const { horizons, losses, lengthM } = this;
    losses.transmitterHorizonKm = horizons.transmitterDistanceM() / 1000;
    losses.receiverHorizonKm = (lengthM - horizons.receiverDistanceM()) / 1000;
  }

  private setDuctHeights(receiver: number, transmitterGroundM: number, receiverGroundM: number): void {
    const { smooth, losses } = this;
    this.ductTransmitterGroundM = Math.min(smooth.fittedTransmitterM[receiver] as number, transmitterGroundM);
    this.ductReceiverGroundM = Math.min(smooth.fittedReceiverM[receiver] as number, receiverGroundM);
    losses.ductTransmitterM = losses.transmitterM - this.ductTransmitterGroundM;
    losses.ductReceiverM = losses.receiverM - this.ductReceiverGroundM;
  }
}

/** Latitude of the middle of a path, between the two points next to it. */
function centreLatitudeDeg({ latitudeDeg, stepM, pointCount }: RadialGround, lengthM: number): number {
  const place = lengthM / 2 / stepM;
  const index = Math.min(Math.floor(place), pointCount - 2);
  const near = latitudeDeg[index] as number;
  return near + (place - index) * ((latitudeDeg[index + 1] as number) - near);
}
