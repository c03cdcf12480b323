import type { NamedRules, SchemaRule } from './schemaRule.js';

const text: SchemaRule = { type: 'string', minLength: 1, maxLength: 1000 };

const ends: SchemaRule = {
  type: 'array',
  description: 'the two ends of the part',
  items: { $ref: '#/$defs/partEnd' },
  minItems: 2,
  maxItems: 2,
};

const impedanceOhm: SchemaRule = {
  type: 'number',
  description: 'characteristic impedance in ohms',
  exclusiveMinimum: 0,
  maximum: 500,
};

const highestFrequencyHz: SchemaRule = {
  type: 'number',
  description: 'highest frequency in hertz',
  exclusiveMinimum: 0,
  maximum: 100e9,
};

const lowestFrequencyHz: SchemaRule = {
  type: 'number',
  description: 'lowest frequency in hertz',
  minimum: 0,
  maximum: 100e9,
};

const lossDb: SchemaRule = {
  type: 'number',
  description: 'insertion loss in dB in its band',
  minimum: 0,
  maximum: 60,
};

const lossUncertaintyDb: SchemaRule = {
  type: 'number',
  description: 'uncertainty of the loss in dB',
  minimum: 0,
  maximum: 20,
};

const pairLossDb: SchemaRule = {
  type: 'number',
  description: 'loss of a joined pair in dB',
  minimum: 0,
  maximum: 3,
};

const torqueNm: SchemaRule = {
  type: 'number',
  description: 'coupling torque in newton metres',
  minimum: 0,
  maximum: 100,
};

const pointFrequencyHz: SchemaRule = {
  type: 'number',
  description: 'frequency in hertz',
  minimum: 1,
  maximum: 100e9,
};

const rowProperties = {
  designation: { type: 'string', description: 'name by an open designation', minLength: 1, maxLength: 120 },
  source: {
    type: 'string',
    description: 'document, edition and clause, or who recalls it',
    minLength: 1,
    maxLength: 1000,
  },
  status: {
    type: 'string',
    description: 'how the figures were obtained',
    enum: ['read', 'computed', 'memory'],
  },
  note: text,
} as const satisfies NamedRules;

const rowRequired = ['kind', 'designation', 'source', 'status'] as const;

const twoEndedRequired = [
  ...rowRequired,
  'ends',
  'lossDb',
  'lossUncertaintyDb',
  'lowestFrequencyHz',
  'highestFrequencyHz',
] as const;

const points: SchemaRule = {
  type: 'array',
  description: 'attenuation at rising frequencies',
  items: { $ref: '#/$defs/attenuationPoint' },
  minItems: 1,
};

