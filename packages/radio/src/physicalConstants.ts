/**
 * Speed of light in vacuum in metres per second, exact by definition.
 *
 * @source SI Brochure, 9th edition (2019), section 2.2 (defining constant c)
 */
export const speedOfLightMPerS = 299_792_458;

/**
 * Boltzmann constant in joules per kelvin, exact by definition.
 *
 * @source SI Brochure, 9th edition (2019), section 2.2 (defining constant k)
 */
export const boltzmannJPerK = 1.380_649e-23;

/**
 * Reference temperature of noise figures in kelvin: a noise figure says how much noise a part adds to a source at 290 K.
 *
 * @source Recommendation ITU-R P.372, section 2 (t0 is taken as 290 K; from memory)
 */
export const noiseReferenceTemperatureK = 290;

/**
 * Mean radius of the Earth in metres, as the propagation Recommendations take it.
 *
 * @source Recommendation ITU-R P.1812, equation 7a (6371 km)
 */
export const earthRadiusM = 6_371_000;

/**
 * Factor by which the Earth's radius is stretched so that a ray bent by an average atmosphere can be drawn straight.
 *
 * @source Recommendation ITU-R P.310, definition of the effective Earth radius (4/3 for a standard atmosphere; from memory)
 */
export const standardEarthRadiusFactor: number = 4 / 3;
