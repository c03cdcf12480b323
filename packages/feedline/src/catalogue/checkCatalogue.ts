import { InputError, isInputError } from '@finial/units';
import { catalogueDefinitions, catalogueRule } from './catalogueSchema.js';
import type { Cable, Catalogue, CatalogueRow, Connector } from './parts.js';
import { followRule } from './schemaRule.js';

/**
 * Reads a catalogue of anybody's own parts: `data` is what `JSON.parse` gives, or plain objects. Lists that are left out count as empty;
 * nothing else is filled in, and nothing is dropped: a member that the format does not know is refused.
 *
 * A pigtail may name a cable of another catalogue: whether it exists shows when the chain is computed. The figures themselves are taken on trust:
 * each row names its `source`.
 *
 * @param data - the catalogue
 * @param file - name of the file it came from, for the message
 * @returns a copy of the data, exact
 * @throws {@link InputError} `wrong-type`, `missing`, `not-a-finite-number`, `out-of-range`, `unknown-option`, or `malformed-file` for a
 * name that occurs twice; its argument says where: `cables[3].attenuation[1].frequencyHz`
 * @example A catalogue of one cable
 * ```ts
 * import { checkCatalogue } from '@finial/feedline';
 *
 * const catalogue = checkCatalogue({
 *   cables: [{
 *     kind: 'cable', designation: 'attic reel', source: 'own measurement', status: 'read', construction: 'solid centre, braid',
 *     impedanceOhm: 50, velocityFactor: 0.83, dielectric: 'foam PE', outerDiameterM: 0.0054, bendRadiusM: 0.03,
 *     attenuation: [{ frequencyHz: 868e6, attenuationDbPerM: 0.36 }], attenuationUncertaintyRatio: 0.05,
 *   }],
 * });
 * catalogue.cables[0]?.attenuation[0]?.attenuationDbPerM; // ≈ 0.36
 * catalogue.adapters; // → []
 * ```
 */
export function checkCatalogue(data: unknown, file?: string): Catalogue {
  try {
    return checkedCatalogue(data, '');
  } catch (error) {
    throw isInputError(error) && file !== undefined ? error.at({ file }) : error;
  }
}

/** The catalogue, its refusals named from the given argument on. */
export function checkedCatalogue(data: unknown, argument: string): Catalogue {
  const given = followRule(data, argument, catalogueRule, catalogueDefinitions) as Partial<Catalogue>;
  const { cables = [], connectors = [], adapters = [], pigtails = [], arrestors = [], filters = [] } = given;
  const catalogue = { cables, connectors, adapters, pigtails, arrestors, filters };
  const prefix = argument === '' ? '' : `${argument}.`;
  for (const [list, rows] of Object.entries(catalogue)) checkNames(rows, `${prefix}${list}`);
  cables.forEach((cable, place) => {
    checkPoints(cable, `${prefix}cables[${place}]`);
  });
  checkConnectors(connectors, `${prefix}connectors`);
  for (const [list, rows] of Object.entries({ adapters, arrestors, filters })) {
    rows.forEach(({ lowestFrequencyHz, highestFrequencyHz }, place) => {
      if (highestFrequencyHz > lowestFrequencyHz) return;
      refuse(
        `${prefix}${list}[${place}].highestFrequencyHz`,
        highestFrequencyHz,
        `more than the lowest frequency, ${lowestFrequencyHz} hertz`,
      );
    });
  }
  return catalogue;
}

function checkNames(rows: readonly CatalogueRow[], list: string): void {
  const places = new Map<string, number>();
  rows.forEach(({ designation }, place) => {
    const first = places.get(designation);
    if (first !== undefined) {
      throw new InputError({
        code: 'malformed-file',
        argument: `${list}[${place}].designation`,
        received: designation,
        expected: `a name that ${list}[${first}] does not have`,
      });
    }
    places.set(designation, place);
  });
}

function checkPoints(cable: Cable, argument: string): void {
  const { attenuation, specificationMaxima = [], powerLimits = [] } = cable;
  for (const [list, points] of Object.entries({ attenuation, specificationMaxima, powerLimits })) {
    points.forEach(({ frequencyHz }, place) => {
      // One hertz apart at least, as the attenuation law asks: two points at one frequency contradict each other.
      const least = (points[place - 1]?.frequencyHz ?? 0) + 1;
      if (frequencyHz >= least) return;
      refuse(
        `${argument}.${list}[${place}].frequencyHz`,
        frequencyHz,
        `rising frequencies, ${least} hertz or more`,
      );
    });
  }
}

function checkConnectors(connectors: readonly Connector[], list: string): void {
  connectors.forEach((row, place) => {
    const at = `${list}[${place}]`;
    const { leastPairLossDb, greatestPairLossDb, leastTorqueNm = 0, greatestTorqueNm = leastTorqueNm } = row;
    if (greatestPairLossDb < leastPairLossDb) {
      refuse(
        `${at}.greatestPairLossDb`,
        greatestPairLossDb,
        `the least loss, ${leastPairLossDb} dB, or more`,
      );
    }
    if (greatestTorqueNm < leastTorqueNm) {
      refuse(
        `${at}.greatestTorqueNm`,
        greatestTorqueNm,
        `the least torque, ${leastTorqueNm} newton metres, or more`,
      );
    }
    const first = connectors.findIndex(
      ({ series, impedanceOhm }) => series === row.series && impedanceOhm === row.impedanceOhm,
    );
    if (first === place) return;
    throw new InputError({
      code: 'malformed-file',
      argument: `${at}.series`,
      received: row.series,
      expected: `one row for each impedance of a series, and ${list}[${first}] is ${row.series} at ${row.impedanceOhm} ohms`,
    });
  });
}

function refuse(argument: string, received: number, expected: string): never {
  throw new InputError({ code: 'out-of-range', argument, received, expected });
}
