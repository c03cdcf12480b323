import { collinearPattern, dipole, solveWires } from '@finial/antenna';
import type { Calls, Exempt } from './Call.js';

const element = { frequencyHz: 868.1e6, elementDiameterM: 0.002 };
const trimmed = { ...element, insulationVelocityFactor: 0.95, allowanceRatio: 0.05, referenceOhm: 75 };
const { solution } = dipole(element);
const table = {
  elevationDeg: [-90, 0, 90],
  gainDbi: [-20, 5, -20, -20, 3, -20],
  azimuthDeg: [0, 180],
};

const wires = [
  { start: { xM: 0, yM: 0, zM: 0 }, end: { xM: 0, yM: 0, zM: 0.08 }, radiusM: 0.001, segments: 8 },
  { start: { xM: 0.1, yM: 0, zM: 0.02 }, end: { xM: 0.1, yM: 0.02, zM: 0.18 }, radiusM: 0.002 },
];
const source = { wire: 0, positionRatio: 0, voltageV: 2, phaseDeg: 30 };
const wireSettings = { frequencyHz: 868.1e6, ground: 'perfect', conductivitySPerM: 5.8e7, source };
const allowed = { ...wireSettings, outsideValidity: 'allow' };
const solvedWires = solveWires(wires, { frequencyHz: 868.1e6, source: { wire: 0, positionRatio: 0.5 } });

const sweep = {
  frequencyHz: Float64Array.of(850e6, 860e6, 870e6, 880e6, 890e6),
  reflectionReal: Float64Array.of(-0.1, -0.1, -0.11, -0.12, -0.13),
  reflectionImaginary: Float64Array.of(-0.24, -0.14, -0.04, 0.06, 0.16),
  referenceOhm: 50,
  comments: ['whip'],
  warnings: [],
};
const { reflectionReal, reflectionImaginary, ...grid } = sweep;
const flat = { real: Float64Array.of(0.1, 0.1, 0.1, 0.1, 0.1), imaginary: new Float64Array(5) };
const through = { real: Float64Array.of(0.8, 0.8, 0.8, 0.8, 0.8), imaginary: new Float64Array(5) };
const twoPort = { ...grid, s11: flat, s21: through, s12: through, s22: flat };
const lead = { lossDb: 0.3, lossReferenceHz: 1e9, lengthM: 0.4, velocityFactor: 0.69 };
const byDelay = { lossDb: 0.3, lossReferenceHz: 1e9, delaySeconds: 2e-9 };
const byElectricalLength = { lossDb: 0.3, lossReferenceHz: 1e9, electricalLengthM: 0.6 };
const readingPlan = { targetHz: 868.1e6, channelsHz: [868.1e6, 868.3e6], bandHz: [863e6, 870e6] };

