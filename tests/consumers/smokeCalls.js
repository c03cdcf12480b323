// @ts-check

/** A plan without files, as text. */
export const smokePlan = JSON.stringify({
  version: 1,
  name: 'Water tower',
  region: 'EU868',
  jurisdiction: 'EU',
  gateway: {
    position: { latitudeDeg: 50.1, longitudeDeg: 4.2 },
    antennaHeightM: 31,
    conductedPowerDbm: 13,
    feedlineLossDb: 0.8,
    antennaGainDbi: 3,
    noiseFigureDb: 4,
  },
  node: {
    heightM: 1.5,
    conductedPowerDbm: 14,
    antennaGainDbi: -1,
    noiseFigureDb: 6,
    uplink: { dataRate: 2, frequencyHz: 868.3e6, applicationBytes: 16 },
    intervalSeconds: 900,
  },
  link: { distanceM: 2500 },
});

/**
 * One call per package, as TypeScript that is also JavaScript: `all` is the namespace of the package and `plan` the
 * text above. Each must give a finite
 * number. What the number is, the tests of the package know; here it only shows that the packed files work together.
 *
 * @type {Readonly<Record<string, string>>}
 */
export const smokeCalls = {
  '@finial/units': 'all.dbmToWatt(14)',
  '@finial/radio': 'all.freeSpaceLossDb({ frequencyHz: 868.1e6, distanceM: 10_000 })',
  '@finial/lora':
    'all.timeOnAir({ spreadingFactor: 7, bandwidthHz: 125_000, codingRate: 5, payloadBytes: 23 }).totalSeconds',
  '@finial/antenna':
    'all.groundPlane({ frequencyHz: 868.1e6, elementDiameterM: 0.002, droopDeg: 45 }).resonantLengthM',
  '@finial/feedline': "all.attenuationDb({ cable: 'RG-58C/U', lengthM: 10, frequencyHz: 868.1e6 })",
  '@finial/propagation':
    "all.p2109.buildingEntryLossDb({ frequencyHz: 868e6, buildingClass: 'traditional', probability: 0.5 })",
  '@finial/survey': 'all.effectiveSignalPowerDbm({ rssiDbm: -110, snrDb: -5 })',
  '@finial/terrain':
    "all.heightAtM(await all.openElevation([{ name: 'hill.asc', bytes: new TextEncoder().encode('ncols 2 nrows 2 xllcenter 7 yllcenter 50 cellsize 1 120 140 100 160') }]), { latitudeDeg: 50.5, longitudeDeg: 7.5 })",
  '@finial/site':
    "all.mastLoad({ wind: { code: 'asce-7', gustSpeedMPerS: 40, exposureRatio: 1 }, parts: [{ name: 'mast', shape: 'round', widthM: 0.04, heightM: 2, centreM: 1 }], foot: { kind: 'fixed' } }).momentNm",
  '@finial/dossier': '(await all.assembleDossier(all.parsePlan(plan), {})).linkBudget.freeSpaceLossDb',
};
