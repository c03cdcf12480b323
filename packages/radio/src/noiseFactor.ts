import { noiseReferenceTemperatureK } from './physicalConstants.js';

// Noise adds in kelvin, and small noise figures would lose their digits in 10^x - 1: hence expm1 and log1p.

/** Noise temperature in kelvin of a noise figure, unchecked. */
export function noiseTemperatureK(noiseFigureDb: number): number {
  return noiseReferenceTemperatureK * Math.expm1((noiseFigureDb * Math.LN10) / 10);
}

/** Noise figure in dB of a noise temperature, unchecked. */
export function noiseFigureDbOf(temperatureK: number): number {
  return (10 * Math.log1p(temperatureK / noiseReferenceTemperatureK)) / Math.LN10;
}
