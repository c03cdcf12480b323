import { InputError, isInputError } from '@finial/units';
import { loraModulation } from '../loraModulation.js';
import { parsePlan } from '../parsePlan.js';
import { flagOf, numberOf } from './numberOption.js';
import { type PlanAnswers, planOf } from './planAnswers.js';
import { type PlanQuestion, planQuestions, textAnswers } from './planQuestions.js';
import type { Terminal } from './Terminal.js';

/** Answers that stand in for those that are not there yet, so that a single one can be checked as part of a plan. */
const placeholders: PlanAnswers = {
  name: 'plan',
  region: 'EU868',
  jurisdiction: 'EU',
  latitudeDeg: 0,
  longitudeDeg: 0,
  antennaHeightM: 10,
  antennaGainDbi: 0,
  conductedPowerDbm: 0,
  feedlineLossDb: 0,
  noiseFigureDb: 4,
  nodeHeightM: 1,
  nodeAntennaGainDbi: 0,
  nodeConductedPowerDbm: 0,
  nodeNoiseFigureDb: 4,
  dataRate: 3,
  frequencyHz: 868_100_000,
  applicationBytes: 1,
  intervalSeconds: 600,
  distanceM: 1000,
};

/**
 * Answers every question of a new plan: from the options, then from the person at the terminal, then by what is usual.
 *
 * @throws an `InputError` that names the options which are missing where nobody can be asked, or the first that is wrong
 */
export async function answeredPlan(given: Partial<PlanAnswers>, terminal: Terminal): Promise<PlanAnswers> {
  const answers: Record<string, string | number> = {};
  const missing: string[] = [];
  for (const question of planQuestions) {
    const { key } = question;
    const value = given[key] ?? (await otherwise(question, answers, terminal));
    if (value === undefined) missing.push(flagOf(key));
    else {
      const refusal = refusalOf(question, value, answers);
      if (refusal !== undefined) throw refusal;
      answers[key] = value;
    }
  }
  if (missing.length > 0) {
    const expected = 'a value for each of these options, where nobody can be asked';
    throw new InputError({ code: 'missing', argument: missing.join(', '), received: undefined, expected });
  }
  return answers as unknown as PlanAnswers;
}

async function otherwise(
  question: PlanQuestion,
  answers: Partial<PlanAnswers>,
  { ask, err }: Terminal,
): Promise<string | number | undefined> {
  const standard = question.standard?.(answers);
  if (ask === undefined || question.words === undefined) return standard;
  const shown = standard === undefined ? question.words : `${question.words} [${standard}]`;
  for (;;) {
    const text = (await ask(`${shown}: `)).trim();
    if (text === '' && standard !== undefined) return standard;
    const answer = answerOf(question, text, answers);
    if (!isInputError(answer)) return answer;
    err(`${answer.message}\n`);
  }
}

/** What a typed answer says, or why it will not do. */
function answerOf(
  question: PlanQuestion,
  text: string,
  answers: Partial<PlanAnswers>,
): string | number | InputError {
  try {
    const value = textAnswers.has(question.key) ? text : numberOf(text, flagOf(question.key));
    return refusalOf(question, value, answers) ?? value;
  } catch (error) {
    if (isInputError(error)) return error;
    throw error;
  }
}

/** The plan format's own refusal of an answer, named by its option; whatever else the plan lacks is not its business. */
function refusalOf(
  { key, place }: PlanQuestion,
  value: string | number,
  answers: Partial<PlanAnswers>,
): InputError | undefined {
  try {
    const plan = parsePlan(JSON.stringify(planOf({ ...placeholders, ...answers, [key]: value })));
    if (key === 'dataRate') loraModulation(plan, plan.node.uplink.dataRate, 'uplink', place);
    return undefined;
  } catch (error) {
    if (!isInputError(error)) throw error;
    if (error.argument !== place) return undefined;
    const { code, received, expected } = error;
    return new InputError({ code, argument: flagOf(key), received, expected });
  }
}
