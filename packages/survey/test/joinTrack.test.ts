import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  estimateClockOffset,
  isInputError,
  type JoinTrackOptions,
  joinTrack,
  readSurvey,
  readTrack,
  readUplinks,
  type TrackPoint,
  type Uplink,
} from '../src/index.js';
import { sharedData } from './sharedData.js';

const begin = Date.parse('2024-07-24T06:00:00Z') / 1000;
const utc = (seconds: number): string => new Date((begin + seconds) * 1000).toISOString();

/** A walk to the east at one thousandth of a degree per minute, a point every 10 s for an hour. */
const track: readonly TrackPoint[] = Array.from({ length: 361 }, (_, index) => ({
  timeUtc: utc(10 * index),
  latitudeDeg: 45.7,
  longitudeDeg: 4.9 + index / 6000,
}));
const longitudeAt = (seconds: number): number => 4.9 + seconds / 60_000;

const heard = (counter: number, seconds: number, more: Partial<Uplink> = {}): Uplink => ({
  timeUtc: utc(seconds),
  counter,
  rssiDbm: -110,
  ...more,
});

const countersOf = (uplinks: readonly Uplink[], options?: JoinTrackOptions): string =>
  joinTrack(track, uplinks, options)
    .observations.map(({ counter, received }) => `${counter}${received ? '' : '-'}`)
    .join(' ');

const refusal = (...args: unknown[]): unknown => {
  try {
    return (joinTrack as (...all: unknown[]) => unknown)(...args);
  } catch (error) {
    return isInputError(error) ? `${error.code} ${error.argument}` : error;
  }
};

describe('missed frames', () => {
  test('between two uplinks, on the track at the time of sending', () => {
    const walk = joinTrack(track, [heard(4, 40), heard(7, 70)]);
    expect(walk.observations.map(({ timeUtc, counter, received }) => [timeUtc, counter, received])).toEqual([
      [utc(40), 4, true],
      [utc(50), 5, false],
      [utc(60), 6, false],
      [utc(70), 7, true],
    ]);
    walk.observations.forEach(({ longitudeDeg }, index) => {
      expect(longitudeDeg).toBeCloseTo(longitudeAt(40 + 10 * index), 12);
    });
  });

  test('before the first and after the last uplink only where the caller says so', () => {
    const uplinks = [heard(4, 3540), heard(5, 3570)];
    expect(countersOf(uplinks)).toBe('4 5');
    expect(joinTrack(track, uplinks).warnings.join()).toMatch(/before the first.*after the last/);
    expect(countersOf(uplinks, { firstCounter: 2 })).toBe('2- 3- 4 5');
    expect(countersOf(uplinks, { toTrackEnd: true })).toBe('4 5 6-');
    expect(countersOf(uplinks, { lastCounter: 6 })).toBe('4 5 6-');
    const beyond = joinTrack(track, uplinks, { lastCounter: 9, firstCounter: 4 });
    expect(beyond.missedOffTrackFrames).toBe(3);
    expect(beyond.warnings).toEqual([]);
    expect(countersOf(uplinks, { firstCounter: 5 })).toBe('5');
  });

  test("the node's own list counts every frame of it, and no other", () => {
    const uplinks = [heard(5, 100), heard(6, 130), heard(11, 280)];
    const walk = joinTrack(track, uplinks, {
      sent: [{ counter: 3 }, { counter: 5 }, { counter: 6 }, { counter: 9, timeUtc: utc(1000) }],
    });
    expect(walk.observations.map(({ counter, received, timeUtc }) => [counter, received, timeUtc])).toEqual([
      [3, false, utc(40)],
      [5, true, utc(100)],
      [6, true, utc(130)],
      [9, false, utc(1000)],
    ]);
    expect(walk.skipped).toEqual([{ index: 2, reason: 'not-in-sent-list' }]);
    expect(walk.warnings).toEqual([]);
  });

  test("the node's own list over a roll-over, first uplink after it", () => {
    const sent = [65_534, 65_535, 0, 1, 2].map((counter) => ({ counter }));
    const walk = joinTrack(track, [heard(0, 120), heard(2, 140)], { sent, counterBits: 16 });
    expect(walk.observations.map(({ counter, timeUtc }) => [counter, timeUtc])).toEqual([
      [65_534, utc(100)],
      [65_535, utc(110)],
      [0, utc(120)],
      [1, utc(130)],
      [2, utc(140)],
    ]);
  });

  test('a node that sends when it likes: evenly between the uplinks', () => {
    const uplinks = [heard(0, 0), heard(1, 10), heard(2, 20), heard(3, 30), heard(6, 900), heard(7, 910)];
    const walk = joinTrack(track, uplinks);
    expect(walk.observations.map(({ timeUtc }) => timeUtc)).toEqual(
      [0, 10, 20, 30, 320, 610, 900, 910].map(utc),
    );
    expect(walk.warnings.join()).toContain('did not send regularly');
  });

  test('settings of missed frames are those that the uplinks around agree on, or the node', () => {
    const sf = (spreadingFactor: number): Partial<Uplink> => ({ spreadingFactor });
    const uplinks = [heard(0, 0, sf(12)), heard(2, 20, sf(12)), heard(4, 40, sf(9))];
    const of = (options?: JoinTrackOptions): unknown[] =>
      joinTrack(track, uplinks, options).observations.map(({ spreadingFactor }) => spreadingFactor);
    expect(of()).toEqual([12, 12, 12, undefined, 9]);
    expect(of({ node: { spreadingFactor: 10 } })).toEqual([12, 12, 12, 10, 9]);
    const { observations } = joinTrack(track, uplinks, {
      node: { conductedPowerDbm: 14, frequencyHz: 868.1e6 },
    });
    expect(observations.every(({ conductedPowerDbm }) => conductedPowerDbm === 14)).toBe(true);
  });

  test('a misread counter is refused instead of filling the memory', () => {
    expect(refusal(track, [heard(0, 0), heard(4_000_000_000, 60)])).toBe('out-of-range uplinks');
    expect(refusal(track, [heard(0, 0)], { toTrackEnd: true })).toBe('missing periodSeconds');
  });
});

