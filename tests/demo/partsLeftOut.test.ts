import { type Dossier, renderHtml } from '@finial/dossier';
import { beforeAll, describe, expect, test } from 'vitest';
import { islandDossier } from './islandDossier.js';

// A dossier holds less where a plan says less: each page must read well without what may be missing.
let dossier: Dossier;
beforeAll(async () => {
  dossier = await islandDossier();
}, 60_000);

/** The dossier with a value put elsewhere in it; the path names keys and indices. */
function put(path: string, value: unknown, from: Dossier = dossier): Dossier {
  const copy = structuredClone(from) as unknown as Record<string, unknown>;
  const steps = path.split('.');
  const last = steps.pop() ?? '';
  let place = copy;
  for (const step of steps) place = place[step] as Record<string, unknown>;
  expect(place, path).toBeTypeOf('object');
  place[last] = value;
  return copy as unknown as Dossier;
}

const without = (...paths: readonly string[]) =>
  paths.reduce((from, path) => put(path, undefined, from), dossier);
const cases: readonly (readonly [string, () => Dossier])[] = [
  ['no sweep of the antenna', () => put('antenna.cuts', [], without('antenna.sweep', 'antenna.trim'))],
  [
    'a sweep without resonance',
    () =>
      without(
        'antenna.sweep.resonanceHz',
        'antenna.sweep.tenDbBand',
        'antenna.cuts.1.resonanceHz',
        'antenna.cuts.1.targetVswr',
        'antenna.cuts.1.elementLengthM',
      ),
  ],
  [
    'a sweep without phase',
    () => without('antenna.cuts.3.curves.resistanceOhm', 'antenna.cuts.3.curves.reactanceOhm'),
  ],
  [
    'a band that begins below the sweep',
    () => without('antenna.sweep.tenDbBand.lowerHz', 'antenna.sweep.tenDbBand.upperHz'),
  ],
  ['no supply', () => without('site.supply')],
  ['no box', () => without('site.box')],
  ['no mast', () => without('site.mast')],
  [
    'a line that does not carry a state',
    () =>
      put(
        'site.supply.works',
        false,
        without(
          'site.supply.states.0.loadV',
          'site.supply.states.0.currentA',
          'site.supply.states.0.marginV',
        ),
      ),
  ],
  ['a box that is cool enough', () => put('site.box.marginK', 12)],
  ['a vented box', () => without('site.moisture.neededUnitsCount')],
  ['no other cables', () => without('feedline.choices')],
  ['other runs that join', () => put('feedline.otherRuns.0.joins', true)],
  [
    'another run with several faults',
    () =>
      put(
        'feedline.otherRuns.0.joints',
        dossier.feedline?.otherRuns[0]?.joints.map((joint) => ({ ...joint, mates: false })),
      ),
  ],
  ['no data rate that is heard', () => put('coverage.bands', [])],
  ['no points to serve', () => put('coverage.sites.points', [])],
  ['no other sites', () => without('coverage.sites')],
  ['no ground to the spots', () => put('terrain.places', [])],
  ['no relief', () => without('terrain.relief')],
  ['no scores after correction', () => without('calibration.after')],
  [
    'a spot off the map and without distance',
    () => put('calibration.residuals.0.latitudeDeg', 42, without('calibration.residuals.0.distanceM')),
  ],
  ['a spot of the walk off the map', () => put('walk.spots.0.latitudeDeg', 42)],
  ['a law that rises with distance', () => put('walk.fit.exponent', -0.5)],
  ['no law', () => without('walk.fit')],
  ['no statement', () => without('walk.statement')],
  ['no days of the beacon', () => put('beacon.days', [])],
  [
    'a beacon of which nothing could be used',
    () => put('beacon.points', [], without('beacon.fromSeconds', 'beacon.untilSeconds', 'beacon.drift')),
  ],
  [
    'a change that is over',
    () => put('beacon.drift.alarms.0.endSeconds', (dossier.beacon?.untilSeconds ?? 0) - 3600),
  ],
  [
    'a rise at once',
    () =>
      put(
        'beacon.drift.alarms',
        dossier.beacon?.drift?.alarms.flatMap((alarm) => [
          alarm,
          { ...alarm, direction: 'rise', shape: 'step', changeDb: 4 },
        ]),
      ),
  ],
  ['several silences', () => put('beacon.drift.outages', Array(3).fill(dossier.beacon?.drift?.outages[0]))],
  ['no finding', () => put('verdict.findings', [])],
  [
    'one note alone',
    () =>
      put(
        'verdict.findings',
        dossier.verdict.findings.filter(({ severity }) => severity === 'note').slice(0, 1),
      ),
  ],
  [
    'findings without a note',
    () =>
      put(
        'verdict.findings',
        dossier.verdict.findings.filter(({ severity }) => severity !== 'note'),
      ),
  ],
  ['a frame that fits no data rate', () => put('law.dataRates.0.airtimeSeconds', undefined)],
];

describe('a page without what may be missing', () => {
  test.each(cases)('%s', (_, changed) => {
    const page = renderHtml(changed());
    expect(page).not.toMatch(/undefined|NaN|Infinity|\[object/);
    for (const tag of ['section', 'figure', 'table', 'svg', 'ul', 'p', 'div']) {
      const count = (pattern: RegExp) => page.match(pattern)?.length ?? 0;
      expect(count(new RegExp(`<${tag}[\\s>]`, 'g')), tag).toBe(count(new RegExp(`</${tag}>`, 'g')));
    }
    expect(page).not.toBe(renderHtml(dossier));
  });
});
