import { readFileSync } from 'node:fs';
import { fromArrayBuffer, type GeoTIFFImage } from 'geotiff';
import { beforeAll, describe, expect, test } from 'vitest';
import { resonanceOf, sweeps } from '../../examples/fennimara/generate/antennaSweep.js';
import { waterEntersUtc } from '../../examples/fennimara/generate/beacon.js';
import { generateFennimara } from '../../examples/fennimara/generate/index.js';
import { gateway, inventedNotice } from '../../examples/fennimara/generate/place.js';

const folder = new URL('../../examples/fennimara/', import.meta.url);
const bytesOf = (name: string): Buffer => readFileSync(new URL(name, folder));

interface WalkRow {
  readonly timeMs: number;
  readonly spot: string;
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  readonly counter: number;
  readonly spreadingFactor: number;
  readonly received: boolean;
  readonly rssi: string;
  readonly snr: string;
}

function readWalk(): WalkRow[] {
  const [header, ...lines] = bytesOf('walk.csv').toString('utf8').trimEnd().split('\n');
  expect(header).toBe(
    'time_utc,spot,latitude_deg,longitude_deg,counter,spreading_factor,received,rssi_dbm,snr_db',
  );
  return lines.map((line) => {
    const fields = line.split(',');
    expect(fields, line).toHaveLength(9);
    const [time = '', spot = '', latitude, longitude, counter, factor, received = '', rssi = '', snr = ''] =
      fields;
    expect(received, line).toMatch(/^[01]$/);
    expect(time, line).toMatch(/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ$/);
    return {
      timeMs: Date.parse(time),
      spot,
      latitudeDeg: Number(latitude),
      longitudeDeg: Number(longitude),
      counter: Number(counter),
      spreadingFactor: Number(factor),
      received: received === '1',
      rssi,
      snr,
    };
  });
}

/** Great circle on a sphere: good to half a percent, enough to tell near from far. */
function metresToGateway({ latitudeDeg, longitudeDeg }: WalkRow): number {
  const radians = (degrees: number): number => (degrees * Math.PI) / 180;
  const north = Math.sin(radians(latitudeDeg - gateway.latitudeDeg) / 2) ** 2;
  const east = Math.sin(radians(longitudeDeg - gateway.longitudeDeg) / 2) ** 2;
  const cosines = Math.cos(radians(latitudeDeg)) * Math.cos(radians(gateway.latitudeDeg));
  return 2 * 6371000 * Math.asin(Math.sqrt(north + cosines * east));
}

interface SpotDelivery {
  readonly metres: number;
  readonly ratio: number;
}

/** Delivery of the SF9 rounds, which every spot has. */
function deliveries(rows: readonly WalkRow[]): Map<string, SpotDelivery> {
  const spots = new Map<string, WalkRow[]>();
  for (const row of rows.filter(({ spreadingFactor }) => spreadingFactor === 9)) {
    spots.set(row.spot, [...(spots.get(row.spot) ?? []), row]);
  }
  return new Map(
    [...spots].map(([spot, frames]) => [
      spot,
      {
        metres: frames.reduce((sum, frame) => sum + metresToGateway(frame), 0) / frames.length,
        ratio: frames.filter(({ received }) => received).length / frames.length,
      },
    ]),
  );
}

describe('the generator', () => {
  const { files } = generateFennimara();
  test('writes elevation, walk, beacon and four sweeps', () => {
    expect([...files.keys()]).toEqual([
      'elevation.tif',
      'walk.csv',
      'beacon.csv',
      'antenna.s1p',
      'antenna-cut-1.s1p',
      'antenna-cut-2.s1p',
      'antenna-cut-3.s1p',
    ]);
  });
  test.each([...files])('writes %s byte for byte as committed', (name, content) => {
    expect(Buffer.from(content).equals(bytesOf(name))).toBe(true);
  });
  test('agrees with the facts that the page beside the data states', () => {
    const page = readFileSync(new URL('../README.md', folder), 'utf8');
    expect(page).toContain(`${gateway.latitudeDeg}, ${gateway.longitudeDeg}`);
    expect(page).toContain(gateway.name);
    const spots = new Set(readWalk().map(({ spot }) => spot));
    expect(page).toContain(`${spots.size} spots`);
    expect(page).toContain(waterEntersUtc);
    for (const { file, elementLengthM } of sweeps) {
      const megahertz = (resonanceOf(elementLengthM) / 1e6).toFixed(1);
      expect(page).toContain(`| \`${file}\` | ${(1000 * elementLengthM).toFixed(1)} mm | ${megahertz} MHz |`);
    }
    expect(page).toContain(
      `${gateway.antennaHeightAboveGroundM} m above the ground, ${gateway.antennaGainDbi} dBi, ${gateway.feedlineLossDb} dB`,
    );
  });
});