export const calls: Calls = {
  averageGainRatio: { args: [solvedWires], constants: ['solution'] },
  azimuthCut: { args: [solvedWires, { elevationDeg: -10, stepDeg: 15 }], constants: ['solution'] },
  convergence: [wires, wireSettings, { factors: [0.5, 1, 1.2] }],
  elevationCut: { args: [solvedWires, { azimuthDeg: 20, stepDeg: 15 }], constants: ['solution'] },
  farFieldGain: { args: [solvedWires, { elevationDeg: -10, azimuthDeg: 20 }], constants: ['solution'] },
  farFieldGainDbi: { args: [solvedWires, { elevationDeg: -10, azimuthDeg: 20 }], constants: ['solution'] },
  maximumGain: { args: [solvedWires], constants: ['solution'] },
  solveWires: [wires, allowed],
  'solveWires with two sources': [
    wires,
    { ...wireSettings, source: [source, { wire: 1, positionRatio: 0.5 }] },
  ],
  collinear: [{ frequencyHz: 868.1e6, elements: 4, spacingM: 0.25, downtiltDeg: 2 }],
  'collinear by wavelengths': [{ frequencyHz: 868.1e6, elements: 4, spacingWavelengths: 0.75 }],
  collinearGainDbi: [{ elements: 4, spacingWavelengths: 0.75, elevationDeg: -20, downtiltDeg: 2 }],
  collinearPattern: [{ elements: 4, spacingWavelengths: 0.75, downtiltDeg: 2, stepDeg: 2 }],
  sleeveDipole: [{ ...trimmed, sleeveDiameterM: 0.01, outsideValidity: 'allow' }],
  dipole: [{ ...trimmed, outsideValidity: 'allow' }],
  elevationPattern: { args: [{ solution, azimuthDeg: 30, stepDeg: 5 }], constants: ['question.solution'] },
  fiveEighths: [{ ...trimmed, outsideValidity: 'allow', ground: 'radials', droopDeg: 30, radials: 3 }],
  gainTowardsDbi: [{ pattern: table, elevationDeg: -10, azimuthDeg: 200 }],
  gainTowardsNode: [
    {
      gatewayHeightM: 60,
      nodeHeightM: 1.5,
      distanceM: 400,
      pattern: table,
      azimuthDeg: 40,
      effectiveEarthRadiusFactor: 1.3,
    },
  ],
  'gainTowardsNode with typed arrays': {
    args: [
      {
        gatewayHeightM: 60,
        nodeHeightM: 1.5,
        distanceM: 400,
        pattern: collinearPattern({ elements: 4, spacingWavelengths: 0.75, stepDeg: 5 }),
      },
    ],
    constants: ['direction.pattern'],
  },
  groundPlane: [
    {
      ...trimmed,
      outsideValidity: 'allow',
      droopDeg: 45,
      radials: 3,
      radialLengthM: 0.085,
      radialDiameterM: 0.003,
    },
  ],
  'groundPlane of equal rods': [{ ...element, droopDeg: 30, radialRatio: 1 }],
  halfWaveDipoleGainDbi: [{ elevationDeg: 30 }],
  jPole: [{ ...trimmed, outsideValidity: 'refuse' }],
  monopole: [{ ...trimmed, outsideValidity: 'allow' }],
  deembedFeedline: [sweep, lead],
  'deembedFeedline by delay': [sweep, byDelay],
  deembedTwoPort: [sweep, twoPort],
  embedFeedline: [sweep, byElectricalLength],
  embedTwoPort: [sweep, twoPort],
  formatTouchstone: [sweep, { version: 2, format: 'MA' }],
  insertionLossDb: [twoPort, { frequencyHz: 868e6 }],
  parseSweepCsv: [
    'f;vswr;x\n868;1.5;2\n',
    {
      file: 'a.csv',
      columns: { frequency: 'f', vswr: 'vswr' },
      frequencyUnit: 'MHz',
      separator: ';',
      referenceOhm: 75,
      maximumCharacters: 1000,
    },
  ],
  parseTouchstone: ['#\n1 0.5 0\n', { file: 'a.s1p', ports: 1, maximumCharacters: 1000 }],
  parseTouchstoneTwoPort: [
    '#\n1 0.1 0 0.9 0 0.9 0 0.1 0\n',
    { file: 'a.s2p', ports: 2, maximumCharacters: 1000 },
  ],
  readSweep: [sweep, readingPlan],
  'readSweep without phase': [
    { ...grid, reflectionCoefficient: Float64Array.of(0.5, 0.3, 0.1, 0.3, 0.5) },
    readingPlan,
  ],
  trimAdvice: [
    {
      cuts: [
        { elementLengthM: 0.084, resonanceHz: 845e6 },
        { elementLengthM: 0.082, resonanceHz: 860e6 },
      ],
      targetHz: 868.1e6,
      trimmed: 'vertical',
      exponent: -0.75,
      measuringErrorRatio: 0.0004,
      lengthErrorM: 0.0002,
      toleranceRatio: 0.001,
      outsideValidity: 'allow',
    },
  ],
  'trimAdvice by slope of the cuts': [
    {
      cuts: [
        { elementLengthM: 0.09, resonanceHz: 800e6 },
        { elementLengthM: 0.084, resonanceHz: 845e6 },
      ],
      targetHz: 868.1e6,
      measuringErrorRatio: 0.0004,
      lengthErrorM: 0.0002,
    },
  ],
};

export const exempt: Exempt = {
  knowsPhase: 'tells two kinds of sweep apart and looks at no number',
};
