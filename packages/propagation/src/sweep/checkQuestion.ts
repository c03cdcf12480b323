import { clutterProfile, type Elevation, type GeoPosition, heightAtM } from '@finial/terrain';
import { checkFinite, checkObject, checkOneOf, checkRange, InputError, isInputError } from '@finial/units';
import { checkModel, type SweepSettings } from './checkModel.js';
import type { SweepQuestion } from './SweepJob.js';
import type { SweptGround } from './SweptGround.js';

/** A question with every number known to be good, and what a reader of its answer should know. */
export interface CheckedQuestion {
  readonly question: SweepQuestion;
  readonly warnings: readonly string[];
}

/** Most cells from the gateway to the rim. */
const mostCells = 3000;

const antenna = { min: 0.1, max: 3000, unit: 'metres above the ground' };

/** Checks a question, model included, and copies what belongs to it: plain data that can be sent and stored. */
export function checkQuestion(question: SweepQuestion): CheckedQuestion {
  const settings = checkSettings(question);
  const { model, warnings } = checkModel(question.model, settings);
  return { question: { ...settings, model }, warnings };
}

/** Checks everything but the model and the frequency, whose range is the model's matter. */
export function checkSettings(question: SweepSettings): SweepSettings {
  const { gateway, polarisation, radiusM, cellM, clutterHeightM, radialFactor, seaLevelM } = checkObject(
    question,
    'question',
  );
  checkObject(gateway, 'gateway');
  checkRange(cellM, 'cellM', { min: 1, max: 10_000, unit: 'metres' });
  return {
    gateway: {
      position: checkPosition(gateway.position),
      antennaHeightM: checkRange(gateway.antennaHeightM, 'gateway.antennaHeightM', antenna),
    },
    frequencyHz: question.frequencyHz,
    ...given('polarisation', polarisation, (value, name) =>
      checkOneOf(value, name, ['horizontal', 'vertical']),
    ),
    radiusM: checkRange(radiusM, 'radiusM', { min: cellM, max: mostCells * cellM, unit: 'metres' }),
    cellM,
    receiverHeightM: checkRange(question.receiverHeightM, 'receiverHeightM', antenna),
    ...given('clutterHeightM', clutterHeightM, (value, name) =>
      checkRange(value, name, { min: 0, max: 200, unit: 'metres' }),
    ),
    ...given('radialFactor', radialFactor, (value, name) => checkOneOf(value, name, [1, 2])),
    ...given('seaLevelM', seaLevelM, (value, name) => checkFinite(value, name, 'metres')),
  };
}

/** Refuses ground on which the gateway does not stand. */
export function checkGround(ground: SweptGround, position: GeoPosition): void {
  groundUnder(ground.elevation, position);
  if (ground.landCover === undefined) return;
  const { latitudeDeg, longitudeDeg } = position;
  clutterProfile(checkObject(ground.landCover, 'landCover'), {
    latitudesDeg: [latitudeDeg],
    longitudesDeg: [longitudeDeg],
  });
}

function groundUnder(elevation: Elevation, position: GeoPosition): void {
  try {
    heightAtM(elevation, position);
  } catch (error) {
    if (!isInputError(error) || error.argument !== 'position') throw error;
    throw new InputError({ ...error, argument: 'gateway.position' }, { cause: error });
  }
}

function checkPosition(position: GeoPosition): GeoPosition {
  const name = 'gateway.position';
  const { latitudeDeg, longitudeDeg } = checkObject(position, name);
  return {
    latitudeDeg: checkRange(latitudeDeg, `${name}.latitudeDeg`, { min: -90, max: 90, unit: 'degrees' }),
    longitudeDeg: checkRange(longitudeDeg, `${name}.longitudeDeg`, { min: -180, max: 180, unit: 'degrees' }),
  };
}

/** A checked field if it was given; none at all otherwise, as JSON would have it. */
function given<Name extends string, Value>(
  name: Name,
  value: Value | undefined,
  check: (value: Value, name: Name) => Value,
): { readonly [Key in Name]?: Value } {
  return value === undefined ? {} : ({ [name]: check(value, name) } as { [Key in Name]: Value });
}
