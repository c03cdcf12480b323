/** A material of mast tubes. */
export interface MastMaterial {
  /** Stress in pascals at which it yields, for walls of a few millimetres and no weld. */
  readonly strengthPa: number;
  /** Modulus of elasticity in pascals. */
  readonly modulusPa: number;
  /** Document, and that it is from memory. */
  readonly source: string;
}

/** Materials known by name. */
export type MastMaterialName = 'steel-s235' | 'stainless-1.4301' | 'aluminium-6060-t66';

/** Common materials of mast tubes by name. Figures from memory: take those of the maker where it matters. */
export const mastMaterials: Readonly<Record<MastMaterialName, MastMaterial>> = {
  'steel-s235': { strengthPa: 235e6, modulusPa: 210e9, source: 'EN 1993-1-1 table 3.1 (from memory)' },
  'stainless-1.4301': { strengthPa: 210e6, modulusPa: 200e9, source: 'EN 1993-1-4 table 2.1 (from memory)' },
  'aluminium-6060-t66': {
    strengthPa: 150e6,
    modulusPa: 70e9,
    source: 'EN 1999-1-1 table 3.2b (from memory)',
  },
};
