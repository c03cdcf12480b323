export { InputError, isInputError } from '@finial/units';
export type { OutsideValidity } from '../models/validity.js';
export { type SlantClutterLoss, type SlantPath, slantClutterLoss } from './slantClutterLoss.js';
export {
  type ClutteredTerminal,
  type TerminalClutterLoss,
  type TerminalSurroundings,
  terminalClutterLoss,
} from './terminalClutterLoss.js';
export {
  type TerrestrialClutterLoss,
  type TownPath,
  terrestrialClutterLoss,
} from './terrestrialClutterLoss.js';
