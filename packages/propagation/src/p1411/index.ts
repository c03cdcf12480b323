export { InputError, isInputError } from '@finial/units';
export type { OutsideValidity } from '../models/validity.js';
export {
  type ShortPath,
  type ShortPathSituation,
  type SiteGeneralLoss,
  siteGeneralLoss,
} from './siteGeneralLoss.js';
export { type StreetLevelLoss, type StreetPath, streetLevelLoss } from './streetLevelLoss.js';
