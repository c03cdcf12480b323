export { InputError, isInputError } from '@finial/units';
export type { LinearPolarisation, NumberSeries, PathLoss, PathModel, RadioPath, RadioZone } from './path/RadioPath.js';
