import { destination, type GeoPosition } from '@finial/terrain';

/** How near the polynomials come to the solver of geodesics, in metres; tested at the rim before a map is used. */
const wantedErrorM = 1e-3;
/** Beyond this degree rounding takes over, and a gateway so near a pole is better served by the solver itself. */
const highestDegree = 10;
const metresPerDegree = 111_320;

/**
 * Positions of places given by metres east and north of a gateway, where distance and azimuth from it are those of the geodesic on
 * WGS 84 (azimuthal equidistant). The solver of geodesics costs a microsecond or two per place, and a sweep needs millions: so it is
 * asked once at some nodes, and a polynomial in both coordinates carries the rest, within a millimetre. A gateway whose area comes near a
 * pole gets every place from the solver. Longitudes may pass 180 at the date line.
 */
export class LocalMap {
  /** Degree of the polynomials; 0 where every place comes from the solver. */
  readonly degree: number;
  /** Coefficients of x^i y^j at i (degree + 1) + j, for x and y as shares of the radius. */
  private readonly latitude: Float64Array;
  private readonly longitude: Float64Array;
  /** The same along one line, by power of the distance. */
  private readonly lineLatitude: Float64Array;
  private readonly lineLongitude: Float64Array;

  constructor(
    private readonly from: GeoPosition,
    private readonly radiusM: number,
  ) {
    for (let degree = 3; degree <= highestDegree; degree += 1) {
      const fitted = fit(from, radiusM, degree);
      if (largestErrorM(from, radiusM, degree, fitted) > wantedErrorM) continue;
      this.degree = degree;
      this.latitude = fitted.latitude;
      this.longitude = fitted.longitude;
      this.lineLatitude = new Float64Array(degree + 1);
      this.lineLongitude = new Float64Array(degree + 1);
      return;
    }
    this.degree = 0;
    this.latitude = this.longitude = this.lineLatitude = this.lineLongitude = new Float64Array(1);
  }

  /** Writes the positions of places on the line of an azimuth (radians clockwise from north), at these distances. */
  placesOnLine(
    azimuth: number,
    distanceM: Float64Array,
    count: number,
    latitudeDeg: Float64Array,
    longitudeDeg: Float64Array,
  ): void {
    const east = Math.sin(azimuth);
    const north = Math.cos(azimuth);
    if (this.degree === 0) {
      for (let index = 0; index < count; index += 1) {
        const along = distanceM[index] as number;
        this.solve(along * east, along * north, index, latitudeDeg, longitudeDeg);
      }
      return;
    }
    const { degree, lineLatitude, lineLongitude, radiusM } = this;
    const { latitudeDeg: latitude0, longitudeDeg: longitude0 } = this.from;
    alongLine(this.latitude, degree, east, north, lineLatitude);
    alongLine(this.longitude, degree, east, north, lineLongitude);
    for (let index = 0; index < count; index += 1) {
      const r = (distanceM[index] as number) / radiusM;
      let latitude = lineLatitude[degree] as number;
      let longitude = lineLongitude[degree] as number;
      for (let power = degree - 1; power >= 0; power -= 1) {
        latitude = latitude * r + (lineLatitude[power] as number);
        longitude = longitude * r + (lineLongitude[power] as number);
      }
      latitudeDeg[index] = latitude0 + latitude;
      longitudeDeg[index] = longitude0 + longitude;
    }
  }

  /** Writes the positions of places anywhere in the area. */
  places(
    eastM: Float64Array,
    northM: Float64Array,
    count: number,
    latitudeDeg: Float64Array,
    longitudeDeg: Float64Array,
  ): void {
    if (this.degree === 0) {
      for (let index = 0; index < count; index += 1) {
        this.solve(eastM[index] as number, northM[index] as number, index, latitudeDeg, longitudeDeg);
      }
      return;
    }
    const { degree, latitude, longitude, radiusM } = this;
    const { latitudeDeg: latitude0, longitudeDeg: longitude0 } = this.from;
    for (let index = 0; index < count; index += 1) {
      const x = (eastM[index] as number) / radiusM;
      const y = (northM[index] as number) / radiusM;
      latitudeDeg[index] = latitude0 + valueAt(latitude, degree, x, y);
      longitudeDeg[index] = longitude0 + valueAt(longitude, degree, x, y);
    }
  }

  private solve(
    eastM: number,
    northM: number,
    index: number,
    latitudeDeg: Float64Array,
    longitudeDeg: Float64Array,
  ): void {
    const place = solved(this.from, eastM, northM);
    latitudeDeg[index] = place.latitudeDeg;
    longitudeDeg[index] = place.longitudeDeg;
  }
}

