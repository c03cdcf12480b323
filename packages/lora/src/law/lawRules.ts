import type { BandFact, SubBand } from './bandPlan.js';
import { sourceOf } from './bandPlan.js';
import { edges } from './bandRemark.js';
import type { Jurisdiction } from './Jurisdiction.js';
import { jurisdictions } from './jurisdictions.js';
import type { LawRule } from './LawRule.js';

/**
 * Every rule of every law that is known here, as a table: what it limits, where it stands, how far that was confirmed, and whether
 * {@link checkTransmission} looks at it.
 *
 * The rows of sub-bands come from the band plans that the checks use, so that table and checks cannot differ. Russia has no rows: the
 * sources at hand contradict each other (two MAC stacks give it different sub-bands and duty cycles, and its law was not read).
 *
 * @source each row's citation
 * @example Rules of Korea that make a transmission stop
 * ```ts
 * import { lawRules } from '@finial/lora';
 *
 * const korean = lawRules.filter(({ jurisdiction, use }) => jurisdiction === 'KR' && use === 'checked');
 * korean.find(({ limits }) => limits === 'longest transmission')?.figure; // → 4
 * ```
 */
export const lawRules: readonly LawRule[] = /* @__PURE__ */ everyRule();

function everyRule(): LawRule[] {
  return Object.values(jurisdictions).flatMap((law) => [
    ...law.plan.subBands.flatMap((subBand) => subBandRules(law, subBand)),
    ...law.plan.reserved.map((band) => ({
      id: `${law.name} ${edges(band)} reserved`,
      jurisdiction: law.name,
      limits: `kept for ${band.use}`,
      unit: '',
      citation: band.citation,
      use: 'checked' as const,
    })),
    ...law.otherRules,
  ]);
}

function subBandRules(law: Jurisdiction, subBand: SubBand): LawRule[] {
  const place = `${law.name} ${edges(subBand)}`;
  const rules: LawRule[] = [];
  const add = (fact: BandFact, limits: string, figure: number | undefined, unit: string): void => {
    if (figure === undefined) return;
    const citation = sourceOf(subBand, fact);
    const use = citation.status === 'memory' || fact === 'listening' ? 'noted' : 'checked';
    rules.push({ id: `${place} ${limits}`, jurisdiction: law.name, limits, figure, unit, citation, use });
  };
  const { listening, withoutDutyCycle } = subBand;
  add('erp', 'radiated power', subBand.maxErpDbm, 'dBm ERP');
  const ofNodes = subBand.maxGatewayEirpDbm === undefined ? '' : ' of nodes';
  add('eirp', `radiated power${ofNodes}`, subBand.maxEirpDbm, 'dBm EIRP');
  add('gatewayEirp', 'radiated power of gateways', subBand.maxGatewayEirpDbm, 'dBm EIRP');
  add('conductedPower', 'power at the port', subBand.maxConductedPowerDbm, 'dBm conducted');
  add('bandwidth', 'bandwidth', subBand.maxBandwidthHz, 'Hz');
  add('dutyCycle', 'duty cycle', subBand.dutyCycleRatio, `of ${subBand.observationSeconds} s, as a ratio`);
  add('burst', 'longest transmission', subBand.longestSeconds, 's');
  add('burst', 'pause after a transmission', subBand.pauseSeconds, 's');
  if (listening !== undefined) {
    add('listening', 'time of listening', listening.listenSeconds, 's');
    add('listening', 'level of an occupied channel', listening.thresholdDbm, 'dBm');
  }
  if (withoutDutyCycle === undefined) return rules;
  return [
    ...rules,
    {
      id: `${place} no duty cycle`,
      jurisdiction: law.name,
      limits: 'radiated power without a duty cycle',
      figure: withoutDutyCycle.maxErpDbm,
      unit: 'dBm ERP',
      citation: withoutDutyCycle.citation,
      use: withoutDutyCycle.citation.status === 'memory' ? 'noted' : 'checked',
    },
  ];
}