describe('elevation.tif', () => {
  let image: GeoTIFFImage;
  let heights: ArrayLike<number>;
  beforeAll(async () => {
    const content = bytesOf('elevation.tif');
    const tiff = await fromArrayBuffer(Uint8Array.from(content).buffer);
    image = await tiff.getImage();
    heights = (await image.readRasters({ interleave: true })) as unknown as ArrayLike<number>;
  });
  /** Height of the cell that holds a point, found from the corner and cell size written down below. */
  const heightAt = (latitudeDeg: number, longitudeDeg: number): number => {
    const row = Math.floor((41.2 + 220 / 3600 - latitudeDeg) * 3600);
    const column = Math.floor((longitudeDeg + 37.4 + 260 / 3600) * 3600);
    return heights[row * 520 + column] ?? Number.NaN;
  };

  test('is small enough to commit', () => {
    expect(bytesOf('elevation.tif').length).toBeLessThan(1e6);
  });
  test('is where it should be: 520 by 440 arc-seconds about 41.2 N, 37.4 W', () => {
    expect([image.getWidth(), image.getHeight()]).toEqual([520, 440]);
    const [west, north] = image.getOrigin();
    expect(west).toBeCloseTo(-37.4 - 260 / 3600, 12);
    expect(north).toBeCloseTo(41.2 + 220 / 3600, 12);
    const [east, south] = image.getResolution();
    expect(east).toBeCloseTo(1 / 3600, 15);
    expect(south).toBeCloseTo(-1 / 3600, 15);
  });
  test('says its datum, its no-data value and that it is invented', async () => {
    const keys = image.getGeoKeys();
    expect(keys).toMatchObject({ GTModelTypeGeoKey: 2, GTRasterTypeGeoKey: 1, GeographicTypeGeoKey: 4326 });
    expect(image.getGDALNoData()).toBe(-32768);
    expect(image.getSampleFormat()).toBe(2);
    expect(image.getBitsPerSample()).toBe(16);
    expect(String(await image.fileDirectory.loadValue('ImageDescription'))).toContain(inventedNotice);
  });
  test('is an island: sea all round, hills of some hundred metres, no hole', () => {
    const all = Array.from(heights);
    expect(all).toHaveLength(520 * 440);
    const edge = all.filter((_, cell) => {
      const [row, column] = [Math.floor(cell / 520), cell % 520];
      return row === 0 || row === 439 || column === 0 || column === 519;
    });
    expect(Math.max(...edge)).toBe(0);
    const [lowest, highest] = all.reduce(
      ([low, high], height) => [Math.min(low, height), Math.max(high, height)],
      [Infinity, -Infinity],
    );
    expect(lowest).toBe(0);
    expect(highest).toBeGreaterThan(400);
    expect(highest).toBeLessThan(700);
    const land = all.filter((height) => height > 0).length / all.length;
    expect(land).toBeGreaterThan(0.4);
    expect(land).toBeLessThan(0.75);
  });
  test('puts the gateway on a gentle plain and the summit spot high up', () => {
    const ground = heightAt(gateway.latitudeDeg, gateway.longitudeDeg);
    expect(ground).toBeGreaterThan(15);
    expect(ground).toBeLessThan(70);
    const neighbours = [-8, 8].flatMap((cells) => [
      heightAt(gateway.latitudeDeg + cells / 3600, gateway.longitudeDeg),
      heightAt(gateway.latitudeDeg, gateway.longitudeDeg + cells / 3600),
    ]);
    for (const height of neighbours) expect(Math.abs(height - ground)).toBeLessThan(10);
    const summit = readWalk().find(({ spot }) => spot === 'Rim Summit');
    expect(heightAt(summit?.latitudeDeg ?? 0, summit?.longitudeDeg ?? 0)).toBeGreaterThan(300);
  });
  test.each(['Mule Wash Crossing', 'Mule Wash Head', 'North Wash Ford', 'Washes Meeting'])(
    '%s lies 10 to 30 m below the plain about it',
    (name) => {
      const at = readWalk().find(({ spot }) => spot === name);
      const [latitudeDeg, longitudeDeg] = [at?.latitudeDeg ?? 0, at?.longitudeDeg ?? 0];
      const around = [-7, 7].flatMap((cells) => [
        heightAt(latitudeDeg + cells / 3600, longitudeDeg),
        heightAt(latitudeDeg, longitudeDeg + cells / 3600),
      ]);
      const depth = Math.max(...around) - heightAt(latitudeDeg, longitudeDeg);
      expect(depth).toBeGreaterThan(10);
      expect(depth).toBeLessThan(35);
    },
  );
});

