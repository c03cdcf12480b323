export { InputError, isInputError } from '@finial/units';
export type { OutsideValidity } from '../models/validity.js';
export {
  type BuildingClass,
  type BuildingEntry,
  type BuildingEntryLoss,
  type BuildingEntryQuestion,
  buildingEntryLoss,
  buildingEntryLossDb,
} from './buildingEntryLoss.js';
