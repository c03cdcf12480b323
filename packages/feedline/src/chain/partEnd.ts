import { checkObject, checkOneOf, checkRange, InputError } from '@finial/units';
import type { Gender, PartEnd, Polarity } from '../catalogue/parts.js';

const words = /^(RP-)?(\S(?:.*\S)?) (plug|jack)(?: (\d+(?:\.\d+)?) ohm)?$/;
const impedanceBounds = { min: 1, max: 500, unit: 'ohms' };

/** An end with nothing left to a default. */
export interface StatedEnd extends PartEnd {
  readonly polarity: Polarity;
  readonly impedanceOhm: number;
}

/** The end with its defaults filled in; what is no end is refused under the given path. */
export function checkedEnd(end: PartEnd, path: string): StatedEnd {
  checkObject(end, path);
  const { series, polarity = 'normal', impedanceOhm = 50 } = end;
  // A series that begins with RP- would be read back as another polarity.
  if (typeof series !== 'string' || series !== series.trim() || series === '' || series.startsWith('RP-')) {
    throw new InputError({
      code: typeof series === 'string' ? 'unknown-option' : 'wrong-type',
      argument: `${path}.series`,
      received: series,
      expected: "the name of a series, such as 'N' or 'SMA' (reverse polarity is said by the polarity)",
    });
  }
  return {
    series,
    gender: checkOneOf<Gender>(end.gender, `${path}.gender`, ['plug', 'jack']),
    polarity: checkOneOf<Polarity>(polarity, `${path}.polarity`, ['normal', 'reverse']),
    impedanceOhm: checkRange(impedanceOhm, `${path}.impedanceOhm`, impedanceBounds),
  };
}

/**
 * Half of a connector pair from the words of the trade: series, then plug or jack, then the impedance where it is not 50 ohms.
 *
 * `RP-` before the series means exchanged contacts. Plug and jack name the body: the moving half with the inner thread, and the fixed half
 * with the outer thread. Male and female are refused, since people use them for the body and for the contact alike.
 *
 * @param name - such as `N plug`, `RP-SMA jack`, `BNC plug 75 ohm`; the series is taken as written and looked up nowhere
 * @throws {@link InputError} `wrong-type`, `unknown-option` or `out-of-range` (impedance, 1 to 500 ohms)
 * @source Common practice, no source
 * @example
 * ```ts
 * import { partEnd } from '@finial/feedline';
 *
 * partEnd('RP-SMA plug').polarity; // → 'reverse'
 * partEnd('N jack 75 ohm').impedanceOhm; // → 75
 * ```
 */
export function partEnd(name: string): PartEnd {
  const expected =
    "series, then plug or jack, then the impedance if not 50 ohms: 'RP-SMA plug', 'N jack 75 ohm'";
  if (typeof name !== 'string') {
    throw new InputError({ code: 'wrong-type', argument: 'name', received: name, expected });
  }
  const [, reverse, series = '', gender, impedance] = words.exec(name.trim()) ?? [];
  if (series === '')
    throw new InputError({ code: 'unknown-option', argument: 'name', received: name, expected });
  return checkedEnd(
    {
      series,
      gender: gender as Gender,
      polarity: reverse === undefined ? 'normal' : 'reverse',
      impedanceOhm: impedance === undefined ? 50 : Number(impedance),
    },
    'name',
  );
}