describe('walk.csv', () => {
  const rows = readWalk();
  const spots = deliveries(rows);

  test('holds several hundred frames at many spots, from 60 m to 7 km', () => {
    expect(rows.length).toBeGreaterThanOrEqual(1000);
    expect(spots.size).toBeGreaterThanOrEqual(62);
    const metres = [...spots.values()].map((spot) => spot.metres);
    expect(Math.min(...metres)).toBeGreaterThan(55);
    expect(Math.min(...metres)).toBeLessThan(100);
    expect(Math.max(...metres)).toBeGreaterThan(6500);
    expect(new Set(rows.map(({ spreadingFactor }) => spreadingFactor))).toEqual(new Set([7, 9, 12]));
  });
  test('counts every frame sent, one by one', () => {
    expect(rows.map(({ counter }) => counter)).toEqual(rows.map((_, index) => index + 1));
  });
  // Time on air of 17 bytes, 125 kHz, 4/5, 8 symbols of preamble, explicit header and CRC, worked out by hand from the
  // symbol count of Semtech AN1200.13: 50.25, 40.25 and (low data rate) 40.25 symbols of 2^SF / 125 kHz.
  test.each([
    [7, 50.25 * 1.024e-3],
    [9, 40.25 * 4.096e-3],
    [12, 40.25 * 32.768e-3],
  ])('keeps the 1 %% duty cycle from frame to frame on SF%i', (spreadingFactor, airtimeSeconds) => {
    const gaps = rows.slice(1).flatMap((row, index) => {
      const before = rows[index];
      return before?.spreadingFactor === spreadingFactor ? [(row.timeMs - before.timeMs) / 1000] : [];
    });
    expect(gaps.length).toBeGreaterThan(20);
    expect(Math.min(...gaps)).toBeGreaterThanOrEqual(100 * airtimeSeconds);
  });
  test('lists missed frames with empty levels, and received ones with levels in the steps of a receiver', () => {
    const missed = rows.filter(({ received }) => !received);
    expect(missed.length).toBeGreaterThan(100);
    for (const { rssi, snr } of missed) expect([rssi, snr]).toEqual(['', '']);
    for (const { rssi, snr } of rows.filter(({ received }) => received)) {
      expect(rssi).toMatch(/^-\d+$/);
      expect(snr).toMatch(/^-?\d+\.(00|25|50|75)$/);
      expect(Number(snr)).toBeLessThan(15);
    }
  });
  test('has RSSI stuck near the noise floor for weak frames, as signal and noise together must be', () => {
    const weak = rows
      .filter(({ received, snr }) => received && Number(snr) < -6)
      .map(({ rssi }) => Number(rssi));
    expect(weak.length).toBeGreaterThan(20);
    expect(Math.min(...weak)).toBeGreaterThanOrEqual(-118);
    expect(Math.max(...weak)).toBeLessThanOrEqual(-109);
  });
  test('delivers 60 to 75 % of all frames, nearly all of them near by', () => {
    const share = (some: readonly WalkRow[]): number =>
      some.filter(({ received }) => received).length / some.length;
    expect(share(rows)).toBeGreaterThan(0.6);
    expect(share(rows)).toBeLessThan(0.75);
    const near = rows.filter((row) => metresToGateway(row) < 700);
    expect(near.length).toBeGreaterThan(100);
    expect(share(near)).toBeGreaterThan(0.95);
  });
  test('has hollows that lose most frames although they lie nearer than spots that lose few', () => {
    const all = [...spots.values()];
    const hollows = all.filter(({ metres, ratio }) => metres < 1500 && ratio <= 0.3);
    const goodAndFar = all.filter(({ metres, ratio }) => metres > 3000 && ratio >= 0.9);
    expect(hollows.length).toBeGreaterThanOrEqual(6);
    expect(goodAndFar.length).toBeGreaterThanOrEqual(6);
    const missing = all.filter(({ metres, ratio }) => metres > 1000 && ratio < 0.4);
    expect(missing.length).toBeGreaterThanOrEqual(15);
  });
  test('has spots in between, where a few decibels decide', () => {
    const between = [...spots.values()].filter(({ ratio }) => ratio > 0.05 && ratio < 0.9);
    expect(between.length).toBeGreaterThanOrEqual(5);
  });
});

