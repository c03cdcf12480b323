/** Where a model of this package was made to hold, and when to take it. */
export interface ModelDescription {
  /** The document's own short name. */
  readonly name: string;
  /** What to import: a namespace of the package; in small letters also a subpath. */
  readonly namespace:
    | 'p525'
    | 'p526'
    | 'p1812'
    | 'p2108'
    | 'p2109'
    | 'p833'
    | 'hata'
    | 'p1411'
    | 'itm'
    | 'twoRay';
  /** Whether it predicts a whole path, or what one thing adds to it. */
  readonly kind: 'path' | 'addition';
  /** Least frequency in hertz. */
  readonly minimumFrequencyHz: number;
  /** Greatest frequency in hertz. */
  readonly maximumFrequencyHz: number;
  /** Least length of the path in metres; 0 where none is stated. */
  readonly minimumDistanceM: number;
  /** Greatest length of the path in metres, or `undefined` where none is stated. */
  readonly maximumDistanceM: number | undefined;
  /** What it has to be told. */
  readonly needs: string;
  /** When it is the one to take. */
  readonly preferWhen: string;
  /** When it is not. */
  readonly avoidWhen: string;
  /** Document and edition. */
  readonly source: string;
}

/** Every model of this package: ranges, needs, and which to take when. Ranges of distance are rough where a model has several. */
export const models: readonly ModelDescription[] = [
  {
    name: 'Free space',
    namespace: 'p525',
    kind: 'path',
    minimumFrequencyHz: 1e6,
    maximumFrequencyHz: 3e12,
    minimumDistanceM: 0,
    maximumDistanceM: undefined,
    needs: 'frequency and distance',
    preferWhen: 'nothing stands within the first Fresnel zone, or as the bound that nothing beats for long',
    avoidWhen: 'anything stands in between',
    source: 'Recommendation ITU-R P.525',
  },
  {
    name: 'Two rays over flat ground',
    namespace: 'twoRay',
    kind: 'path',
    minimumFrequencyHz: 30e6,
    maximumFrequencyHz: 100e9,
    minimumDistanceM: 1,
    maximumDistanceM: 100_000,
    needs: 'two heights and the distance',
    preferWhen: 'the ground between is flat and open, as water or a field: it shows why height pays',
    avoidWhen: 'anything stands in between, or the Earth bends the ground out of flat',
    source: 'reflection at a plane, as textbooks derive it; the function names its source',
  },
  {
    name: 'Diffraction over terrain (delta-Bullington)',
    namespace: 'p526',
    kind: 'path',
    minimumFrequencyHz: 30e6,
    maximumFrequencyHz: 100e9,
    minimumDistanceM: 0,
    maximumDistanceM: undefined,
    needs: 'a terrain profile',
    preferWhen: 'hills decide, and the loss is wanted with its parts in the median of time',
    avoidWhen: 'rare strong signals from afar matter, or both antennas stand among houses',
    source: 'Recommendation ITU-R P.526-16 (11/2025)',
  },
  {
    name: 'Path-specific prediction, 30 MHz to 6 GHz',
    namespace: 'p1812',
    kind: 'path',
    minimumFrequencyHz: 30e6,
    maximumFrequencyHz: 6e9,
    minimumDistanceM: 250,
    maximumDistanceM: 3_000_000,
    needs: 'a terrain profile with clutter, and the refractivity of the region',
    preferWhen: 'a gateway and a node are known with the land between: the first choice for coverage',
    avoidWhen: 'the path is shorter than 250 m, or runs inside one street',
    source: 'Recommendation ITU-R P.1812-8 (09/2025)',
  },
  {
    name: 'Irregular terrain model',
    namespace: 'itm',
    kind: 'path',
    minimumFrequencyHz: 20e6,
    maximumFrequencyHz: 20e9,
    minimumDistanceM: 1000,
    maximumDistanceM: 2_000_000,
    needs: 'a terrain profile or its roughness, the ground and the climate',
    preferWhen: 'a second opinion on a terrain path is wanted, or only the roughness of the land is known',
    avoidWhen: 'houses or trees decide: it has no clutter',
    source: 'NTIA Report 82-100 (1982)',
  },
  {
    name: 'Okumura-Hata',
    namespace: 'hata',
    kind: 'path',
    minimumFrequencyHz: 150e6,
    maximumFrequencyHz: 1500e6,
    minimumDistanceM: 1000,
    maximumDistanceM: 20_000,
    needs: 'two heights and the kind of surroundings',
    preferWhen: 'nothing is known of the land, it is smooth, and the gateway stands 30 m high or more',
    avoidWhen: 'the gateway is on a house (below 30 m), or there are hills',
    source: 'M. Hata, IEEE Trans. Vehicular Technology VT-29 (1980) 317',
  },
  {
    name: 'COST 231-Hata',
    namespace: 'hata',
    kind: 'path',
    minimumFrequencyHz: 1500e6,
    maximumFrequencyHz: 2000e6,
    minimumDistanceM: 1000,
    maximumDistanceM: 20_000,
    needs: 'two heights and the kind of surroundings',
    preferWhen: 'as Okumura-Hata, from 1.5 to 2 GHz',
    avoidWhen: 'the band is 433, 868 or 915 MHz',
    source: 'COST Action 231, final report (1999), section 4.4',
  },
  {
    name: 'Short paths outdoors (site-general)',
    namespace: 'p1411',
    kind: 'path',
    minimumFrequencyHz: 0.45e9,
    maximumFrequencyHz: 300e9,
    minimumDistanceM: 5,
    maximumDistanceM: 1200,
    needs: 'distance and kind of place',
    preferWhen: 'both antennas stand below the roofs, some ten to some hundred metres apart',
    avoidWhen: 'the gateway is above the roofs on a frequency below 2.2 GHz',
    source: 'Recommendation ITU-R P.1411-13, section 4.1.1; P.1411-11 (09/2021), section 4.2.1',
  },
  {
    name: 'Street level to street level',
    namespace: 'p1411',
    kind: 'path',
    minimumFrequencyHz: 300e6,
    maximumFrequencyHz: 3e9,
    minimumDistanceM: 0,
    maximumDistanceM: 3000,
    needs: 'distance and kind of town',
    preferWhen: 'both antennas are at the height of a person',
    avoidWhen: 'one of them is on a roof',
    source: 'Recommendation ITU-R P.1411-11 (09/2021), section 4.3.1',
  },
  {
    name: 'Clutter at one end, by height',
    namespace: 'p2108',
    kind: 'addition',
    minimumFrequencyHz: 30e6,
    maximumFrequencyHz: 3e9,
    minimumDistanceM: 0,
    maximumDistanceM: undefined,
    needs: 'height of the antenna and what stands around it',
    preferWhen: 'a model without clutter (P.526, irregular terrain, free space) ends among houses or trees',
    avoidWhen: 'the profile already carries clutter heights, or the statistical method is used',
    source: 'Recommendation ITU-R P.2108-1 (09/2021), section 3.1',
  },
  {
    name: 'Clutter at one end, by statistics',
    namespace: 'p2108',
    kind: 'addition',
    minimumFrequencyHz: 500e6,
    maximumFrequencyHz: 67e9,
    minimumDistanceM: 250,
    maximumDistanceM: undefined,
    needs: 'distance, and how sure the loss is to be',
    preferWhen: 'the node is somewhere in a town or suburb and nobody knows where',
    avoidWhen: 'the surroundings are open land, or are counted already',
    source: 'Recommendation ITU-R P.2108-1 (09/2021), section 3.2',
  },
  {
    name: 'Clutter under a slant path',
    namespace: 'p2108',
    kind: 'addition',
    minimumFrequencyHz: 10e9,
    maximumFrequencyHz: 100e9,
    minimumDistanceM: 0,
    maximumDistanceM: undefined,
    needs: 'elevation, and how sure the loss is to be',
    preferWhen: 'the other end flies, at 10 GHz or more',
    avoidWhen: "the band is one of LoRa's below 1 GHz",
    source: 'Recommendation ITU-R P.2108-1 (09/2021), section 3.3',
  },
  {
    name: 'Building entry',
    namespace: 'p2109',
    kind: 'addition',
    minimumFrequencyHz: 80e6,
    maximumFrequencyHz: 100e9,
    minimumDistanceM: 0,
    maximumDistanceM: undefined,
    needs: 'kind of building, and how sure the loss is to be',
    preferWhen: 'the node is indoors',
    avoidWhen: 'the node is in a cellar, or its wall was measured',
    source: 'Recommendation ITU-R P.2109-1 (08/2019)',
  },
  {
    name: 'Woodland',
    namespace: 'p833',
    kind: 'addition',
    minimumFrequencyHz: 105.9e6,
    maximumFrequencyHz: 2117.5e6,
    minimumDistanceM: 0,
    maximumDistanceM: undefined,
    needs: 'how deep the node stands in the wood',
    preferWhen: 'one end stands inside a wood',
    avoidWhen: 'the path passes over the wood, or the profile carries the trees as clutter',
    source: 'Recommendation ITU-R P.833-10 (09/2021), section 2.1',
  },
];
