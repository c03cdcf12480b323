export { type TwoRay, type TwoRayPath, twoRayLoss } from './twoRayLoss.js';
