import { checkInteger, checkObject, checkRange, frequencyHints } from '@finial/units';
import { cableLoss } from '../cable/cableLoss.js';
import { builtInCatalogue } from '../catalogue/builtInCatalogue.js';
import { cableNamed } from '../catalogue/cableNamed.js';
import type { Adapter, Catalogue, PartEnd, Pigtail } from '../catalogue/parts.js';
import { connectorFor, knownEnd } from './connectorFor.js';
import { endName } from './endName.js';
import { combinedUncertaintyDb, impedanceSteps, type LossDoubt } from './lossDoubts.js';
import { matingOf } from './mates.js';
import { pairLoss } from './pairLoss.js';
import { checkedEnd, type StatedEnd } from './partEnd.js';
import { searchableCatalogue } from './searchableCatalogue.js';

/** Where to look for adapters. */
export interface AdapterSearch {
  /**
   * Parts to choose from, as `checkCatalogue` lets them through.
   *
   * @defaultValue the built-in catalogue
   */
  readonly catalogue?: Catalogue | undefined;
  /**
   * Frequency in hertz, 1e6 to 100e9. Parts and series not meant for it are left out.
   *
   * @defaultValue losses at 1 GHz, at which connector rows state them, and nothing is left out
   */
  readonly frequencyHz?: number | undefined;
  /**
   * Greatest number of parts in a row, 0 to 6: each adds two contacts and a lever on the connector behind it.
   *
   * @defaultValue 3
   */
  readonly greatestPartsCount?: number | undefined;
}

/** An adapter or pigtail, and which way round it sits. */
export interface PlacedAdapter {
  /** The row of the catalogue. */
  readonly part: Adapter | Pigtail;
  /** Its ends, the one towards the first half before the one towards the second. */
  readonly ends: readonly [PartEnd, PartEnd];
}

/** What joins two halves that do not mate. */
export interface AdapterPath {
  /** From the first half to the second; empty where they mate without help. */
  readonly parts: readonly PlacedAdapter[];
  /** Loss in dB of the parts and of every pair formed, between the two halves. */
  readonly lossDb: number;
  /** Uncertainty in dB of that loss. */
  readonly lossUncertaintyDb: number;
  /** Share of that loss in dB that is reflected where halves of two impedances join; 0 where all have one impedance. */
  readonly mismatchLossDb: number;
  /** The same in words for a shopping list: a designation and its two ends for each part. */
  readonly inWords: string;
}

interface Terms {
  readonly catalogue: Catalogue;
  readonly frequencyHz: number;
}

interface Reached {
  readonly end: StatedEnd;
  readonly parts: readonly PlacedAdapter[];
  readonly lossDb: number;
  readonly mismatchLossDb: number;
  readonly doubts: readonly LossDoubt[];
}

/** One way to put a part in, and what it loses without its pairs. */
interface Step {
  readonly placed: PlacedAdapter;
  readonly entry: StatedEnd;
  readonly exit: StatedEnd;
  readonly lossDb: number;
  readonly doubt: LossDoubt;
}

/**
 * The fewest adapters and pigtails that join two halves; among as few, those that lose least.
 *
 * The halves are those of the parts to be joined (`SMA jack` of a radio, `N jack` of an antenna), not of the adapter. Every pair in the path mates
 * by {@link mates}; a step of impedance is allowed where the halves join, and counted as a loss. Prices, weight and room are not looked at.
 *
 * @param a - the half towards the radio, 1 to 500 ohms
 * @param b - the half towards the antenna, 1 to 500 ohms
 * @returns loss with its uncertainty; `undefined` where the catalogue has no path of so few parts
 * @throws {@link InputError} `wrong-type`, `unknown-option` (a series that the catalogue does not have), `not-a-finite-number` or `out-of-range`
 * @source Mating: see {@link mates}; losses: the rows of the catalogue
 * @example From the reverse-polarity jack of a radio to an N plug on the main cable
 * ```ts
 * import { adaptersBetween, partEnd } from '@finial/feedline';
 *
 * const path = adaptersBetween(partEnd('RP-SMA jack'), partEnd('N plug'), { frequencyHz: 868.1e6 });
 * path?.parts.length; // → 1
 * ```
 */
export function adaptersBetween(a: PartEnd, b: PartEnd, search: AdapterSearch = {}): AdapterPath | undefined {
  checkObject(search, 'search');
  const { catalogue = builtInCatalogue, frequencyHz, greatestPartsCount = 3 } = search;
  searchableCatalogue(catalogue, 'search.catalogue');
  const start = knownEnd(a, 'a', catalogue.connectors);
  const goal = knownEnd(b, 'b', catalogue.connectors);
  const greatest = checkInteger(greatestPartsCount, 'search.greatestPartsCount', {
    min: 0,
    max: 6,
    unit: 'parts',
  });
  if (frequencyHz !== undefined) {
    checkRange(frequencyHz, 'search.frequencyHz', {
      min: 1e6,
      max: 100e9,
      unit: 'hertz',
      hints: frequencyHints,
    });
  }
  const terms = { catalogue, frequencyHz: frequencyHz ?? 1e9 };
  const rows = [...catalogue.adapters, ...catalogue.pigtails];
  const usable = frequencyHz === undefined ? rows : rows.filter((row) => isMeantFor(row, terms));
  return fewestParts({ start, goal, greatest, steps: usable.flatMap((row) => stepsOf(row, terms)), terms });
}

