export { type FreeSpace, freeSpace, model } from './freeSpace.js';
