import { p1812 } from '@finial/propagation';
import { describe, expect, test } from 'vitest';
import own from '../../../tests/reference/propagation-own.json' with { type: 'json' };
import {
  comparedCount,
  differences,
  pathOf,
  settingsOf,
  type ValidationCase,
  type ValidationProfile,
} from './p1812Cases.js';
import { sharedReference } from './sharedReference.js';

function predictionOf(profile: ValidationProfile, found: ValidationCase): p1812.Prediction {
  const lengthKm = profile.profile.distanceKm.at(-1) as number;
  return p1812.basicTransmissionLoss(pathOf(profile, found), settingsOf(found, lengthKm));
}

const ownProfiles = own.profiles as unknown as readonly ValidationProfile[];

// Source: computed with the reference implementation of P.1812-8 that the author of the ITU-R SG 3 code published (named in the file).
describe('basicTransmissionLoss against the reference implementation on profiles of our own', () => {
  const rows = ownProfiles.flatMap((profile) =>
    profile.cases.map((found) => ({ id: found.id, profile, found })),
  );

  test('the file still holds its cases', () => {
    expect(rows).toHaveLength(46);
    expect(comparedCount).toBe(50);
  });

  // Measured: no value is off by more than 1e-12.
  test.each(rows)('$id', ({ profile, found }) => {
    expect(differences(predictionOf(profile, found), found, 1e-9)).toEqual([]);
  });

  test('a value that is off is found', () => {
    const [{ profile, found }] = rows as [(typeof rows)[number]];
    const prediction = predictionOf(profile, found);
    expect(differences({ ...prediction, lossDb: prediction.lossDb + 1e-6 }, found, 1e-9)).toHaveLength(1);
    expect(differences({ ...prediction, lossDb: Number.NaN }, found, 1e-9)).toHaveLength(1);
  });

  test.each(rows)('$id: the field strength of the published power', ({ found: { input, expected } }) => {
    const erpDbm = 60 + 10 * Math.log10(input.txErpKw);
    const frequencyHz = input.frequencyGHz * 1e9;
    const field = p1812.fieldStrengthDbuvPerM({ frequencyHz, lossDb: expected['LbDb'] as number, erpDbm });
    expect(field).toBeCloseTo(expected['EpDbuVm'] as number, 9);
  });

  // The published coast distances of these profiles follow from their zones.
  test.each(rows.filter(({ id }) => /coastal|all_sea|bay/.test(id)))('$id: coasts from the zones', (row) => {
    const { profile, found } = row;
    const given = predictionOf(profile, found);
    const { transmitterCoastDistanceM, receiverCoastDistanceM, ...settings } = settingsOf(
      found,
      profile.profile.distanceKm.at(-1) as number,
    );
    const derived = p1812.basicTransmissionLoss(pathOf(profile, found), settings);
    expect(derived.transmitterCoastDistanceM).toBeCloseTo(transmitterCoastDistanceM as number, 6);
    expect(derived.receiverCoastDistanceM).toBeCloseTo(receiverCoastDistanceM as number, 6);
    expect(derived.lossDb).toBeCloseTo(given.lossDb, 9);
  });
});

const published = [
  'b2iseac',
  'b2iseac_dense_urban_land_eqdist',
  'b2iseac_eqdist_vertical',
  'b2iseac_rural_land_100km',
  'b2iseac_rural_land_10km_eqdist',
  'b2iseac_rural_land_1km',
  'rburg',
  'rburg_rural_noclutter_los',
  'rburg_urban_with_clutter',
];

// Source: validation profiles and logs of the reference implementations of P.1812-6 and -8 (10 digits).
describe.each(published)('basicTransmissionLoss against the published validation of %s', (name) => {
  const text = sharedReference(`p1812_${name}.json`);
  test.skipIf(text === undefined)('every value of every case', () => {
    const profile = JSON.parse(text as string) as ValidationProfile;
    expect(profile.cases.length).toBeGreaterThanOrEqual(3);
    for (const found of profile.cases) {
      expect(differences(predictionOf(profile, found), found, 1e-7), found.id).toEqual([]);
    }
  });
});

// Source: computed with the reference implementation of P.1812-8, profiles cut short at their points.
describe.each(['b2iseac_eqdist', 'rburg_urban'])('basicTransmissionLoss on cut profiles of %s', (name) => {
  const text = sharedReference(`sweep_${name}.json`);
  test.skipIf(text === undefined)('every receiver', () => {
    const sweep = JSON.parse(text as string) as CutProfiles;
    expect(sweep.receivers.length).toBeGreaterThan(100);
    const latitude = sweep.columns.indexOf('pathCentreLatDeg');
    for (const receiver of sweep.receivers) {
      const [index, lossDb] = receiver as [number, number];
      const found = p1812.basicTransmissionLoss(cutPath(sweep, index), {
        ...cutSettings(sweep, index),
        centreLatitudeDeg: receiver[latitude] as number,
      });
      expect(Math.abs(found.lossDb - lossDb), `point ${index}`).toBeLessThan(1e-7);
    }
  });
});

interface CutProfiles extends Pick<ValidationProfile, 'profile'> {
  readonly input: ValidationCase['input'];
  readonly columns: readonly string[];
  readonly receivers: readonly (readonly number[])[];
}

function cutPath({ profile, input }: CutProfiles, index: number) {
  const cut = (series: readonly number[]) => series.slice(0, index + 1);
  return pathOf(
    {
      profileId: 'cut',
      cases: [],
      profile: {
        distanceKm: cut(profile.distanceKm),
        heightM: cut(profile.heightM),
        clutterHeightM: cut(profile.clutterHeightM),
        zone: cut(profile.zone),
      },
    },
    { id: 'cut', input, expected: {} },
  );
}

/** The runs took 500 km for both coasts, and 0 for an end at sea. */
function cutSettings({ input, profile }: CutProfiles, index: number) {
  const coastM = (point: number) => (profile.zone[point] === 1 ? 0 : 500e3);
  return {
    transmitterCoastDistanceM: coastM(0),
    receiverCoastDistanceM: coastM(index),
    timePercent: input.timePercent,
    locationPercent: input.locationPercent,
    deltaN: input.deltaN,
    surfaceRefractivity: input.n0,
  };
}