function solved(from: GeoPosition, eastM: number, northM: number): GeoPosition {
  const azimuthDeg = (Math.atan2(eastM, northM) * 180) / Math.PI;
  return destination({ from, azimuthDeg, distanceM: Math.sqrt(eastM * eastM + northM * northM) });
}

/** Degrees east of the start, also across the date line. */
function eastDeg(from: GeoPosition, to: GeoPosition): number {
  const turned = to.longitudeDeg - from.longitudeDeg;
  return turned - 360 * Math.round(turned / 360);
}

interface Fitted {
  readonly latitude: Float64Array;
  readonly longitude: Float64Array;
}

/** Interpolates on a square of Chebyshev nodes; powers that together exceed the degree are below the error and left out. */
function fit(from: GeoPosition, radiusM: number, degree: number): Fitted {
  const count = degree + 1;
  const nodes = Float64Array.from({ length: count }, (_, node) => Math.cos(((node + 0.5) * Math.PI) / count));
  const basis = Array.from(nodes, (_, node) => lagrangeCoefficients(nodes, node));
  const latitude = new Float64Array(count * count);
  const longitude = new Float64Array(count * count);
  nodes.forEach((x, column) => {
    nodes.forEach((y, row) => {
      const place = solved(from, x * radiusM, y * radiusM);
      addProduct(latitude, basis[column], basis[row], place.latitudeDeg - from.latitudeDeg);
      addProduct(longitude, basis[column], basis[row], eastDeg(from, place));
    });
  });
  return { latitude, longitude };
}

/** Coefficients, by power, of the polynomial that is 1 at one node and 0 at the others. */
function lagrangeCoefficients(nodes: Float64Array, chosen: number): Float64Array {
  const coefficients = new Float64Array(nodes.length);
  coefficients[0] = 1;
  const at = nodes[chosen] as number;
  nodes.forEach((node, index) => {
    if (index === chosen) return;
    for (let power = nodes.length - 1; power >= 0; power -= 1) {
      const lower = power > 0 ? (coefficients[power - 1] as number) : 0;
      coefficients[power] = (lower - node * (coefficients[power] as number)) / (at - node);
    }
  });
  return coefficients;
}

function addProduct(
  sum: Float64Array,
  inX: Float64Array = new Float64Array(0),
  inY: Float64Array = new Float64Array(0),
  weight = 0,
): void {
  const count = inX.length;
  for (let i = 0; i < count; i += 1) {
    for (let j = 0; i + j < count; j += 1) {
      const at = i * count + j;
      sum[at] = (sum[at] as number) + weight * (inX[i] as number) * (inY[j] as number);
    }
  }
}

function valueAt(coefficients: Float64Array, degree: number, x: number, y: number): number {
  let value = 0;
  for (let i = degree; i >= 0; i -= 1) {
    const row = i * (degree + 1);
    let inner = 0;
    for (let j = degree - i; j >= 0; j -= 1) inner = inner * y + (coefficients[row + j] as number);
    value = value * x + inner;
  }
  return value;
}

/** The polynomial along the line (r east, r north), by power of r. */
function alongLine(
  coefficients: Float64Array,
  degree: number,
  east: number,
  north: number,
  line: Float64Array,
): void {
  for (let power = 0; power <= degree; power += 1) {
    let sum = 0;
    let eastPower = 1;
    for (let i = 0; i <= power; i += 1) {
      let term = eastPower * (coefficients[i * (degree + 1) + power - i] as number);
      for (let j = power - i; j > 0; j -= 1) term *= north;
      sum += term;
      eastPower *= east;
    }
    line[power] = sum;
  }
}

function largestErrorM(from: GeoPosition, radiusM: number, degree: number, fitted: Fitted): number {
  let largest = 0;
  for (let turn = 0; turn < 32; turn += 1) {
    const share = turn % 2 === 0 ? 1 : 0.6;
    const x = share * Math.sin((turn * Math.PI) / 16);
    const y = share * Math.cos((turn * Math.PI) / 16);
    const place = solved(from, x * radiusM, y * radiusM);
    const off = valueAt(fitted.latitude, degree, x, y) - (place.latitudeDeg - from.latitudeDeg);
    const aside = valueAt(fitted.longitude, degree, x, y) - eastDeg(from, place);
    const parallel = Math.cos((place.latitudeDeg * Math.PI) / 180);
    largest = Math.max(
      largest,
      metresPerDegree * Math.abs(off),
      metresPerDegree * parallel * Math.abs(aside),
    );
  }
  return largest;
}