function isMeantFor(row: Adapter | Pigtail, { catalogue, frequencyHz }: Terms): boolean {
  const bySeries = row.ends.every(
    (end) =>
      connectorFor(checkedEnd(end, row.designation), catalogue.connectors).highestFrequencyHz >= frequencyHz,
  );
  if (row.kind === 'pigtail') return bySeries;
  return bySeries && row.lowestFrequencyHz <= frequencyHz && frequencyHz <= row.highestFrequencyHz;
}

function stepsOf(row: Adapter | Pigtail, { catalogue, frequencyHz }: Terms): readonly Step[] {
  const place = `the ends of ${row.designation}`;
  const first = knownEnd(row.ends[0], place, catalogue.connectors);
  const second = knownEnd(row.ends[1], place, catalogue.connectors);
  // Whether the figures reach this frequency is for the check of the chain to judge; here they only rank.
  const { lossDb, lossUncertaintyDb } =
    row.kind === 'adapter'
      ? row
      : cableLoss({
          cable: cableNamed(row.cable, catalogue),
          lengthM: row.lengthM,
          frequencyHz,
          outsideValidity: 'allow',
        });
  const cause = row.kind === 'adapter' ? `adapter ${row.designation}` : `cable ${row.cable}`;
  const doubt = { cause, lossUncertaintyDb };
  const step = (entry: StatedEnd, exit: StatedEnd): Step => {
    return { placed: { part: row, ends: [entry, exit] }, entry, exit, lossDb, doubt };
  };
  return [step(first, second), step(second, first)];
}

interface Search {
  readonly start: StatedEnd;
  readonly goal: StatedEnd;
  readonly greatest: number;
  readonly steps: readonly Step[];
  readonly terms: Terms;
}

/** Goes out from the start one part at a time and keeps, of all ways to one end with so many parts, the one that loses least. */
function fewestParts({ start, goal, greatest, steps, terms }: Search): AdapterPath | undefined {
  let reached: readonly Reached[] = [{ end: start, parts: [], lossDb: 0, mismatchLossDb: 0, doubts: [] }];
  for (let count = 0; count <= greatest; count++) {
    const arrived = reached
      .filter(({ end }) => matingOf(end, goal, terms.catalogue.connectors).mates)
      .map((place) => joined(place, goal, terms));
    const best = arrived.reduce<Reached | undefined>(cheaper, undefined);
    if (best !== undefined) return pathOf(best);
    const next = new Map<string, Reached>();
    for (const place of reached) {
      for (const step of steps) {
        if (!matingOf(place.end, step.entry, terms.catalogue.connectors).mates) continue;
        const key = endName(step.exit);
        next.set(key, cheaper(next.get(key), taken(place, step, terms)));
      }
    }
    reached = [...next.values()];
  }
  return undefined;
}

function cheaper(best: Reached | undefined, candidate: Reached): Reached {
  return best === undefined || candidate.lossDb < best.lossDb ? candidate : best;
}

/** The place with the pair formed by its open end and another half. */
function joined(place: Reached, half: StatedEnd, { frequencyHz, catalogue }: Terms): Reached {
  const pair = pairLoss(place.end, half, frequencyHz, catalogue.connectors);
  const cause = `pair ${place.parts.length}`;
  return {
    ...place,
    lossDb: place.lossDb + pair.contactLossDb + pair.mismatchLossDb,
    mismatchLossDb: place.mismatchLossDb + pair.mismatchLossDb,
    doubts: [
      ...place.doubts,
      { cause, lossUncertaintyDb: pair.contactLossUncertaintyDb },
      { cause: impedanceSteps, lossUncertaintyDb: pair.mismatchLossDb },
    ],
  };
}

function taken(place: Reached, { placed, entry, exit, lossDb, doubt }: Step, terms: Terms): Reached {
  const before = joined(place, entry, terms);
  return {
    end: exit,
    parts: [...before.parts, placed],
    lossDb: before.lossDb + lossDb,
    mismatchLossDb: before.mismatchLossDb,
    doubts: [...before.doubts, doubt],
  };
}

function pathOf({ parts, lossDb, mismatchLossDb, doubts }: Reached): AdapterPath {
  const names = parts.map(({ part, ends }) => {
    const [towardsA, towardsB] = ends.map(endName);
    return `${part.designation} (${towardsA} to ${towardsB})`;
  });
  return {
    parts,
    lossDb,
    lossUncertaintyDb: combinedUncertaintyDb(doubts),
    mismatchLossDb,
    inWords: names.length === 0 ? 'nothing: they mate' : names.join(', then '),
  };
}
