import type { Finding } from '@finial/units';
import type { HeatRemedy } from './heatRemedies.js';

/** What a day came to. */
interface HeatOutcome {
  readonly hottestInsideC: number;
  readonly hottestSkinC: number;
  readonly limitC: number;
  readonly marginK: number;
  readonly uncertaintyK: number;
  readonly remedies: readonly HeatRemedy[];
}

/** Which figures the caller stands for. */
interface HeatKnowledge {
  readonly limitIsKnown: boolean;
  readonly absorptivityIsKnown: boolean;
}

const hotToTouchC = 60;
const balance = 'energy balance of the box, rise ±30 %';

/** Weighs a day. What rests on figures from memory stays a note. */
export function heatFindings(outcome: HeatOutcome, knowledge: HeatKnowledge): readonly Finding[] {
  return [...limitFinding(outcome, knowledge), ...assumptions(knowledge), ...hotSurface(outcome)];
}

function limitFinding(
  outcome: HeatOutcome,
  { limitIsKnown, absorptivityIsKnown }: HeatKnowledge,
): readonly Finding[] {
  const { hottestInsideC, limitC, marginK, uncertaintyK, remedies } = outcome;
  if (marginK >= uncertaintyK) return [];
  const isKnown = limitIsKnown && absorptivityIsKnown;
  const best = remedies.reduce((one, other) => (other.gainK > one.gainK ? other : one));
  const state =
    marginK < 0
      ? `The air in the box is estimated to pass the limit of its electronics by ${(-marginK).toFixed(0)} K`
      : `The margin of ${marginK.toFixed(0)} K to the limit of the electronics is smaller than the uncertainty`;
  const help =
    best.gainK > 0
      ? `the most helpful change is ${best.description}: ${best.gainK.toFixed(0)} K`
      : 'none of the changes tried helps: draw less power or take parts rated hotter';
  return [
    {
      rule: 'heat-limit',
      severity: isKnown && marginK < 0 ? 'fix' : 'note',
      message: `${state} on this day; ${help}.${isKnown ? '' : ' Unverified: it rests on figures from memory.'}`,
      measured: `${hottestInsideC.toFixed(0)} °C ± ${uncertaintyK.toFixed(0)} K`,
      limit: `${limitC} °C`,
      source: limitIsKnown ? `limit of the caller; ${balance}` : `limit from memory, unverified; ${balance}`,
    },
  ];
}

function assumptions({ limitIsKnown, absorptivityIsKnown }: HeatKnowledge): readonly Finding[] {
  const taken = [
    ...(limitIsKnown ? [] : ['the limit of 70 °C']),
    ...(absorptivityIsKnown ? [] : ['the absorptivity of the colour (±0.1)']),
  ];
  if (taken.length === 0) return [];
  return [
    {
      rule: 'heat-assumptions',
      severity: 'note',
      message: `Taken from memory and unverified: ${taken.join(' and ')}; read the data sheets and give their figures.`,
      source: 'from memory, unverified',
    },
  ];
}

function hotSurface({ hottestSkinC }: HeatOutcome): readonly Finding[] {
  if (hottestSkinC < hotToTouchC) return [];
  return [
    {
      rule: 'hot-surface',
      severity: 'note',
      message:
        'The walls grow hot enough to burn a hand (unverified limit): work on the box in the morning, and mind hot roofs and your own heat stress.',
      measured: `${hottestSkinC.toFixed(0)} °C`,
      limit: `${hotToTouchC} °C`,
      source: 'common practice, no source',
    },
  ];
}
