export { InputError, isInputError } from '@finial/units';
export { type ContourLevel, type ContourQuestion, coverageContours } from './coverageContours.js';
export { coverageGeotiff, type GeotiffQuestion } from './coverageGeotiff.js';
