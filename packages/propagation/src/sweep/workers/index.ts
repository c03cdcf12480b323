export { InputError, isInputError } from '@finial/units';
export { answerSweeps } from './answerSweeps.js';
