import { exposureDistance } from '@finial/radio';
import { type Survey, spotTable } from '@finial/survey';
import { type Finding, InputError } from '@finial/units';
import { antennaPart } from './antennaPart.js';
import { beaconPart } from './beaconPart.js';
import { builtPlan } from './builtPlan.js';
import { calibrationPart } from './calibrationPart.js';
import { coveragePart, type SweptCoverage } from './coveragePart.js';
import type { Dossier, MissingPart, Verdict } from './Dossier.js';
import { feedlinePart } from './feedlinePart.js';
import { lawPart } from './lawPart.js';
import { linkBudgetPart } from './linkBudgetPart.js';
import type { NamedPlace } from './placePaths.js';
import type { Plan } from './plan.js';
import { sitePart } from './sitePart.js';
import { type TerrainPart, terrainPart } from './terrainPart.js';
import { readWalk, type SpotSummary, type WalkPart, walkPart } from './walkPart.js';

/** The files that a plan names, by the name it gives them: a text, or the bytes of one in UTF-8. */
export type PlanFiles = Readonly<Record<string, string | Uint8Array>>;

/** A step of the work, for progress bars. */
export interface Progress {
  /** What is being computed. */
  readonly step: string;
  /** Share of the steps that are done, 0 to 1. */
  readonly doneRatio: number;
}

/** Options of {@link assembleDossier}. */
export interface AssembleOptions {
  /** Stops the work; the promise is then rejected with the signal's reason. */
  readonly signal?: AbortSignal | undefined;
  /** Called before each step and once at the end. */
  readonly onProgress?: ((progress: Progress) => void) | undefined;
  /** Given the raster of the predicted coverage, which the dossier is too small for: to be written as a GeoTIFF, for example. */
  readonly onCoverage?: ((swept: SweptCoverage) => void) | undefined;
  /** Given the frames of the walk as they were read: to be written as CSV in normal form, for example. */
  readonly onSurvey?: ((survey: Survey) => void) | undefined;
}

/**
 * Computes the dossier of a gateway: link budget, law, exposure and walk, with all findings in one list.
 *
 * It composes the other packages and has no model of its own. A part that the plan names no file for is left out and
 * listed under `missing`.
 *
 * @param stated - a plan as {@link parsePlan} returns it
 * @param files - contents of the files that the plan names
 * @returns plain data: `JSON.stringify` keeps all of it
 * @throws {@link InputError} `missing` when a file that the plan names is not there, and whatever the parts refuse
 * @example A plan without a walk
 * ```ts
 * import { assembleDossier, parsePlan } from '@finial/dossier';
 *
 * const plan = parsePlan(`{
 *   "version": 1, "name": "Chapel loft", "region": "EU868", "jurisdiction": "EU",
 *   "gateway": {
 *     "position": { "latitudeDeg": 41.2, "longitudeDeg": -37.4 }, "antennaHeightM": 9,
 *     "conductedPowerDbm": 14, "feedlineLossDb": 1.5, "antennaGainDbi": 2.15, "noiseFigureDb": 4
 *   },
 *   "node": {
 *     "heightM": 1.5, "conductedPowerDbm": 14, "antennaGainDbi": -2, "noiseFigureDb": 6,
 *     "uplink": { "dataRate": 3, "frequencyHz": 868100000, "applicationBytes": 12 }, "intervalSeconds": 600
 *   },
 *   "link": { "distanceM": 3000 }
 * }`);
 * const dossier = await assembleDossier(plan, {});
 * dossier.linkBudget.freeSpaceLossDb; // ≈ 100.76
 * ```
 */
