import type { ExposureDistance } from '@finial/radio';
import type { Finding, Severity } from '@finial/units';
import type { AntennaPart } from './antennaPart.js';
import type { BeaconPart } from './beaconPart.js';
import type { CalibrationPart } from './calibrationPart.js';
import type { CoveragePart } from './coveragePart.js';
import type { FeedlinePart } from './feedlinePart.js';
import type { LawPart } from './lawPart.js';
import type { LinkBudgetPart } from './linkBudgetPart.js';
import type { Plan } from './plan.js';
import type { SitePart } from './sitePart.js';
import type { TerrainPart } from './terrainPart.js';
import type { WalkPart } from './walkPart.js';

/** The sum of all findings. */
export interface Verdict {
  /** The gravest finding, or `clear`. */
  readonly severity: Severity | 'clear';
  /** One sentence for a person. */
  readonly sentence: string;
  /** All findings, gravest first. */
  readonly findings: readonly Finding[];
}

/** A part that the plan gives no file for. */
export interface MissingPart {
  /** Name of the part. */
  readonly part: string;
  /** What the file would add, and the key of the plan that names it. */
  readonly adds: string;
}

/** Everything that a plan and its files say, as plain data. */
export interface Dossier {
  /** Tells this kind of file from others. */
  readonly format: 'finial-dossier';
  /** Version of this format. */
  readonly version: 1;
  /** The plan it was computed from. */
  readonly plan: Plan;
  /** What must stop, what to fix. */
  readonly verdict: Verdict;
  /** The link budget both ways. */
  readonly linkBudget: LinkBudgetPart;
  /** Power, airtime and intervals against the law. */
  readonly law: LawPart;
  /** How far people keep from the antenna. */
  readonly exposure: ExposureDistance;
  /** The feedline; absent where the plan states its loss only. */
  readonly feedline?: FeedlinePart | undefined;
  /** The antenna; absent where the plan says nothing of it. */
  readonly antenna?: AntennaPart | undefined;
  /** Supply, heat and wind; absent where the plan says nothing of the site. */
  readonly site?: SitePart | undefined;
  /** The ground; absent where the plan names no elevation files. */
  readonly terrain?: TerrainPart | undefined;
  /** The predicted coverage; absent where the plan asks for none. */
  readonly coverage?: CoveragePart | undefined;
  /** The walk; absent where the plan names none. */
  readonly walk?: WalkPart | undefined;
  /** The prediction set against the walk; absent where one of the two is. */
  readonly calibration?: CalibrationPart | undefined;
  /** The long watch of a fixed node; absent where the plan names none. */
  readonly beacon?: BeaconPart | undefined;
  /** Parts that the plan gives no file for. */
  readonly missing: readonly MissingPart[];
  /** What was taken for granted. */
  readonly assumptions: readonly string[];
  /** Documents behind the numbers. */
  readonly sources: readonly string[];
}
