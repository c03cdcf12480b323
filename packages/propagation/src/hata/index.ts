export { InputError, isInputError } from '@finial/units';
export type { OutsideValidity } from '../models/validity.js';
export { type Cost231HataPath, cost231Hata } from './cost231Hata.js';
export type { HataLoss, HataPath } from './HataPath.js';
export { type HataSettings, model } from './model.js';
export { type HataSurroundings, type OkumuraHataPath, okumuraHata } from './okumuraHata.js';
