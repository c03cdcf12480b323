// Makes planeOffsets.json: offsets from a gateway by geographiclib-geodesic 2.2.0 (C. F. F. Karney's algorithms, full accuracy).
// Run in the folder of a package that depends on it: node ../survey/test/vectors/planeOffsets.mjs > planeOffsets.json
import { createRequire } from 'node:module';
import { join } from 'node:path';

const geodesic = createRequire(join(process.cwd(), 'package.json'))('geographiclib-geodesic');

const places = [
  [45.786304, 4.8797596, 45.7038934, 4.9390279],
  [49.2, 16.6, 49.2001, 16.6002],
  [49.2, 16.6, 49.95, 17.8],
  [0, 16.6, 0, 17.6],
  [0, 179.99, -0.02, -179.98],
  [-37.9, 144.4, -37.6, 143.9],
  [69.9, 25.1, 75.2, 44.0],
  [-89.9, 10, -89.9, -170],
  [41.19, -37.43, 41.19, -37.43],
  [10, 20, 18.9, 20],
];
const cases = places.map(([latitude, longitude, toLatitude, toLongitude]) => {
  const { s12, azi1 } = geodesic.Geodesic.WGS84.Inverse(latitude, longitude, toLatitude, toLongitude);
  const azimuth = (azi1 * Math.PI) / 180;
  return {
    origin: { latitudeDeg: latitude, longitudeDeg: longitude },
    position: { latitudeDeg: toLatitude, longitudeDeg: toLongitude },
    eastM: s12 * Math.sin(azimuth),
    northM: s12 * Math.cos(azimuth),
  };
});
const source = "geographiclib-geodesic 2.2.0: Karney's inverse geodesic on WGS 84";
console.log(JSON.stringify({ source, cases }, undefined, 1));
