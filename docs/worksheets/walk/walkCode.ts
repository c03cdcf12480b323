import type { WalkPart } from '../../../packages/dossier/src/walkPart.js';
import { about, literal } from '../frame/codeOf.js';
import { type TextFile, tableOptions, type WalkFrames } from './readFrames.js';
import type { WalkValues } from './walkValues.js';

/** Longer files are read by their name instead of standing in the code. */
const longestInCode = 2000;
const spreadingFactors = [5, 6, 7, 8, 9, 10, 11, 12] as const;

/** The code that reads the same files and says the same of them. */
export function walkCode(
  values: WalkValues,
  frames: WalkFrames,
  { delivery, spots, fit }: WalkPart,
  thresholdDbm: (spreadingFactor: number) => number,
): string {
  const { gatewayLatitudeDeg: latitudeDeg, gatewayLongitudeDeg: longitudeDeg } = values;
  const joins = frames.join === undefined ? ['readSurvey'] : ['joinTrack', 'readTrack', 'readUplinks'];
  const names = [
    'deliveryRatio',
    ...(fit === undefined ? [] : ['fitPathLoss']),
    ...joins,
    ...(frames.isInSquares ? ['planeOffset'] : []),
    'spotTable',
  ];
  const reads = frames.files.some(isLong) ? "import { readFile } from 'node:fs/promises';\n" : '';
  return `${reads}import { ${names.toSorted().join(', ')} } from '@finial/survey';

const gateway = ${literal({ latitudeDeg, longitudeDeg })};
${readingCode(values, frames)}
${frames.isInSquares ? squaresCode(values) : ''}
const { received, sent, ratio, lowerRatio } = deliveryRatio(observations);
[received, sent]; // → [${delivery.received}, ${delivery.sent}]
ratio; ${about(delivery.ratio)}
lowerRatio; ${about(delivery.lowerRatio)}
spotTable(${spotted(frames)}, { gateway }).length; // → ${spots.length}
${fit === undefined ? '' : fitCode(frames, fit, thresholdDbm)}`.trimEnd();
}

function isLong({ text }: TextFile): boolean {
  return text.length > longestInCode;
}

/** The name under which the frames with their spots go. */
function spotted({ isInSquares }: WalkFrames): string {
  return isInSquares ? 'spotted' : 'observations';
}

function readingCode(values: WalkValues, { files, join }: WalkFrames): string {
  const [first, second] = files;
  if (first === undefined) return '';
  if (join === undefined || second === undefined) {
    const options = {
      ...tableOptions(values, first),
      ...(values.receivedOnly ? { receivedOnly: true } : {}),
    };
    return `${textCode('log', first)}
const { observations } = readSurvey(log, ${literal(options)});`;
  }
  const { gateway: _, ...settings } = join;
  return `${textCode('track', first)}
${textCode('log', second)}
const { points } = readTrack(track, ${literal(tableOptions(values, first))});
const { uplinks } = readUplinks(log, ${literal(tableOptions(values, second))});
const { observations } = joinTrack(points, uplinks, { gateway, ...${literal(settings)} });`;
}

function textCode(name: string, file: TextFile): string {
  if (!isLong(file)) return `const ${name} = ${literal(file.text)};`;
  return `// The file is read from the folder in which this runs.
const ${name} = await readFile(${literal(file.name)}, 'utf8');`;
}

function squaresCode({ squareM }: WalkValues): string {
  return `const spotted = observations.map((frame) => {
  const { eastM, northM } = planeOffset({ origin: gateway, position: frame });
  const [east, north] = [eastM, northM].map((each) => Math.round(each / ${squareM}) * ${squareM});
  return { ...frame, spot: frame.spot ?? \`east \${east} m, north \${north} m\` };
});`;
}

function fitCode(
  frames: WalkFrames,
  { signal, censoring, exponent, shadowingDb }: NonNullable<WalkPart['fit']>,
  thresholdDbm: (spreadingFactor: number) => number,
): string {
  const thresholds = Object.fromEntries(spreadingFactors.map((factor) => [factor, thresholdDbm(factor)]));
  const options = {
    minimumDistanceM: 50,
    signal,
    ...(censoring === undefined ? {} : { censored: true, thresholdDbm: thresholds }),
  };
  return `
const fit = fitPathLoss(${spotted(frames)}, {
  gateway,
  ...${literal(options, '  ')},
});
fit.exponent; ${about(exponent)}
fit.shadowingDb; ${about(shadowingDb)}`;
}
