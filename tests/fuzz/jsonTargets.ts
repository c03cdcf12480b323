import { parsePlan } from '@finial/dossier';
import { builtInCatalogue, checkCatalogue } from '@finial/feedline';
import { type LedgerSettings, type LedgerTransmission, regions, transmitLedger } from '@finial/lora';
import { isInputError } from '@finial/units';
import { exampleText } from './examples.js';
import { mutatedText, mutatedValue, oddNumber } from './mutations.js';
import { Random } from './Random.js';
import type { Target } from './Target.js';

function planArgs(random: Random): readonly unknown[] {
  const text = exampleText(random.pick(['plan.json', 'plan.json', 'plan-us.json']));
  if (random.chance(0.4)) return [mutatedText(text, random), { file: 'plan.json' }];
  const changed = JSON.stringify(mutatedValue(JSON.parse(text), random), (_, value: unknown) =>
    typeof value === 'bigint' ? Number(value) : value,
  );
  const odd = changed ?? '';
  return [random.chance(0.8) ? odd : mutatedText(odd, random)];
}

/** A ledger that takes frames, is written down, changed by a stranger, and opened again. */
function ledgerCalls(
  settings: LedgerSettings,
  frames: readonly LedgerTransmission[],
  change: (state: unknown) => unknown,
): unknown {
  const ledger = transmitLedger(settings);
  const answers = frames.map((frame) => {
    try {
      const answer = ledger.permits(frame);
      if (answer.permitted) ledger.record(frame);
      return [answer, ledger.nextPermitted(frame)];
    } catch (error) {
      if (isInputError(error)) return error.message;
      throw error;
    }
  });
  const kept = JSON.parse(JSON.stringify(ledger));
  const again = transmitLedger({ ...settings, state: kept });
  if (JSON.stringify(again) !== JSON.stringify(kept))
    throw new Error('the state did not come back as it was');
  const other = transmitLedger({ ...settings, state: change(kept) as never });
  return [answers, other.toJSON()];
}

function ledgerArgs(random: Random): readonly unknown[] {
  const settings = {
    region: random.pick([regions.EU868, regions.EU868, regions.US915, regions.AS923_1]),
    jurisdiction: random.pick(['EU', 'EU', 'US']),
    ...(random.chance(0.3) && { dailyBudgetSeconds: oddNumber(random, 30) }),
  };
  let startSeconds = 0;
  const frames = random.several(20, () => {
    startSeconds += random.ratio() * 10 ** random.whole(-3, 4);
    return mutatedValue(
      {
        frequencyHz: random.pick([868.1e6, 869.525e6, 902.3e6, 923.2e6]),
        dataRate: random.whole(0, 5),
        applicationBytes: random.whole(0, 60),
        direction: random.pick(['uplink', 'downlink']),
        startSeconds: random.chance(0.95) ? startSeconds : oddNumber(random, startSeconds),
      },
      random,
    );
  });
  return [settings, frames, `state ${random.whole(0, 1e9)}`];
}

export const jsonTargets: readonly Target[] = [
  { name: 'text.parsePlan', args: planArgs, call: parsePlan },
  {
    name: 'value.checkCatalogue',
    args: (random) => [mutatedValue(JSON.parse(JSON.stringify(builtInCatalogue)), random)],
    call: checkCatalogue,
  },
  {
    name: 'value.transmitLedger',
    args: ledgerArgs,
    call: ((settings: LedgerSettings, frames: readonly LedgerTransmission[], words: string) =>
      ledgerCalls(settings, frames, (state) => mutatedValue(state, new Random(words)))) as Target['call'],
  },
];
