import type { PartEnd } from './parts.js';

// The halves of connector pairs that ready-made parts are sold with.

export const nPlug: PartEnd = { series: 'N', gender: 'plug' };
export const nJack: PartEnd = { series: 'N', gender: 'jack' };
export const smaPlug: PartEnd = { series: 'SMA', gender: 'plug' };
export const smaJack: PartEnd = { series: 'SMA', gender: 'jack' };
export const reverseSmaPlug: PartEnd = { series: 'SMA', gender: 'plug', polarity: 'reverse' };
export const reverseSmaJack: PartEnd = { series: 'SMA', gender: 'jack', polarity: 'reverse' };
export const tncPlug: PartEnd = { series: 'TNC', gender: 'plug' };
export const tncJack: PartEnd = { series: 'TNC', gender: 'jack' };
export const reverseTncPlug: PartEnd = { series: 'TNC', gender: 'plug', polarity: 'reverse' };
export const reverseTncJack: PartEnd = { series: 'TNC', gender: 'jack', polarity: 'reverse' };
export const bncPlug: PartEnd = { series: 'BNC', gender: 'plug' };
export const bncJack: PartEnd = { series: 'BNC', gender: 'jack' };
export const bnc75Plug: PartEnd = { series: 'BNC', gender: 'plug', impedanceOhm: 75 };
export const bnc75Jack: PartEnd = { series: 'BNC', gender: 'jack', impedanceOhm: 75 };
export const fPlug: PartEnd = { series: 'F', gender: 'plug', impedanceOhm: 75 };
export const fJack: PartEnd = { series: 'F', gender: 'jack', impedanceOhm: 75 };
export const uhfPlug: PartEnd = { series: 'UHF', gender: 'plug' };
export const uhfJack: PartEnd = { series: 'UHF', gender: 'jack' };
export const mcxPlug: PartEnd = { series: 'MCX', gender: 'plug' };
export const mcxJack: PartEnd = { series: 'MCX', gender: 'jack' };
export const mmcxPlug: PartEnd = { series: 'MMCX', gender: 'plug' };
export const mmcxJack: PartEnd = { series: 'MMCX', gender: 'jack' };
export const sevenSixteenPlug: PartEnd = { series: '7/16', gender: 'plug' };
export const sevenSixteenJack: PartEnd = { series: '7/16', gender: 'jack' };
export const fourThreeTenPlug: PartEnd = { series: '4.3-10', gender: 'plug' };
export const fourThreeTenJack: PartEnd = { series: '4.3-10', gender: 'jack' };
export const boardPlug25: PartEnd = { series: 'micro-coax 2.5 mm height', gender: 'plug' };
export const boardPlug16: PartEnd = { series: 'micro-coax 1.6 mm height', gender: 'plug' };
export const boardPlug12: PartEnd = { series: 'micro-coax 1.2 mm height', gender: 'plug' };