describe('beacon.csv', () => {
  const [header, ...lines] = bytesOf('beacon.csv').toString('utf8').trimEnd().split('\n');
  const frames = lines.map((line) => {
    const [time = '', counter, received, rssi = '', snr = '', temperature] = line.split(',');
    const heard = received === '1';
    return {
      timeMs: Date.parse(time),
      counter: Number(counter),
      heard,
      rssi,
      snr,
      temperatureC: Number(temperature),
    };
  });
  const levelDb = (some: typeof frames): number => {
    const heard = some.filter((frame) => frame.heard);
    return heard.reduce((sum, { snr }) => sum + Number(snr), 0) / heard.length;
  };
  const missedRatio = (some: typeof frames): number =>
    some.filter(({ heard }) => !heard).length / some.length;
  const enters = Date.parse(waterEntersUtc);
  const dry = frames.filter(({ timeMs }) => timeMs < enters);
  const day = 86_400_000;
  const wet = frames.filter(({ timeMs }) => timeMs >= enters + day);

  test('has a frame each half hour for four weeks, missed ones with empty levels', () => {
    expect(header).toBe('time_utc,counter,received,rssi_dbm,snr_db,temperature_c');
    expect(frames).toHaveLength(28 * 48);
    expect(frames.map(({ counter }) => counter)).toEqual(frames.map((_, index) => index + 1));
    for (const [index, { timeMs, heard, rssi, snr }] of frames.entries()) {
      expect(timeMs - (frames[0]?.timeMs ?? 0)).toBe(index * 1_800_000);
      if (!heard) expect([rssi, snr]).toEqual(['', '']);
      else expect(rssi).toMatch(/^-\d+$/);
    }
  });
  test('has days warmer than nights', () => {
    const at = (hour: number): number => {
      const then = frames.filter(({ timeMs }) => new Date(timeMs).getUTCHours() === hour);
      return then.reduce((sum, { temperatureC }) => sum + temperatureC, 0) / then.length;
    };
    expect(at(16) - at(4)).toBeGreaterThan(5);
  });
  test('loses some 5 dB from the third week on, and does not get them back', () => {
    expect((enters - (frames[0]?.timeMs ?? 0)) / day).toBeGreaterThan(14);
    expect(levelDb(dry) - levelDb(frames.slice(-7 * 48))).toBeGreaterThan(3.5);
    expect(levelDb(dry) - levelDb(frames.slice(-7 * 48))).toBeLessThan(7);
    // The best day of the wet time is still worse than an ordinary dry one.
    for (let start = 0; start + 48 <= wet.length; start += 48) {
      expect(levelDb(wet.slice(start, start + 48))).toBeLessThan(levelDb(dry) - 0.7);
    }
  });
  test('misses a few frames before and more of them after', () => {
    expect(missedRatio(dry)).toBeGreaterThan(0.005);
    expect(missedRatio(dry)).toBeLessThan(0.04);
    expect(missedRatio(wet)).toBeGreaterThan(2 * missedRatio(dry));
  });
});

describe.each(sweeps)('$file', ({ file, elementLengthM, state }) => {
  const lines = bytesOf(file).toString('utf8').trimEnd().split('\n');
  const points = lines
    .filter((line) => /^\d/.test(line))
    .map((line) => {
      const [frequencyHz = Number.NaN, re = Number.NaN, im = Number.NaN] = line.split(' ').map(Number);
      const size = Math.hypot(re, im);
      return { frequencyHz, size, vswr: (1 + size) / (1 - size) };
    });

  test('says that it is invented, and its format', () => {
    expect(lines[0]).toBe(`! ${inventedNotice}`);
    expect(lines[1]).toContain(state);
    expect(lines.filter((line) => line.startsWith('#'))).toEqual(['# HZ S RI R 50']);
    expect(lines.filter((line) => !/^[!#\d]/.test(line))).toEqual([]);
  });
  test('sweeps 800 to 930 MHz in 801 rising points of a passive antenna', () => {
    expect(points).toHaveLength(801);
    expect(points.at(0)?.frequencyHz).toBe(800e6);
    expect(points.at(-1)?.frequencyHz).toBe(930e6);
    for (const [index, { frequencyHz, size }] of points.entries()) {
      expect(frequencyHz).toBeGreaterThan(points[index - 1]?.frequencyHz ?? 0);
      expect(size).toBeLessThan(1);
    }
  });
  // Written down here by hand: a whip of 79 mm resonates at 846 MHz, and 22 mm of the resonant length are never cut.
  test('is best matched near the resonance of its length', () => {
    const best = points.reduce((one, other) => (other.size < one.size ? other : one));
    const ownHz = (846e6 * (79 + 22)) / (1000 * elementLengthM + 22);
    expect(Math.abs(best.frequencyHz - ownHz)).toBeLessThan(2.5e6);
    expect(best.vswr).toBeGreaterThan(1.15);
    expect(best.vswr).toBeLessThan(1.4);
  });
});

test('the antenna as built is worse matched in the band than at its resonance, and less so after each cut', () => {
  const matches = sweeps.map(({ file }) => {
    const row = bytesOf(file)
      .toString('utf8')
      .split('\n')
      .find((line) => Number(line.split(' ')[0]) >= 868.1e6);
    const [, re = Number.NaN, im = Number.NaN] = (row ?? '').split(' ').map(Number);
    return Math.hypot(re, im);
  });
  for (const [index, size] of matches.entries()) expect(size).toBeLessThan(matches[index - 1] ?? 0.3);
});