describe('the counter', () => {
  test('repeated frames count once, first reception first', () => {
    const walk = joinTrack(track, [
      heard(1, 10),
      heard(1, 12, { line: 9 }),
      heard(2, 20),
      heard(1, 21),
      heard(3, 30),
    ]);
    expect(walk.observations.map(({ counter }) => counter)).toEqual([1, 2, 3]);
    expect(walk.skipped).toEqual([
      { index: 1, line: 9, reason: 'repeated-frame' },
      { index: 3, reason: 'repeated-frame' },
    ]);
  });

  test.each([16, 32] as const)('rolls over after %d bits', (bits) => {
    const top = 2 ** bits;
    const uplinks = [heard(top - 3, 0), heard(top - 2, 10), heard(1, 40), heard(2, 50)];
    const walk = joinTrack(track, uplinks, { counterBits: bits });
    expect(walk.observations.map(({ counter }) => counter)).toEqual([top - 3, top - 2, top - 1, 0, 1, 2]);
    expect(walk.sessions).toHaveLength(1);
    expect(walk.sessions[0]).toMatchObject({ firstCounter: top - 3, lastCounter: 2, rollOverCount: 1 });
  });

  test('a reset begins anew: the frames since 0 count, no further back than the uplink before', () => {
    const uplinks = [heard(500, 0), heard(501, 10), heard(502, 20), heard(2, 100), heard(3, 110)];
    const walk = joinTrack(track, uplinks);
    expect(walk.observations.map(({ counter, received }) => [counter, received])).toEqual([
      [500, true],
      [501, true],
      [502, true],
      [0, false],
      [1, false],
      [2, true],
      [3, true],
    ]);
    expect(walk.sessions).toHaveLength(2);
    expect(walk.warnings.join()).toContain('began again');
    const late = [heard(500, 0), heard(501, 10), heard(502, 20), heard(400, 40), heard(401, 50)];
    expect(countersOf(late)).toBe('500 501 502 399- 400 401');
  });

  test('a jump that no sender could have made is a new beginning, not a thousand missed frames', () => {
    const uplinks = [heard(1, 10), heard(2, 20), heard(3, 30), heard(9000, 60), heard(9001, 70)];
    const walk = joinTrack(track, uplinks);
    expect(walk.sessions).toHaveLength(2);
    expect(walk.missedFrames).toBeLessThan(5);
  });

  test('a frame that is logged late keeps its place in the sequence', () => {
    const walk = joinTrack(track, [heard(1, 10), heard(2, 20), heard(4, 40), heard(3, 42), heard(5, 50)]);
    expect(walk.sessions).toHaveLength(1);
    expect(walk.missedFrames).toBe(0);
  });

  test('without a counter an uplink has a place, and nothing is inferred', () => {
    const { counter: _, ...bare } = heard(0, 25);
    const walk = joinTrack(track, [bare, heard(1, 10), heard(2, 20)]);
    expect(walk.receivedFrames).toBe(3);
    expect(walk.warnings.join()).toContain('1 uplinks have no counter');
  });
});

