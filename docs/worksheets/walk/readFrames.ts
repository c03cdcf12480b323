import {
  estimateClockOffset,
  type JoinTrackOptions,
  joinTrack,
  type Observation,
  planeOffset,
  readSurvey,
  readTrack,
  readUplinks,
  type SkippedRow,
  type Survey,
  type TrackPoint,
  type Uplink,
} from '@finial/survey';
import { checkRange, type Finding, InputError } from '@finial/units';
import type { Position } from '../../../packages/dossier/src/position.js';
import type { SheetFile, SheetFiles } from '../frame/sheet.js';
import type { WalkValues } from './walkValues.js';

/** A file as text. */
export interface TextFile {
  readonly name: string;
  readonly text: string;
}

/** The frames of a walk, wherever they came from. */
export interface WalkFrames extends Survey {
  /** The files that they came from. */
  readonly files: readonly TextFile[];
  /** How track and uplinks were joined, where they were. */
  readonly join?: JoinTrackOptions | undefined;
  /** Uplinks that are good and yet in no frame: repeated, off the track, of another node. */
  readonly leftOut: readonly { readonly line?: number | undefined; readonly reason: string }[];
  /** Whether frames got the square they lie in for a spot. */
  readonly isInSquares: boolean;
  readonly findings: readonly Finding[];
}

/** Reads the log, or joins the track and the gateway's log. */
export function readFrames(
  values: WalkValues,
  files: SheetFiles,
  gateway: Position,
  spreadingFactor: number,
): WalkFrames {
  const frames =
    values.source === 'log'
      ? framesOfLog(values, files)
      : framesOfTrack(values, files, gateway, spreadingFactor);
  checkRange(values.squareM, 'squareM', { min: 10, max: 10_000, unit: 'metres' });
  const isInSquares = frames.observations.some(({ spot }) => spot === undefined);
  const observations = isInSquares
    ? inSquares(frames.observations, gateway, values.squareM)
    : frames.observations;
  return { ...frames, observations, isInSquares };
}

type ReadFrames = Omit<WalkFrames, 'isInSquares'>;

function framesOfLog(values: WalkValues, files: SheetFiles): ReadFrames {
  const file = textOf(files['log']);
  const survey = readSurvey(file.text, { ...tableOptions(values, file), receivedOnly: values.receivedOnly });
  return { ...survey, leftOut: [], files: [file], findings: [] };
}

function framesOfTrack(
  values: WalkValues,
  files: SheetFiles,
  gateway: Position,
  spreadingFactor: number,
): ReadFrames {
  const [trackFile, uplinkFile] = [textOf(files['track']), textOf(files['uplinks'])];
  const track = readTrack(trackFile.text, tableOptions(values, trackFile));
  const log = readUplinks(uplinkFile.text, tableOptions(values, uplinkFile));
  const join: JoinTrackOptions = {
    gateway,
    clockOffsetSeconds: clockOffset(values, track.points, log.uplinks, gateway),
    toTrackEnd: values.toTrackEnd,
    node: { spreadingFactor },
  };
  const joined = joinTrack(track.points, log.uplinks, join);
  const skipped = [...inFile(trackFile, track.skipped), ...inFile(uplinkFile, log.skipped)];
  return {
    observations: joined.observations,
    skipped,
    leftOut: joined.skipped.map(({ line, reason }) => ({ line, reason: reason.replaceAll('-', ' ') })),
    rows: joined.observations.length + skipped.length,
    files: [trackFile, uplinkFile],
    join: { ...join, clockOffsetSeconds: joined.clockOffsetSeconds },
    findings: joined.warnings.map((message) => ({
      rule: 'track-join',
      severity: 'note',
      message,
      source: 'the track and the log of the gateway',
    })),
  };
}

/** Two files have the same lines: the reason says which it was. */
function inFile({ name }: TextFile, rows: readonly SkippedRow[]): SkippedRow[] {
  return rows.map((row) => ({ ...row, reason: `${name}: ${row.reason}` }));
}

function clockOffset(
  { clock, clockOffsetSeconds }: WalkValues,
  track: readonly TrackPoint[],
  uplinks: readonly Uplink[],
  gateway: Position,
): number | 'whole-hours' {
  switch (clock) {
    case 'same':
      return 0;
    case 'whole-hours':
      return 'whole-hours';
    case 'levels':
      return estimateClockOffset(track, uplinks, { method: 'levels', gateway }).offsetSeconds;
    case 'stated':
      return clockOffsetSeconds;
  }
}

/** How each of the tables is read. */
export function tableOptions(
  { decimal, skipBadRows }: Pick<WalkValues, 'decimal' | 'skipBadRows'>,
  { name }: Pick<TextFile, 'name'>,
): { readonly file: string; readonly decimal?: ','; readonly onBadRow?: 'skip' } {
  return {
    file: name,
    ...(decimal === ',' ? { decimal } : {}),
    ...(skipBadRows ? { onBadRow: 'skip' as const } : {}),
  };
}

/** Frames without a spot's name get the square that they lie in, named after its middle as seen from the gateway. */
function inSquares(
  observations: readonly Observation[],
  gateway: Position,
  squareM: number,
): readonly Observation[] {
  return observations.map((frame) =>
    frame.spot === undefined ? { ...frame, spot: squareOf(frame, gateway, squareM) } : frame,
  );
}

function squareOf(frame: Observation, gateway: Position, squareM: number): string {
  const { eastM, northM } = planeOffset({ origin: gateway, position: frame });
  const [east, north] = [eastM, northM].map((each) => Math.round(each / squareM) * squareM);
  return `east ${east} m, north ${north} m`;
}

function textOf(files: readonly SheetFile[] | undefined): TextFile {
  const [file] = files ?? [];
  if (file === undefined) {
    throw new InputError({ code: 'missing', argument: 'file', received: undefined, expected: 'a file' });
  }
  try {
    return { name: file.name, text: new TextDecoder('utf-8', { fatal: true }).decode(file.bytes) };
  } catch (cause) {
    const detail = { argument: '', received: 'bytes that are no text', expected: 'text in UTF-8' };
    throw new InputError({ code: 'malformed-file', ...detail, file: file.name }, { cause });
  }
}
