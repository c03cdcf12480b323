export { InputError, isInputError } from '@finial/units';
export type { OutsideValidity } from '../models/validity.js';
export { type WoodlandLoss, type WoodlandPath, woodlandLoss } from './woodlandLoss.js';