describe('the track', () => {
  test('a gap is a guess, and so is a new segment', () => {
    const holed = track.filter((_, index) => index < 10 || index > 20);
    const walk = joinTrack(holed, [heard(1, 10), heard(15, 150)]);
    expect(walk.observations.filter(({ placeIsGuess }) => placeIsGuess)).toHaveLength(6);
    expect(walk.observations[10]).toMatchObject({ trackGapSeconds: 120, placeIsGuess: true });
    expect(walk.guessedPlaceFrames).toBe(6);
    const segments = track.map((point, index) => ({ ...point, segmentIndex: index < 3 ? 0 : 1 }));
    expect(joinTrack(segments, [heard(1, 25)]).observations[0]).toMatchObject({ placeIsGuess: true });
  });

  test('out of order, with repeated times, over the antimeridian', () => {
    const points = [
      { timeUtc: utc(20), latitudeDeg: 0, longitudeDeg: -179.9 },
      { timeUtc: utc(0), latitudeDeg: 0, longitudeDeg: 179.9 },
      { timeUtc: utc(0), latitudeDeg: 9, longitudeDeg: 9 },
    ];
    const walk = joinTrack(points, [heard(1, 5), heard(2, 15)]);
    expect(walk.observations.map(({ longitudeDeg }) => longitudeDeg.toFixed(6))).toEqual([
      '179.950000',
      '-179.950000',
    ]);
    expect(walk.warnings.join()).toMatch(/sorted.*1 track points repeat/);
  });

  test('uplinks off the track are listed', () => {
    const walk = joinTrack(track, [heard(1, -10), heard(2, 0), heard(3, 3601)], {
      firstCounter: 1,
      lastCounter: 3,
    });
    expect(walk.skipped).toEqual([
      { index: 0, reason: 'off-track' },
      { index: 2, reason: 'off-track' },
    ]);
  });
});

describe('choices', () => {
  const two = [
    heard(1, 10, { device: 'a', gateway: 'roof' }),
    heard(1, 10, { device: 'b', gateway: 'roof' }),
    heard(1, 11, { device: 'a', gateway: 'hill' }),
  ];
  test('one node and one gateway at a time', () => {
    expect(refusal(track, two)).toBe('missing device');
    expect(refusal(track, two, { device: 'a' })).toBe('missing gatewayName');
    expect(refusal(track, two, { device: 'c' })).toBe('missing uplinks');
    expect(joinTrack(track, two, { device: 'a', gatewayName: 'hill' }).skipped).toEqual([
      { index: 0, reason: 'other-gateway' },
      { index: 1, reason: 'other-device' },
    ]);
  });
  test.each<[string, unknown]>([
    ['not-a-finite-number periodSeconds', { periodSeconds: Number.NaN }],
    ['out-of-range periodSeconds', { periodSeconds: 0 }],
    ['out-of-range clockOffsetSeconds', { clockOffsetSeconds: 1e6 }],
    ['unknown-option counterBits', { counterBits: 24 }],
    ['out-of-range sent[1].counter', { sent: [{ counter: 1 }, { counter: 1 }] }],
    ['unknown-option firstCounter', { sent: [{ counter: 1 }], firstCounter: 1 }],
    ['wrong-type sent[0].timeUtc', { sent: [{ counter: 1, timeUtc: '2024-07-24 06:00' }] }],
    ['out-of-range node.spreadingFactor', { node: { spreadingFactor: 13 } }],
    ['out-of-range gateway.latitudeDeg', { gateway: { latitudeDeg: 91, longitudeDeg: 0 } }],
    ['wrong-type device', { device: 7 }],
    ['wrong-type options', null],
  ])('%s', (expected, options) => {
    expect(refusal(track, [heard(1, 10)], options)).toBe(expected);
  });
  test('what is no track and no uplink', () => {
    expect(refusal(undefined, [heard(1, 1)])).toBe('wrong-type track');
    expect(refusal(track, [])).toBe('missing uplinks');
    expect(refusal(track, [{ timeUtc: 'noon' }])).toBe('wrong-type uplinks[0].timeUtc');
    expect(refusal([{ timeUtc: utc(0), latitudeDeg: 1 }], [heard(1, 1)])).toBe(
      'not-a-finite-number track[0].longitudeDeg',
    );
  });
});