export async function assembleDossier(
  stated: Plan,
  files: PlanFiles,
  options: AssembleOptions = {},
): Promise<Dossier> {
  const step = stepper(9, options);
  await step('feedline');
  const feedline =
    stated.feedline &&
    feedlinePart(stated, stated.feedline, (file) => textOf(files, file, 'feedline.catalogue'));
  await step('site');
  const site = stated.site && sitePart(stated, stated.site);
  const survey = stated.walk && readWalk(stated.walk, textOf(files, stated.walk.file, 'walk.file'));
  const spots = survey ? spotTable(survey.observations, { gateway: stated.gateway.position }) : [];
  if (survey) options.onSurvey?.(survey);
  await step('terrain');
  const ground =
    stated.terrain &&
    (await terrainPart(
      stated,
      stated.terrain,
      (file) => bytesOf(files, file, 'terrain.elevation'),
      placesOf(stated, spots),
      options.signal,
    ));
  const terrain = ground?.part;
  const plan = builtPlan(stated, feedline, terrain);
  await step('antenna');
  const antenna =
    plan.antenna && antennaPart(plan, plan.antenna, (file) => textOf(files, file, 'antenna.sweeps'));
  await step('link budget');
  const linkBudget = linkBudgetPart(plan, terrain?.path, antenna?.pattern);
  await step('law');
  const law = lawPart(plan);
  const exposure = exposureDistance({
    eirpDbm: linkBudget.downlink.eirpDbm,
    frequencyHz: plan.gateway.downlink?.frequencyHz ?? plan.node.uplink.frequencyHz,
    limit: plan.jurisdiction === 'US' ? 'fcc-general' : 'icnirp-2020-general',
  });
  await step('coverage');
  const swept =
    ground &&
    plan.terrain?.coverage &&
    (await coveragePart(
      plan,
      plan.terrain,
      plan.terrain.coverage,
      { elevation: ground.elevation, pattern: antenna?.pattern },
      options.signal,
    ));
  if (swept) options.onCoverage?.(swept);
  const coverage = swept?.part;
  await step('walk');
  const calibration = swept && survey && calibrationPart(plan, swept, survey.observations);
  const walk = plan.walk && survey && walkPart(plan, plan.walk, survey, spots, calibration?.verdict);
  await step('beacon');
  const beacon = plan.beacon && beaconPart(plan.beacon, textOf(files, plan.beacon.file, 'beacon.file'));
  await step('done');
  return {
    format: 'finial-dossier',
    version: 1,
    plan: stated,
    verdict: verdictOf([
      ...linkBudget.findings,
      ...law.findings,
      ...exposure.findings,
      ...(feedline?.findings ?? []),
      ...(site?.findings ?? []),
      ...(terrain?.findings ?? []),
      ...(coverage?.findings ?? []),
      ...(antenna?.findings ?? []),
      ...(walk?.findings ?? []),
      ...(calibration?.findings ?? []),
      ...(beacon?.findings ?? []),
    ]),
    linkBudget,
    law,
    exposure,
    feedline,
    antenna,
    site,
    terrain,
    coverage,
    walk,
    calibration,
    beacon,
    missing: missingParts(stated),
    assumptions: assumptionsOf(terrain, walk),
    sources,
  };
}

/** The points that should be served and the spots of the walk. */
function placesOf({ terrain }: Plan, spots: readonly SpotSummary[]): NamedPlace[] {
  return [
    ...(terrain?.coverage?.points ?? []),
    ...spots.map(({ spot, latitudeDeg, longitudeDeg }) => ({
      name: spot,
      position: { latitudeDeg, longitudeDeg },
    })),
  ];
}

/** Reports each step, and gives timers, clicks and signals a turn before it. */
function stepper(steps: number, { signal, onProgress }: AssembleOptions): (name: string) => Promise<void> {
  let done = 0;
  return async (name) => {
    onProgress?.({ step: name, doneRatio: done / steps });
    done += 1;
    await new Promise((resume) => setTimeout(resume, 0));
    signal?.throwIfAborted();
  };
}

function textOf(files: PlanFiles, name: string, argument: string): string {
  const content = contentOf(files, name, argument);
  return typeof content === 'string' ? content : new TextDecoder('utf-8').decode(content);
}

function bytesOf(files: PlanFiles, name: string, argument: string): Uint8Array {
  const content = contentOf(files, name, argument);
  return typeof content === 'string' ? new TextEncoder().encode(content) : content;
}

function contentOf(files: PlanFiles, name: string, argument: string): string | Uint8Array {
  const content = Object.hasOwn(files, name) ? files[name] : undefined;
  if (content === undefined) {
    throw new InputError({ code: 'missing', argument, received: name, expected: 'a file that is there' });
  }
  return content;
}

