export { InputError, isInputError } from '@finial/units';
export { basicTransmissionLoss } from './basicTransmissionLoss.js';
export { type ClimatePlace, climateOf, climatePlaces, type RefractivityClimate } from './climateOf.js';
export { fieldStrengthDbuvPerM, type ReceivedField } from './fieldStrengthDbuvPerM.js';
export { model } from './model.js';
export type { Prediction } from './Prediction.js';
export type { IndoorReceiver, PredictionSettings } from './settings.js';