test('whatever is lost, every uplink and every frame between them is accounted for', () => {
  const frames = fc.array(fc.tuple(fc.boolean(), fc.integer({ min: 0, max: 2 })), {
    minLength: 3,
    maxLength: 60,
  });
  fc.assert(
    fc.property(
      frames,
      fc.integer({ min: 0, max: 65_535 }),
      fc.integer({ min: 3, max: 60 }),
      (log, from, period) => {
        const uplinks = log.flatMap(([isHeard, copies], index) =>
          isHeard || index === 0 || index === log.length - 1
            ? Array.from({ length: 1 + copies }, () => heard((from + index) % 65_536, index * period))
            : [],
        );
        const walk = joinTrack(track, uplinks, { periodSeconds: period, counterBits: 16 });
        expect(walk.receivedFrames + walk.skipped.length).toBe(uplinks.length);
        const off = walk.skipped.filter(({ reason }) => reason === 'off-track').length;
        expect(walk.observations.length + walk.missedOffTrackFrames + off).toBe(log.length);
        for (const { timeUtc, longitudeDeg } of walk.observations) {
          expect(longitudeDeg).toBeCloseTo(longitudeAt(Date.parse(timeUtc) / 1000 - begin), 9);
        }
      },
    ),
    { numRuns: 200 },
  );
});

const gateway = { latitudeDeg: 45.78630402682589, longitudeDeg: 4.879759574389831 };

describe.each(['2024-07-05', '2024-07-24', '2024-07-25'])('a ride measured by others, %s', (day) => {
  const files = ['uplinks.csv', 'gpx', 'frames.csv'].map((end) =>
    sharedData(`lyon-bike/${day}-morning.${end}`),
  );
  const [uplinkText, gpx, frameText] = files;
  test.skipIf(files.includes(undefined))('gives the table of its frames', () => {
    const { uplinks } = readUplinks(uplinkText ?? '', {
      columns: { frequencyHz: { column: 'frequency_mhz', unit: 'MHz' } },
    });
    const { points } = readTrack(gpx ?? '');
    const walk = joinTrack(points, uplinks, {
      dataRate: 'DR0',
      gateway,
      periodSeconds: 9,
      firstCounter: 1,
      toTrackEnd: true,
      node: { spreadingFactor: 12 },
    });
    const { observations: expected } = readSurvey(frameText ?? '');
    const placeless = ({
      timeUtc,
      counter,
      received,
      rssiDbm,
      snrDb,
      spreadingFactor,
    }: (typeof expected)[number]) =>
      [Date.parse(timeUtc ?? ''), counter, received, rssiDbm, snrDb, spreadingFactor].join();
    expect(walk.observations.map(placeless)).toEqual(expected.map(placeless));
    walk.observations.forEach((frame, index) => {
      // The table has 7 decimals of a degree and 0.1 m.
      expect(Math.abs(frame.latitudeDeg - (expected[index]?.latitudeDeg ?? 0))).toBeLessThan(2e-7);
      expect(Math.abs(frame.longitudeDeg - (expected[index]?.longitudeDeg ?? 0))).toBeLessThan(2e-7);
      expect(Math.abs((frame.distanceM ?? 0) - (expected[index]?.distanceM ?? 0))).toBeLessThan(0.11);
    });
    expect(walk.receivedFrames + walk.skipped.length).toBe(uplinks.length);
    expect(walk.skipped.every(({ reason }) => reason === 'other-data-rate')).toBe(true);
    expect(walk.sessions).toHaveLength(1);
    expect(
      walk.warnings.filter((warning) => !warning.includes('guess') && !warning.includes('repeat')),
    ).toEqual([]);
  });
  test.skipIf(files.includes(undefined))('shows its own period, and a track in local time', () => {
    const { uplinks } = readUplinks(uplinkText ?? '', {
      columns: { frequencyHz: { column: 'frequency_mhz', unit: 'MHz' } },
    });
    const { points } = readTrack(gpx ?? '');
    const local = points.map((point) => ({
      ...point,
      timeUtc: new Date(Date.parse(point.timeUtc) + 7_200_000).toISOString(),
    }));
    const walk = joinTrack(local, uplinks, { dataRate: 'DR0', clockOffsetSeconds: 'whole-hours' });
    expect(walk.clockOffsetSeconds).toBe(-7200);
    expect(walk.sessions[0]?.periodSeconds).toBeCloseTo(9, 1);
  });
});

