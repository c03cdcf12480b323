import { checkObject, checkOneOf, checkRange, InputError } from '@finial/units';
import { type ModelRange, type OutsideValidity, validityCheck } from '../models/validity.js';
import type { BuildingClass } from '../p2109/buildingEntryLoss.js';

/** A building that the receiver stands in. */
export interface IndoorReceiver {
  /** How well the building holds warmth, which decides what it lets through. */
  readonly buildingClass: BuildingClass;
  /**
   * Elevation of the path at the building's face in degrees above the horizon, -90 to 90.
   *
   * @defaultValue 0
   */
  readonly elevationDeg?: number | undefined;
}

/** Everything that the prediction needs besides the path itself. */
export interface PredictionSettings {
  /**
   * Share of the average year in percent for which the loss is not exceeded, 1 to 50. Small values bring the rare strong
   * signals that interfere from afar.
   *
   * @defaultValue 50
   */
  readonly timePercent?: number | undefined;
  /**
   * Share of the places around the receiver in percent at which the loss is not exceeded, 1 to 99.
   *
   * @defaultValue 50
   */
  readonly locationPercent?: number | undefined;
  /** Latitude of the middle of the path in degrees north of the equator, -80 to 80. */
  readonly centreLatitudeDeg: number;
  /** Fall of refractivity over the lowest kilometre at the middle of the path in N-units, above 0: 1 to 120. */
  readonly deltaN: number;
  /** Refractivity at sea level at the middle of the path (N0) in N-units, 200 to 500. */
  readonly surfaceRefractivity: number;
  /** Standard deviation of the level from place to place in dB, 0 to 40; broadcast planning takes 5.5. Give this or `resolutionM`. */
  readonly locationSigmaDb?: number | undefined;
  /** Side of the square that one prediction stands for in metres, 1 to 100000, from which the standard deviation follows. */
  readonly resolutionM?: number | undefined;
  /**
   * Distance over land from the transmitter to the coast along the path in metres, 0 at sea. It counts within 5 km, and where three
   * quarters of the path are sea.
   *
   * @defaultValue from the zones of the path: to the middle of the gap before its first point at sea
   */
  readonly transmitterCoastDistanceM?: number | undefined;
  /**
   * The same from the receiver.
   *
   * @defaultValue from the zones of the path
   */
  readonly receiverCoastDistanceM?: number | undefined;
  /**
   * The building that the receiver stands in.
   *
   * @defaultValue none: outdoors
   */
  readonly building?: IndoorReceiver | undefined;
  /**
   * What to do with a number outside the range of the model.
   *
   * @defaultValue `refuse`
   */
  readonly outsideValidity?: OutsideValidity | undefined;
}

/** {@link PredictionSettings} with every number known to be good. */
export interface CheckedSettings {
  readonly timePercent: number;
  readonly locationPercent: number;
  readonly centreLatitudeDeg: number;
  readonly deltaN: number;
  readonly surfaceRefractivity: number;
  readonly locationSigmaDb: number | undefined;
  readonly resolutionM: number | undefined;
  readonly transmitterCoastDistanceM: number | undefined;
  readonly receiverCoastDistanceM: number | undefined;
  readonly building: IndoorReceiver | undefined;
  readonly outsideValidity: OutsideValidity;
  readonly warnings: readonly string[];
}

// Beyond these the formulas themselves end: more than half of the time has no troposcatter term, and the normal deviate is
// approximated down to one in a million.
const time: ModelRange = { possible: { min: 1e-3, max: 50, unit: 'percent' }, min: 1, max: 50 };
const locations: ModelRange = { possible: { min: 1e-4, max: 99.9999, unit: 'percent' }, min: 1, max: 99 };
const latitude: ModelRange = { possible: { min: -90, max: 90, unit: 'degrees' }, min: -80, max: 80 };
const coast = { min: 0, max: 2e7, unit: 'metres' };

/** Checks the settings, which must name the climate: no place on Earth has the average one. */
export function checkSettings(settings: PredictionSettings): CheckedSettings {
  checkObject(settings, 'settings');
  const { timePercent = 50, locationPercent = 50 } = settings;
  const { within, warnings } = validityCheck(settings.outsideValidity);
  const coastOf = (value: unknown, argument: string): number | undefined =>
    value === undefined ? undefined : checkRange(value, argument, coast);
  return {
    timePercent: within(timePercent, 'timePercent', time),
    locationPercent: within(locationPercent, 'locationPercent', locations),
    centreLatitudeDeg: within(settings.centreLatitudeDeg, 'centreLatitudeDeg', latitude),
    deltaN: checkRange(settings.deltaN, 'deltaN', { min: 1, max: 120, unit: 'N-units' }),
    surfaceRefractivity: checkRange(settings.surfaceRefractivity, 'surfaceRefractivity', {
      min: 200,
      max: 500,
      unit: 'N-units',
    }),
    ...checkSpread(settings),
    transmitterCoastDistanceM: coastOf(settings.transmitterCoastDistanceM, 'transmitterCoastDistanceM'),
    receiverCoastDistanceM: coastOf(settings.receiverCoastDistanceM, 'receiverCoastDistanceM'),
    building: settings.building === undefined ? undefined : checkBuilding(settings.building),
    outsideValidity: settings.outsideValidity ?? 'refuse',
    warnings,
  };
}

function checkSpread({
  locationSigmaDb,
  resolutionM,
  locationPercent = 50,
}: PredictionSettings): Pick<CheckedSettings, 'locationSigmaDb' | 'resolutionM'> {
  if (locationSigmaDb !== undefined && resolutionM !== undefined) {
    throw new InputError({
      code: 'unknown-option',
      argument: 'resolutionM',
      received: resolutionM,
      expected: 'either locationSigmaDb or resolutionM, not both',
    });
  }
  if (locationSigmaDb === undefined && resolutionM === undefined && locationPercent !== 50) {
    throw new InputError({
      code: 'missing',
      argument: 'locationSigmaDb',
      received: undefined,
      expected: 'locationSigmaDb or resolutionM, since locationPercent is not 50',
    });
  }
  return {
    locationSigmaDb:
      locationSigmaDb === undefined
        ? undefined
        : checkRange(locationSigmaDb, 'locationSigmaDb', { min: 0, max: 40, unit: 'dB' }),
    resolutionM:
      resolutionM === undefined
        ? undefined
        : checkRange(resolutionM, 'resolutionM', { min: 1, max: 1e5, unit: 'metres' }),
  };
}

function checkBuilding(building: IndoorReceiver): IndoorReceiver {
  checkObject(building, 'building');
  const { elevationDeg = 0 } = building;
  return {
    buildingClass: checkOneOf(building.buildingClass, 'building.buildingClass', [
      'traditional',
      'thermally-efficient',
    ]),
    elevationDeg: checkRange(elevationDeg, 'building.elevationDeg', {
      min: -90,
      max: 90,
      unit: 'degrees',
    }),
  };
}
