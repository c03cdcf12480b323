export { EU868 } from './regions/eu868.js';
export { US915 } from './regions/us915.js';