/** Rules by name, as the lists of {@link catalogueRule} refer to them. */
export const catalogueDefinitions: NamedRules = {
  partEnd: {
    type: 'object',
    properties: {
      series: {
        type: 'string',
        description: 'series as the connector rows name it',
        minLength: 1,
        maxLength: 60,
      },
      gender: { type: 'string', description: 'plug or jack, by the body', enum: ['plug', 'jack'] },
      polarity: { type: 'string', description: 'polarity of the contacts', enum: ['normal', 'reverse'] },
      impedanceOhm,
    },
    required: ['series', 'gender'],
    additionalProperties: false,
  },
  attenuationPoint: {
    type: 'object',
    properties: {
      frequencyHz: pointFrequencyHz,
      attenuationDbPerM: {
        type: 'number',
        description: 'attenuation in dB per metre at 20 degrees C',
        minimum: 1e-6,
        maximum: 1000,
      },
    },
    required: ['frequencyHz', 'attenuationDbPerM'],
    additionalProperties: false,
  },
  powerPoint: {
    type: 'object',
    properties: {
      frequencyHz: pointFrequencyHz,
      powerW: {
        type: 'number',
        description: 'greatest mean power in watts',
        exclusiveMinimum: 0,
        maximum: 1e6,
      },
    },
    required: ['frequencyHz', 'powerW'],
    additionalProperties: false,
  },
  cable: {
    type: 'object',
    properties: {
      kind: { type: 'string', const: 'cable' },
      ...rowProperties,
      construction: text,
      impedanceOhm,
      velocityFactor: {
        type: 'number',
        description: 'speed of a wave over the speed of light',
        exclusiveMinimum: 0,
        maximum: 1,
      },
      dielectric: text,
      outerDiameterM: {
        type: 'number',
        description: 'outer diameter in metres',
        exclusiveMinimum: 0,
        maximum: 0.2,
      },
      bendRadiusM: {
        type: 'number',
        description: 'least bend radius in metres',
        exclusiveMinimum: 0,
        maximum: 5,
      },
      attenuation: points,
      attenuationUncertaintyRatio: {
        type: 'number',
        description: 'spread of the attenuation as a ratio of its value',
        minimum: 0,
        maximum: 1,
      },
      specificationMaxima: points,
      powerLimits: {
        type: 'array',
        description: 'greatest mean power at rising frequencies',
        items: { $ref: '#/$defs/powerPoint' },
        minItems: 1,
      },
      maxTemperatureC: {
        type: 'number',
        description: 'greatest temperature in degrees C of the insulation',
        minimum: 0,
        maximum: 400,
      },
      sunlightResistant: { type: 'boolean' },
    },
    required: [
      ...rowRequired,
      'construction',
      'impedanceOhm',
      'velocityFactor',
      'dielectric',
      'outerDiameterM',
      'bendRadiusM',
      'attenuation',
      'attenuationUncertaintyRatio',
    ],
    additionalProperties: false,
  },
  connector: {
    type: 'object',
    properties: {
      kind: { type: 'string', const: 'connector' },
      ...rowProperties,
      series: { type: 'string', description: 'series as part ends name it', minLength: 1, maxLength: 60 },
      impedanceOhm,
      standard: text,
      coupling: {
        type: 'string',
        description: 'how two halves join',
        enum: ['threaded', 'bayonet', 'snap-on'],
      },
      thread: text,
      reversePolarityExists: { type: 'boolean' },
      highestFrequencyHz,
      pairLossAtOneGigahertzDb: pairLossDb,
      leastPairLossDb: pairLossDb,
      greatestPairLossDb: pairLossDb,
      matingCycles: {
        type: 'integer',
        description: 'how often a pair may be joined',
        minimum: 1,
        maximum: 1e6,
      },
      leastTorqueNm: torqueNm,
      greatestTorqueNm: torqueNm,
      sealing: {
        type: 'string',
        description: 'how a joined pair keeps water out',
        enum: ['gasket', 'splash', 'none'],
      },
      sealingPractice: text,
    },
    required: [
      ...rowRequired,
      'series',
      'impedanceOhm',
      'standard',
      'coupling',
      'reversePolarityExists',
      'highestFrequencyHz',
      'pairLossAtOneGigahertzDb',
      'leastPairLossDb',
      'greatestPairLossDb',
      'sealing',
      'sealingPractice',
    ],
    additionalProperties: false,
  },
  adapter: {
    type: 'object',
    properties: {
      kind: { type: 'string', const: 'adapter' },
      ...rowProperties,
      ends,
      lossDb,
      lossUncertaintyDb,
      lowestFrequencyHz,
      highestFrequencyHz,
    },
    required: twoEndedRequired,
    additionalProperties: false,
  },
  pigtail: {
    type: 'object',
    properties: {
      kind: { type: 'string', const: 'pigtail' },
      ...rowProperties,
      cable: { type: 'string', description: 'designation of its cable', minLength: 1, maxLength: 120 },
      lengthM: { type: 'number', description: 'length in metres', exclusiveMinimum: 0, maximum: 100 },
      ends,
    },
    required: [...rowRequired, 'cable', 'lengthM', 'ends'],
    additionalProperties: false,
  },
  arrestor: {
    type: 'object',
    properties: {
      kind: { type: 'string', const: 'arrestor' },
      ...rowProperties,
      ends,
      lossDb,
      lossUncertaintyDb,
      lowestFrequencyHz,
      highestFrequencyHz,
      principle: {
        type: 'string',
        description: 'how it leads a surge away',
        enum: ['gas-discharge', 'quarter-wave'],
      },
      passesDirectCurrent: { type: 'boolean' },
      sparkOverV: {
        type: 'number',
        description: 'direct voltage in volts at which a gas tube fires',
        exclusiveMinimum: 0,
        maximum: 10_000,
      },
    },
    required: [...twoEndedRequired, 'principle', 'passesDirectCurrent'],
    additionalProperties: false,
  },
  filter: {
    type: 'object',
    properties: {
      kind: { type: 'string', const: 'filter' },
      ...rowProperties,
      ends,
      lossDb,
      lossUncertaintyDb,
      lowestFrequencyHz,
      highestFrequencyHz,
    },
    required: twoEndedRequired,
    additionalProperties: false,
  },
};

/** The rule of a whole catalogue, with its definitions: what {@link catalogueSchema} publishes. */
export const catalogueRule: SchemaRule = {
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  title: 'Finial catalogue of feedline parts',
  description: 'a catalogue: lists of parts, of which any may be left out',
  type: 'object',
  properties: {
    cables: { type: 'array', items: { $ref: '#/$defs/cable' } },
    connectors: { type: 'array', items: { $ref: '#/$defs/connector' } },
    adapters: { type: 'array', items: { $ref: '#/$defs/adapter' } },
    pigtails: { type: 'array', items: { $ref: '#/$defs/pigtail' } },
    arrestors: { type: 'array', items: { $ref: '#/$defs/arrestor' } },
    filters: { type: 'array', items: { $ref: '#/$defs/filter' } },
  },
  additionalProperties: false,
  $defs: catalogueDefinitions,
};

/** A JSON Schema of a catalogue, as far as a reader of its type needs to know. */
export interface CatalogueSchema {
  /** Which JSON Schema it is written in. */
  readonly $schema?: string | undefined;
  /** The lists of a catalogue by name. */
  readonly properties?: object | undefined;
  /** The rules of rows, ends and points by name. */
  readonly $defs?: object | undefined;
}

/**
 * The catalogue format as JSON Schema 2020-12, the one that `checkCatalogue` walks: for editors and for other tools. The package carries
 * the same as `catalogue.schema.json`. What no schema says (unique names, rising frequencies, a band that ends above its beginning)
 * `checkCatalogue` checks besides.
 *
 * @example
 * ```ts
 * import { catalogueSchema } from '@finial/feedline';
 *
 * Object.keys(catalogueSchema.properties as object); // → ['cables', 'connectors', 'adapters', 'pigtails', 'arrestors', 'filters']
 * ```
 */
export const catalogueSchema: CatalogueSchema = catalogueRule;
