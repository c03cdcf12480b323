import proj4 from 'proj4';

/** Turns positions into coordinates of one zone of the Universal Transverse Mercator grid and back. */
export interface UtmProjection {
  /** Easting and northing in metres; infinite for a position so far from the zone that it has none. */
  forward(latitudeDeg: number, longitudeDeg: number): readonly [eastM: number, northM: number];
  /** Latitude and longitude in degrees. */
  inverse(eastM: number, northM: number): readonly [latitudeDeg: number, longitudeDeg: number];
}

// Setting up a projection takes far longer than one point does, and heights are asked for point by point.
const projections: Map<string, UtmProjection> = /* @__PURE__ */ new Map();

/** The projection of a zone (WGS 84). */
export function utmProjection(zone: number, hemisphere: 'north' | 'south'): UtmProjection {
  const definition = `+proj=utm +zone=${zone}${hemisphere === 'south' ? ' +south' : ''} +datum=WGS84 +units=m`;
  const known = projections.get(definition);
  if (known !== undefined) return known;
  const converter = proj4(definition);
  const projection: UtmProjection = {
    forward(latitudeDeg, longitudeDeg) {
      const [eastM = Number.NaN, northM = Number.NaN] = converter.forward([longitudeDeg, latitudeDeg]);
      return [eastM, northM];
    },
    inverse(eastM, northM) {
      const [longitudeDeg = Number.NaN, latitudeDeg = Number.NaN] = converter.inverse([eastM, northM]);
      return [latitudeDeg, longitudeDeg];
    },
  };
  projections.set(definition, projection);
  return projection;
}
