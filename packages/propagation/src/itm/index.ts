export { type AreaSettings, area } from './area.js';
export type { ItmLoss, PropagationMode } from './ItmLoss.js';
export type { Climate, Ground, ItmSettings, VariabilityMode } from './ItmSettings.js';
export { model } from './model.js';
export { pointToPoint } from './pointToPoint.js';
export type { Siting } from './terminals.js';
