/** What the antenna worksheet asks for. */
export interface AntennaValues extends ElementLengths {
  readonly question: 'cut' | 'sweep' | 'rods';
  readonly kind: AntennaKind;
  readonly frequencyHz: number;
  readonly elementDiameterM: number;
  readonly insulationVelocityFactor: number;
  readonly referenceOhm: number;
  readonly droopDeg: number;
  readonly radials: number;
  readonly sleeveDiameterM: number;
  readonly ground: 'radials' | 'perfect';
  readonly elements: number;
  readonly spacingWavelengths: number;
  readonly downtiltDeg: number;
  readonly gatewayHeightM: number;
  readonly nodeHeightM: number;
  readonly distanceM: number;
  readonly leadLossDb: number;
  readonly leadLengthM: number;
  readonly leadVelocityFactor: number;
  readonly trimmed: 'vertical' | 'whole-antenna';
  readonly lengthsCount: string;
  readonly rodLengthM: number;
  readonly rodRadials: number;
  readonly radialLengthM: number;
}

/** Kinds of antenna that can be cut by the worksheet. */
export type AntennaKind =
  | 'ground-plane'
  | 'dipole'
  | 'sleeve-dipole'
  | 'monopole'
  | 'five-eighths'
  | 'j-pole'
  | 'collinear';

/** Length of the element at each sweep, in their order. */
type ElementLengths = { readonly [Key in `element${1 | 2 | 3 | 4 | 5 | 6}M`]: number };
