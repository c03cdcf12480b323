import {
  checkObject,
  checkOneOf,
  checkRange,
  InputError,
  isInputError,
  type RangeBounds,
} from '@finial/units';
import { model as hataModel } from '../hata/model.js';
import { antennaHeightM, frequencyHz } from '../models/possible.js';
import { type ValidityCheck, validityCheck } from '../models/validity.js';
import { diffractionLimits } from '../p526/diffractionLimits.js';
import { checkSettings as checkPredictionSettings } from '../p1812/settings.js';
import type { SweepQuestion, SweptHata, SweptModel, SweptPrediction } from './SweepJob.js';

/** Everything that is asked but the model. */
export type SweepSettings = Omit<SweepQuestion, 'model'>;

/** A model with its settings known to be good, and what of the raster lies outside its range. */
export interface CheckedModel {
  readonly model: SweptModel;
  readonly warnings: readonly string[];
}

/** Checks a model together with what it is asked for; the frequency is checked here, since each model has its own range. */
export function checkModel(model: SweptModel, settings: SweepSettings): CheckedModel {
  checkObject(model, 'model');
  switch (checkOneOf(model.kind, 'model.kind', ['p525', 'p526', 'p1812', 'hata'])) {
    case 'p525':
      checkFrequency(settings, frequencyHz);
      return { model: { kind: 'p525' }, warnings: [] };
    case 'p526': {
      checkFrequency(settings, diffractionLimits.frequencyHz);
      const { deltaN } = model as { readonly deltaN: number };
      const bounds = {
        min: -200,
        max: 150,
        unit: 'N-units per kilometre (positive when falling with height)',
      };
      return { model: { kind: 'p526', deltaN: checkRange(deltaN, 'model.deltaN', bounds) }, warnings: [] };
    }
    case 'p1812':
      return checkPrediction(model as SweptPrediction, settings);
    case 'hata':
      return checkHata(model as SweptHata, settings);
  }
}

function checkFrequency(settings: SweepSettings, bounds: RangeBounds): void {
  checkRange(settings.frequencyHz, 'frequencyHz', bounds);
}

function checkPrediction(model: SweptPrediction, settings: SweepSettings): CheckedModel {
  const { position } = settings.gateway;
  const { within } = validityCheck('refuse');
  const latitude = { possible: { min: -90, max: 90, unit: 'degrees' }, min: -80, max: 80 };
  within(position.latitudeDeg, 'gateway.position.latitudeDeg', latitude);
  within(settings.frequencyHz, 'frequencyHz', {
    possible: diffractionLimits.frequencyHz,
    min: 30e6,
    max: 6e9,
  });
  checkAntennas(settings, within, { min: 1, max: 3000 });
  const { deltaN, surfaceRefractivity, timePercent, locationPercent, locationSigmaDb } = model;
  const asked = { deltaN, surfaceRefractivity, timePercent, locationPercent, locationSigmaDb };
  asPartOfModel(() => checkPredictionSettings({ ...asked, centreLatitudeDeg: position.latitudeDeg }));
  return {
    model: { kind: 'p1812', ...(withoutAbsent(asked) as Omit<SweptPrediction, 'kind'>) },
    warnings: [
      'cells nearer than 250 m lie outside the range of P.1812; the nearest get free space with at most the focusing term',
    ],
  };
}

function checkHata(model: SweptHata, settings: SweepSettings): CheckedModel {
  asPartOfModel(() => hataModel(model));
  const { surroundings, outsideValidity } = model;
  const { within, warnings } = validityCheck(outsideValidity);
  within(settings.frequencyHz, 'frequencyHz', { possible: frequencyHz, min: 150e6, max: 1500e6 });
  const gatewayIsHigher = settings.gateway.antennaHeightM >= settings.receiverHeightM;
  const base = { possible: antennaHeightM, min: 30, max: 200 };
  const mobile = { possible: antennaHeightM, min: 1, max: 10 };
  within(settings.gateway.antennaHeightM, 'gateway.antennaHeightM', gatewayIsHigher ? base : mobile);
  within(settings.receiverHeightM, 'receiverHeightM', gatewayIsHigher ? mobile : base);
  const radiusPossible = { min: 1, max: 3e7, unit: 'metres' };
  within(settings.radiusM, 'radiusM', { possible: radiusPossible, min: 1, max: 20_000 });
  if (settings.cellM < 1000) {
    const nearCells = 'cells nearer than 1000 m lie outside the range of Okumura-Hata';
    if (outsideValidity !== 'allow') {
      throw new InputError({
        code: 'outside-validity',
        argument: 'model.outsideValidity',
        received: outsideValidity,
        expected: `'allow', since ${nearCells}`,
      });
    }
    warnings.push(nearCells);
  }
  return {
    model: { kind: 'hata', surroundings, ...withoutAbsent({ outsideValidity }) },
    warnings,
  };
}

function checkAntennas(
  { gateway, receiverHeightM }: SweepSettings,
  within: ValidityCheck['within'],
  range: { readonly min: number; readonly max: number },
): void {
  within(gateway.antennaHeightM, 'gateway.antennaHeightM', { possible: antennaHeightM, ...range });
  within(receiverHeightM, 'receiverHeightM', { possible: antennaHeightM, ...range });
}

/** Runs a check of the model's own settings, so that a refusal names them as the caller of a sweep wrote them. */
function asPartOfModel(check: () => unknown): void {
  try {
    check();
  } catch (error) {
    if (!isInputError(error)) throw error;
    throw new InputError({ ...error, argument: `model.${error.argument}` }, { cause: error });
  }
}

/** Leaves out what was not given: the answer repeats the question as JSON would. */
function withoutAbsent<Fields extends object>(fields: Fields): Partial<Fields> {
  return Object.fromEntries(
    Object.entries(fields).filter(([, value]) => value !== undefined),
  ) as Partial<Fields>;
}