function missingParts(plan: Plan): MissingPart[] {
  const missing: MissingPart[] = [];
  if (plan.feedline === undefined) {
    const adds =
      'List the parts of the run under "feedline" to see what each loses, whether they join, and which cable would be better.';
    missing.push({ part: 'feedline', adds });
  }
  if (plan.antenna?.sweeps === undefined) {
    const adds = 'Name sweeps under "antenna" to see where the antenna resonates and how much to trim.';
    missing.push({ part: 'antenna sweep', adds });
  }
  if (plan.site === undefined) {
    const adds =
      'Describe supply line, box and mast under "site" to see the voltage that arrives, the heat of a summer day and the ballast for a storm.';
    missing.push({ part: 'site', adds });
  }
  if (plan.terrain === undefined) {
    const adds =
      'Name elevation files under "terrain" to see the ground between gateway and node, and the skyline.';
    missing.push({ part: 'terrain', adds });
  }
  if (plan.walk === undefined) {
    const adds =
      'Name a walk log under "walk" to see where a node was really heard, spot by spot, and at which level.';
    missing.push({ part: 'walk', adds });
  }
  if (plan.beacon === undefined) {
    const adds =
      'Name the log of a fixed node under "beacon" to see whether the gateway hears worse than it did: water, corrosion, a turned antenna.';
    missing.push({ part: 'beacon', adds });
  }
  return missing;
}

const gravity = { stop: 0, fix: 1, note: 2 } as const;

function verdictOf(findings: readonly Finding[]): Verdict {
  const sorted = [...findings].sort((a, b) => gravity[a.severity] - gravity[b.severity]);
  const count = (severity: Finding['severity']) =>
    sorted.filter((finding) => finding.severity === severity).length;
  return {
    severity: sorted[0]?.severity ?? 'clear',
    sentence: sentenceOf(count('stop'), count('fix')),
    findings: sorted,
  };
}

function sentenceOf(stops: number, fixes: number): string {
  const things = (count: number) => (count === 1 ? 'one thing' : `${count} things`);
  if (stops > 0)
    return `Do not go on air yet: ${things(stops)} must stop${fixes > 0 ? `, ${things(fixes)} to fix` : ''}.`;
  if (fixes > 0) return `Nothing forbids this gateway; ${things(fixes)} to fix.`;
  return 'Nothing found that forbids or spoils this gateway.';
}

function assumptionsOf(terrain: TerrainPart | undefined, walk: WalkPart | undefined): string[] {
  const always = [
    terrain?.path
      ? 'The path loss is a median for places like this one, over the ground of the elevation files; one place may differ by several dB, and the model may err.'
      : 'The link budget runs over free space and the further losses that the plan names; terrain is not part of it.',
    'Required SNR is the demodulator limit of each spreading factor at about 1 % frame loss, without interference.',
    'The man-made noise of the plan is taken as the same at every hour.',
  ];
  if (walk === undefined) return always;
  return [
    ...always,
    'Frames of one spot share their shadowing; the intervals by spot hold for that spot, not for the streets between.',
    'A missed frame counts as not heard, whatever the cause: distance, collision or a busy gateway.',
  ];
}

const sources: readonly string[] = [
  'Free space: Recommendation ITU-R P.525, exact form.',
  'Ground: geodesics on WGS 84 (Karney, Journal of Geodesy 87 (2013) 43); loss by Recommendation ITU-R P.1812-8 (09/2025).',
  'Noise: k T B at 290 K and the receiver noise figure; Friis, Proceedings of the IRE 32 (1944) 419.',
  'Time on air and required SNR: SX1276/77/78/79 and SX1261/2 data sheets.',
  'Feedline: two-term attenuation law over the catalogue rows, whose status and source each row names; mating by IEC 61169 and MIL-STD-348.',
  'Antenna: sweeps as the Touchstone specification reads them; slopes of trimming from NEC-2 models; array pattern after Balanis.',
  'Regional parameters: LoRaWAN RP002; the rows name edition and status.',
  'Law: ERC/REC 70-03 and EN 300 220-2 (EU), 47 CFR 15.247 (US); each finding names its clause.',
  'Supply: IEC 60228, ASTM B258. Heat: Meeus (sun), energy balance of box and walls. Wind: ASCE 7, EN 1991-1-4; drag coefficients as each row says.',
  'Exposure: 47 CFR 1.1310; ICNIRP Guidelines 2020.',
  'Law of distance with missed frames: Tobin, Econometrica 26 (1958) 24; Olsen, Econometrica 46 (1978) 1211. Statement: Clopper and Pearson, Biometrika 26 (1934) 404.',
  'Beacon: cumulative sum (Page, Biometrika 41 (1954) 100) and weighted mean (Roberts, Technometrics 1 (1959) 239) on what temperature does not explain.',
  'Calibrated map: kriging with an exponential covariance (Gudmundson, Electronics Letters 27 (1991) 2145).',
  'Intervals of delivery: Wilson, Journal of the American Statistical Association 22 (1927) 209.',
];
