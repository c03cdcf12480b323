import type { Plan } from '../plan.js';

/** What a person has to say for a plan to come about; names are those of the options. */
export interface PlanAnswers {
  readonly name: string;
  readonly region: string;
  readonly jurisdiction: string;
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  readonly antennaHeightM: number;
  readonly antennaGainDbi: number;
  readonly conductedPowerDbm: number;
  readonly feedlineLossDb: number;
  readonly noiseFigureDb: number;
  readonly nodeHeightM: number;
  readonly nodeAntennaGainDbi: number;
  readonly nodeConductedPowerDbm: number;
  readonly nodeNoiseFigureDb: number;
  readonly dataRate: number;
  readonly frequencyHz: number;
  readonly applicationBytes: number;
  readonly intervalSeconds: number;
  readonly distanceM: number;
}

/** The plan that the answers make; `parsePlan` has yet to check it. */
export function planOf(answers: PlanAnswers): Record<keyof Omit<Plan, OptionalPart>, unknown> {
  const { name, region, jurisdiction, latitudeDeg, longitudeDeg, distanceM } = answers;
  return {
    version: 1,
    name,
    region,
    jurisdiction,
    gateway: {
      position: { latitudeDeg, longitudeDeg },
      antennaHeightM: answers.antennaHeightM,
      conductedPowerDbm: answers.conductedPowerDbm,
      feedlineLossDb: answers.feedlineLossDb,
      antennaGainDbi: answers.antennaGainDbi,
      noiseFigureDb: answers.noiseFigureDb,
    },
    node: {
      heightM: answers.nodeHeightM,
      conductedPowerDbm: answers.nodeConductedPowerDbm,
      antennaGainDbi: answers.nodeAntennaGainDbi,
      noiseFigureDb: answers.nodeNoiseFigureDb,
      uplink: {
        dataRate: answers.dataRate,
        frequencyHz: answers.frequencyHz,
        applicationBytes: answers.applicationBytes,
      },
      intervalSeconds: answers.intervalSeconds,
    },
    link: { distanceM },
  };
}

type OptionalPart = '$schema' | 'feedline' | 'antenna' | 'site' | 'terrain' | 'walk' | 'beacon';
