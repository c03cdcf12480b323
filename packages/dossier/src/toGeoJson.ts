import type { Dossier } from './Dossier.js';

/**
 * The places of a dossier as the text of a GeoJSON FeatureCollection in degrees of WGS 84: the gateway, the predicted coverage by data rate
 * (the farthest-reaching first, so that later ones are drawn over it) and the spots of the walk with what arrived there.
 *
 * @param dossier - as {@link assembleDossier} returns it
 * @returns the text of the file
 * @source RFC 7946
 * @example
 * ```ts
 * import { assembleDossier, parsePlan, toGeoJson } from '@finial/dossier';
 *
 * const plan = parsePlan(`{
 *   "version": 1, "name": "Chapel loft", "region": "EU868", "jurisdiction": "EU",
 *   "gateway": {
 *     "position": { "latitudeDeg": 41.2, "longitudeDeg": -37.4 }, "antennaHeightM": 9,
 *     "conductedPowerDbm": 14, "feedlineLossDb": 1.5, "antennaGainDbi": 2.15, "noiseFigureDb": 4
 *   },
 *   "node": {
 *     "heightM": 1.5, "conductedPowerDbm": 14, "antennaGainDbi": -2, "noiseFigureDb": 6,
 *     "uplink": { "dataRate": 3, "frequencyHz": 868100000, "applicationBytes": 12 }, "intervalSeconds": 600
 *   },
 *   "link": { "distanceM": 3000 }
 * }`);
 * const places = JSON.parse(toGeoJson(await assembleDossier(plan, {})));
 * places.features[0].geometry.coordinates; // → [-37.4, 41.2]
 * ```
 */
export function toGeoJson({ plan, coverage, walk }: Dossier): string {
  const { latitudeDeg, longitudeDeg } = plan.gateway.position;
  const gateway = feature('Point', [longitudeDeg, latitudeDeg], { kind: 'gateway', name: plan.name });
  const bands = (coverage?.bands ?? []).map(({ polygons, ...band }) =>
    feature('MultiPolygon', polygons, { kind: 'predicted coverage', ...band }),
  );
  const spots = (walk?.spots ?? []).map(({ latitudeDeg: latitude, longitudeDeg: longitude, ...spot }) =>
    feature('Point', [longitude, latitude], { kind: 'spot', ...spot }),
  );
  return `${JSON.stringify({ type: 'FeatureCollection', features: [gateway, ...bands, ...spots] })}\n`;
}

function feature(type: string, coordinates: readonly unknown[], properties: object): object {
  return {
    type: 'Feature',
    properties,
    geometry: coordinates.length === 0 ? null : { type, coordinates },
  };
}
