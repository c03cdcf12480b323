import type { Plan } from '../src/plan.js';

/** A plan of an invented roof that every test may change a copy of. */
export const examplePlan: Plan = {
  version: 1,
  name: 'Chapel loft',
  region: 'EU868',
  jurisdiction: 'EU',
  gateway: {
    position: { latitudeDeg: 41.2, longitudeDeg: -37.4 },
    antennaHeightM: 9,
    conductedPowerDbm: 14,
    feedlineLossDb: 1.5,
    antennaGainDbi: 2.15,
    noiseFigureDb: 4,
    manMadeNoiseDb: 3,
    downlink: { dataRate: 0, frequencyHz: 869.525e6, applicationBytes: 12 },
  },
  node: {
    heightM: 1.5,
    conductedPowerDbm: 14,
    antennaGainDbi: -2,
    noiseFigureDb: 6,
    uplink: { dataRate: 3, frequencyHz: 868.1e6, applicationBytes: 12 },
    intervalSeconds: 600,
  },
  link: { distanceM: 3000, losses: [{ name: 'body of the carrier', lossDb: 3 }] },
};

/** A small walk log near the example roof: two spots heard, one behind a hill. */
export const exampleLog: string = [
  'time_utc,spot,latitude_deg,longitude_deg,counter,spreading_factor,received,rssi_dbm,snr_db',
  ...frames('quay', 41.203, -37.402, 1, [-92, -93, -91, -95, -92, -90], 8),
  ...frames('mill', 41.212, -37.41, 7, [-109, -111, -108, -110, -112, -109], -3),
  ...frames('cut', 41.206, -37.393, 13, [null, null, -117, null, null, null], -11),
  '',
].join('\n');

function frames(
  spot: string,
  latitudeDeg: number,
  longitudeDeg: number,
  firstCounter: number,
  rssi: readonly (number | null)[],
  snrDb: number,
): string[] {
  return rssi.map((rssiDbm, index) => {
    const counter = firstCounter + index;
    const seconds = String(counter % 60).padStart(2, '0');
    const signal = rssiDbm === null ? '0,,' : `1,${rssiDbm},${snrDb}`;
    return `2026-05-09T09:00:${seconds}Z,${spot},${latitudeDeg},${longitudeDeg},${counter},9,${signal}`;
  });
}
