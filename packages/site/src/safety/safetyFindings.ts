import { exposureDistance } from '@finial/radio';
import { checkObject, type Finding } from '@finial/units';
import { ladderFindings } from './ladderFindings.js';
import { lightningFindings } from './lightningFindings.js';
import { mainsFindings } from './mainsFindings.js';
import { overheadLineFindings } from './overheadLineFindings.js';
import type { SafetyQuestion } from './SafetyQuestion.js';

const practice = 'common practice, no source';

/**
 * What people who build a gateway should be told before they climb: radio exposure, overhead lines, the ladder, lightning and bonding, mains.
 *
 * Cautions, never a permit: an empty list of stops does not make a site safe. Each defers to the local code and to licensed people. What is
 * not stated is asked for. Facts from memory give a note that says 'unverified'.
 *
 * @returns findings, topic by topic; there is at least one for each topic
 * @throws {@link InputError} `wrong-type`, `unknown-option`, `not-a-finite-number` or `out-of-range`
 * @source 47 CFR 1.1310 through `@finial/radio`; FCC amateur question pool, element 2, 2022-2026, T0B06; geometry; the source of each finding
 * @example A mast that can fall on a line
 * ```ts
 * import { safetyFindings } from '@finial/site';
 *
 * const findings = safetyFindings({ overheadLines: { distanceM: 5, mastHeightM: 4 } });
 * findings.filter(({ severity }) => severity === 'stop').map(({ rule }) => rule); // → ['overhead-line-fall-circle']
 * ```
 */
export function safetyFindings(question: SafetyQuestion): readonly Finding[] {
  checkObject(question, 'question');
  const { exposure, overheadLines, ladder, lightning, mains } = question;
  return [
    work(),
    ...(exposure === undefined
      ? [unstated('rf-exposure', 'power and frequency of the antenna')]
      : exposureDistance(exposure).findings),
    ...(overheadLines === undefined
      ? [
          unstated(
            'overhead-line',
            'distance of the nearest overhead line (look for the drop to the house too)',
          ),
        ]
      : overheadLineFindings(overheadLines)),
    ...(ladder === undefined ? [unstated('ladder', 'way up')] : ladderFindings(ladder)),
    ...(lightning === undefined
      ? [unstated('lightning', 'state of bonding and lightning protection')]
      : lightningFindings(lightning)),
    ...(mains === undefined ? [unstated('mains', 'way of mains voltage')] : mainsFindings(mains)),
  ];
}

function work(): Finding {
  return {
    rule: 'roof-work-caution',
    severity: 'note',
    message:
      'No work on a roof or mast in wind, wet, ice, darkness or when thunder is heard, none alone, none without fall protection. Consent of the owner and the load ' +
      'limit of the roof come first. These are cautions, not a permit: local rules and licensed people decide.',
    source: practice,
  };
}

function unstated(topic: string, what: string): Finding {
  return {
    rule: `${topic}-not-stated`,
    severity: 'note',
    message: `The ${what} was not stated, so nothing was judged. Find out before anybody climbs.`,
    source: practice,
  };
}