describe('estimateClockOffset', () => {
  /** There and back past the gateway, levels by a law of exponent 3 with a steady ripple of 3 dB. */
  const middle = { latitudeDeg: 45.701, longitudeDeg: longitudeAt(1500) };
  const walked = Array.from({ length: 100 }, (_, index) => {
    const seconds = 300 + 30 * index;
    const metres = Math.hypot((longitudeAt(seconds) - middle.longitudeDeg) * 77_700, 111);
    return heard(index, seconds + 37, {
      rssiDbm: -40 - 30 * Math.log10(metres) + 3 * Math.sin(index * 2.4),
      snrDb: 9,
    });
  });
  test('levels find the seconds', () => {
    const found = estimateClockOffset(track, walked, { method: 'levels', gateway: middle });
    expect(Math.abs(found.offsetSeconds - 37)).toBeLessThanOrEqual(10);
    expect(found.lowerSeconds).toBeLessThanOrEqual(37);
    expect(found.upperSeconds).toBeGreaterThanOrEqual(37);
    expect(found.warnings).toEqual([]);
  });
  test('levels that tell nothing say so', () => {
    const flat = walked.map((uplink) => ({ ...uplink, rssiDbm: -110 }));
    const found = estimateClockOffset(track, flat, { method: 'levels', gateway: middle });
    expect(found.warnings.join()).toContain('do not fix the offset');
  });
  test.each([-5, 0, 2, 13])('%d hours', (hours) => {
    const shifted = walked.map((uplink) => ({
      ...uplink,
      timeUtc: utc(Date.parse(uplink.timeUtc) / 1000 - begin + hours * 3600),
    }));
    const found = estimateClockOffset(track, shifted);
    expect(found).toMatchObject({ offsetSeconds: hours * 3600, onTrackFrames: 100, warnings: [] });
  });
  test('any whole number of hours is found', () => {
    fc.assert(
      fc.property(fc.integer({ min: -13, max: 13 }), (hours) => {
        const shifted = walked.map((uplink) => ({
          ...uplink,
          timeUtc: utc(Date.parse(uplink.timeUtc) / 1000 - begin + hours * 3600),
        }));
        expect(estimateClockOffset(track, shifted).offsetSeconds).toBe(hours * 3600);
      }),
    );
  });
  test('too few levels, and no gateway', () => {
    const refuse = (uplinks: readonly Uplink[], options: object): unknown => {
      try {
        return estimateClockOffset(track, uplinks, options);
      } catch (error) {
        return isInputError(error) ? `${error.code} ${error.argument}` : error;
      }
    };
    expect(refuse(walked, { method: 'levels' })).toBe('missing gateway');
    expect(refuse(walked.slice(0, 7), { method: 'levels', gateway: middle })).toBe('missing uplinks');
    expect(refuse(walked, { reachSeconds: 4000 })).toBe('out-of-range reachSeconds');
  });
});
