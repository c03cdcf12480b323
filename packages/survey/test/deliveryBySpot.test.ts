import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import shared from '../../../tests/reference/survey-vectors.json' with { type: 'json' };
import { deliveryBySpot, deliveryRatio, type Observation, readSurvey } from '../src/index.js';
import { sharedData } from './sharedData.js';

const at = (spot: string, received: boolean, more: Partial<Observation> = {}): Observation => ({
  spot,
  latitudeDeg: 45,
  longitudeDeg: 5,
  received,
  ...more,
});

test('spots of the published-style case: counts, Wilson interval by R', () => {
  // 18 of 20 at 99 %: survey-vectors, proportion.
  const want = shared.proportion.cases.find(({ received, sent }) => received === 18 && sent === 20);
  const frames = Array.from({ length: 20 }, (_, index) => at('bench', index !== 3 && index !== 9));
  const [bench, gate] = deliveryBySpot([at('gate', true), ...frames], { confidence: 0.99 }).toReversed();
  expect(bench).toMatchObject({ spot: 'bench', sent: 20, received: 18, missed: 2 });
  expect(bench?.lowerRatio).toBeCloseTo(want?.wilson[0] ?? NaN, 12);
  expect(bench?.upperRatio).toBeCloseTo(want?.wilson[1] ?? NaN, 12);
  expect(gate).toMatchObject({ spot: 'gate', sent: 1, received: 1 });
});

test('place, distance and levels of a spot', () => {
  const frames = [
    at('a', true, { rssiDbm: -100, snrDb: 0, latitudeDeg: 45.001, distanceM: 110 }),
    at('a', true, { rssiDbm: -104, snrDb: 0, latitudeDeg: 45.003, distanceM: 330 }),
    at('a', true, { rssiDbm: -90 }),
    at('a', false, { latitudeDeg: 45.004 }),
  ];
  const [spot] = deliveryBySpot(frames);
  expect(spot?.latitudeDeg).toBeCloseTo(45.002, 9);
  expect(spot?.distanceM).toBeCloseTo(220, 9);
  expect(spot?.meanRssiDbm).toBeCloseTo(-98, 9);
  expect(spot?.meanSnrDb).toBe(0);
  // Equal signal and noise: 10 lg 2 under the mean of the two frames that have an SNR.
  expect(spot?.meanEffectiveSignalPowerDbm).toBeCloseTo(-102 - 3.0103, 4);
  const [withGateway] = deliveryBySpot(frames, { gateway: { latitudeDeg: 45, longitudeDeg: 5 } });
  // 0.002 degrees of latitude at 111 195.08 m a degree.
  expect(withGateway?.distanceM).toBeCloseTo(222.39, 2);
});

test('what is not known is absent, not zero', () => {
  const [spot] = deliveryBySpot([at('a', false)]);
  expect(spot).not.toHaveProperty('meanRssiDbm');
  expect(spot).not.toHaveProperty('distanceM');
});

test('a spot on the 180th meridian stays there', () => {
  const frames = [179.999, -179.999, -179.997].map((longitudeDeg) => at('isle', true, { longitudeDeg }));
  expect(deliveryBySpot(frames)[0]?.longitudeDeg).toBeCloseTo(-179.999, 9);
});

test('no frame is lost or counted twice', () => {
  const frame = fc.record({
    spot: fc.constantFrom('a', 'b', '__proto__', 'constructor'),
    received: fc.boolean(),
  });
  fc.assert(
    fc.property(fc.array(frame, { minLength: 1, maxLength: 60 }), (frames) => {
      const observations = frames.map(({ spot, received }) => at(spot, received));
      const spots = deliveryBySpot(observations);
      const all = deliveryRatio(observations);
      expect(spots.reduce((sum, { sent }) => sum + sent, 0)).toBe(all.sent);
      expect(spots.reduce((sum, { received }) => sum + received, 0)).toBe(all.received);
      expect(spots.map(({ spot }) => spot)).toEqual([...new Set(frames.map(({ spot }) => spot))]);
    }),
  );
});

const brno = sharedData('brno-drive/LoRaWAN_Brno.csv');
test.skipIf(brno === undefined)('brno-drive: 6670 rows at 291 places', () => {
  const columns = { latitudeDeg: 'Lat', longitudeDeg: 'Lon', rssiDbm: 'RSSI', snrDb: 'SNR' };
  const { observations } = readSurvey(brno ?? '', { receivedOnly: true, columns });
  expect(deliveryBySpot(observations, { by: 'position' })).toHaveLength(
    shared.realData.sets['brno-drive'].places,
  );
});

describe('refusals', () => {
  test.each([
    [[{ ...at('a', true), spot: undefined }], {}, 'observations[0].spot', 'missing'],
    [[at('a', true)], { by: 'day' }, 'by', 'unknown-option'],
    [
      [at('a', true)],
      { gateway: { latitudeDeg: 0, longitudeDeg: NaN } },
      'gateway.longitudeDeg',
      'not-a-finite-number',
    ],
    [[at('a', true)], { confidence: 0 }, 'confidence', 'out-of-range'],
    [[at('a', true)], null, 'options', 'wrong-type'],
    [[], {}, 'observations', 'missing'],
    [[at('', true)], {}, 'observations[0].spot', 'wrong-type'],
  ])('case %#', (observations, options, argument, code) => {
    expect(() => deliveryBySpot(observations as never, options as never)).toThrow(
      expect.objectContaining({ argument, code }),
    );
  });
});
