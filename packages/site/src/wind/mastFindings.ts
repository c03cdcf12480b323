import type { Finding, Severity } from '@finial/units';
import type { MastLoad } from './mastLoad.js';

const practice = 'common practice, no source';

/** What a person should be told of a mast in the wind. */
export function mastFindings(
  load: Omit<MastLoad, 'findings'>,
  { iceM }: { readonly iceM: number },
): readonly Finding[] {
  const isVerified = load.pressure.isVerified && load.parts.every((part) => part.isVerified);
  return [
    caution(load),
    ...(isVerified ? [] : [unverified(load)]),
    ...(iceM === 0 ? [withoutIce()] : []),
    ...holdFindings(load, isVerified),
    ...tubeFindings(load, isVerified),
  ];
}

function caution({ pressure, forceN, momentNm }: Omit<MastLoad, 'findings'>): Finding {
  return {
    rule: 'mast-wind-caution',
    severity: 'note',
    message:
      `The wind pushes with ${figure(forceN)} N and ${figure(momentNm)} N·m about the foot, to some 30 %. An estimate for planning: a falling mast ` +
      'kills. Local building rules, the owner of the roof and a licensed structural engineer decide; add a second tether, and keep the fall circle clear.',
    measured: `${figure(forceN)} N, ${figure(momentNm)} N·m`,
    source: pressure.source,
  };
}

function unverified({ pressure, parts }: Omit<MastLoad, 'findings'>): Finding {
  const sources = [pressure, ...parts].filter((each) => !each.isVerified).map(({ source }) => source);
  return {
    rule: 'mast-figures-unverified',
    severity: 'note',
    message: `Some figures are unverified: ${[...new Set(sources)].join('; ')}. Read them in the code that holds at the place, or give your own.`,
    source: sources[0] ?? practice,
  };
}

function withoutIce(): Finding {
  return {
    rule: 'mast-ice',
    severity: 'note',
    message:
      'No ice is counted. Where it freezes on the mast, thin parts may double their width: enter its thickness.',
    source: practice,
  };
}

function holdFindings({ hold, safetyRatio }: Omit<MastLoad, 'findings'>, isVerified: boolean): Finding[] {
  if (hold === undefined) return [];
  const { tippingRatio, slidingRatio, ballastNeededKg, roofPressurePa } = hold;
  const roof: Finding = {
    rule: 'mast-roof-load',
    severity: 'note',
    message:
      `${roofPressurePa === undefined ? 'The ballast' : `The foot with ballast weighs ${figure(roofPressurePa / 1000)} kPa on its area, and more on one edge in the wind; it`} ` +
      'must be borne by the roof and its covering: ask who knows the structure, and lay a protecting sheet under it.',
    source: practice,
  };
  if (tippingRatio === undefined || slidingRatio === undefined) {
    const message = `On a level roof the foot needs ${Math.ceil(ballastNeededKg)} kg of ballast or more.`;
    const needed: Finding = {
      rule: 'mast-ballast-needed',
      severity: 'note',
      message,
      limit: `${figure(ballastNeededKg)} kg`,
      source: practice,
    };
    return [needed, roof];
  }
  const judged = [
    { rule: 'mast-tipping', ratio: tippingRatio, does: 'tips over' },
    { rule: 'mast-sliding', ratio: slidingRatio, does: 'slides' },
  ].flatMap(({ rule, ratio, does }): Finding[] => {
    if (ratio >= safetyRatio) return [];
    const what =
      ratio < 1 ? `The mast ${does} in this wind` : `The mast is too near to where it ${does} in this wind`;
    const message = `${what}${isVerified ? '' : ' (unverified figures)'}: put ${Math.ceil(ballastNeededKg)} kg of ballast in all on the foot, or a wider foot.`;
    return [
      {
        rule,
        severity: severityOf(ratio, isVerified),
        message,
        measured: `factor ${figure(ratio)}`,
        limit: `factor ${figure(safetyRatio)}`,
        source: `statics; factor: ${practice}`,
      },
    ];
  });
  return [...judged, roof];
}

function tubeFindings({ tube, safetyRatio }: Omit<MastLoad, 'findings'>, isVerified: boolean): Finding[] {
  if (tube?.reserveRatio === undefined || tube.reserveRatio >= safetyRatio) return [];
  const { reserveRatio, stressPa, strengthPa } = tube;
  const isSure = isVerified && tube.isVerified;
  const what =
    reserveRatio < 1
      ? 'The tube bends for good at its topmost support'
      : 'The tube is too near to bending for good';
  return [
    {
      rule: 'mast-tube-stress',
      severity: severityOf(reserveRatio, isSure),
      message: `${what}${isSure ? '' : ' (unverified figures)'}: take a wider or thicker tube, a higher bracket, or fewer parts up there.`,
      measured: `${figure(stressPa / 1e6)} MPa`,
      limit: `${figure(strengthPa / safetyRatio / 1e6)} MPa`,
      source: `beam theory; factor: ${practice}`,
    },
  ];
}

/** A figure from memory never stops anybody. */
function severityOf(ratio: number, isVerified: boolean): Severity {
  if (!isVerified) return 'note';
  return ratio < 1 ? 'stop' : 'fix';
}

function figure(value: number): string {
  return String(Number(value.toPrecision(3)));
}
