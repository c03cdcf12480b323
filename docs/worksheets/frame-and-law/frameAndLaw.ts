import {
  checkTransmission,
  type DataRate,
  type Direction,
  type FrameTime,
  type JurisdictionName,
  maxPayload,
  type Region,
  regions,
  type Transmission,
  type TransmissionCheck,
} from '@finial/lora';
import { modulationInWords } from '../../../packages/dossier/src/lawPart.js';
import { decibels, decimal, duration } from '../../../packages/dossier/src/page/wording.js';
import { about, literal } from '../frame/codeOf.js';
import { jurisdictionField, regionField } from '../frame/lawFields.js';
import { defineSheet, type Outcome, type SheetTable } from '../frame/sheet.js';

interface Values {
  readonly region: keyof typeof regions;
  readonly jurisdiction: JurisdictionName;
  readonly direction: Direction;
  readonly dataRate: number;
  readonly frequencyHz: number;
  readonly applicationBytes: number;
  readonly conductedPowerDbm: number;
  readonly feedlineLossDb: number;
  readonly antennaGainDbi: number;
  readonly intervalSeconds: number;
}

/** One frame against the regional parameters and the law. */
export const frameAndLaw = defineSheet<Values>({
  runs: 'typing',
  defaults: {
    region: 'EU868',
    jurisdiction: 'EU',
    direction: 'uplink',
    dataRate: 3,
    frequencyHz: 868.1e6,
    applicationBytes: 12,
    conductedPowerDbm: 14,
    feedlineLossDb: 0,
    antennaGainDbi: 2,
    intervalSeconds: 600,
  },
  groups: [
    {
      legend: 'Where',
      fields: [regionField, jurisdictionField],
    },
    {
      legend: 'The frame',
      fields: [
        {
          kind: 'choice',
          key: 'direction',
          label: 'Who sends',
          choices: [
            { value: 'uplink', label: 'the node (uplink)' },
            { value: 'downlink', label: 'the gateway (downlink)' },
          ],
        },
        {
          kind: 'number',
          key: 'dataRate',
          label: 'Data rate',
          unit: 'DR',
          step: 1,
          help: 'Index of the region: in EU868 DR0 is SF12, DR5 is SF7.',
        },
        { kind: 'number', key: 'frequencyHz', label: 'Frequency', unit: 'MHz', scale: 1e6, step: 0.1 },
        { kind: 'number', key: 'applicationBytes', label: 'Application payload', unit: 'bytes', step: 1 },
        { kind: 'number', key: 'intervalSeconds', label: 'Planned time between frames', unit: 's', step: 1 },
      ],
    },
    {
      legend: 'The radio',
      fields: [
        {
          kind: 'number',
          key: 'conductedPowerDbm',
          label: "Power at the transmitter's connector",
          unit: 'dBm',
          step: 0.5,
        },
        { kind: 'number', key: 'feedlineLossDb', label: 'Loss up to the antenna', unit: 'dB', step: 0.1 },
        { kind: 'number', key: 'antennaGainDbi', label: 'Antenna gain', unit: 'dBi', step: 0.1 },
      ],
    },
  ],
  compute: (values) => {
    const transmission = { ...values, region: regions[values.region] };
    return outcomeOf(values, checkTransmission(transmission), rateTable(transmission));
  },
});

function outcomeOf(values: Values, check: TransmissionCheck, rates: SheetTable): Outcome {
  const { timeOnAir, permitted, eirpDbm, erpDbm, minimumIntervalSeconds, framesPerHour } = check;
  const interval =
    minimumIntervalSeconds === undefined ? 'no known rule sets one' : duration(minimumIntervalSeconds);
  return {
    lead: permitted
      ? `Nothing found that forbids this frame: ${duration(timeOnAir.totalSeconds)} on the air.`
      : `This frame must not be sent like this: ${duration(timeOnAir.totalSeconds)} on the air.`,
    facts: [
      ['Time on air', duration(timeOnAir.totalSeconds)],
      ...partsOf(timeOnAir),
      ['Whole frame', `${check.phyPayloadBytes} bytes`],
      ['Radiated power', `${decibels(eirpDbm, 'dBm')} EIRP, ${decibels(erpDbm, 'dBm')} ERP`],
      ['Least time between starts', interval],
      ...(framesPerHour === undefined
        ? []
        : [['Such frames in an hour', decimal(framesPerHour, 0)] as [string, string]]),
    ],
    tables: [rates],
    findings: check.findings,
    code: codeOf(values, check),
  };
}

function partsOf(time: FrameTime): readonly (readonly [string, string])[] {
  return time.modulation === 'LR-FHSS'
    ? [['Headers', `${time.headerCount}, ${duration(time.headerSeconds)}`]]
    : [['Preamble and payload', `${duration(time.preambleSeconds)} + ${duration(time.payloadSeconds)}`]];
}

/** The same frame at every data rate of its direction. */
function rateTable(transmission: Transmission & { readonly region: Region }): SheetTable {
  const { region, direction = 'uplink' } = transmission;
  const rows = region.dataRates.filter((row) => row.direction === 'both' || row.direction === direction);
  return {
    caption: 'The same payload at every data rate',
    head: ['Data rate', 'Modulation', 'Longest payload', 'On the air', 'Least time between'],
    rows: rows.map((row) => rateCells(transmission, row)),
  };
}

function rateCells(transmission: Transmission, row: DataRate): string[] {
  const { region, direction = 'uplink', applicationBytes } = transmission;
  const longest = maxPayload({ region, dataRate: row.dataRate, direction });
  const most = longest.available ? longest.applicationBytes : 0;
  const head = [`DR${row.dataRate}`, modulationInWords(row), longest.available ? `${most} bytes` : '–'];
  if (applicationBytes > most) return [...head, 'does not fit', '–'];
  const { timeOnAir, minimumIntervalSeconds } = checkTransmission({
    ...transmission,
    dataRate: row.dataRate,
  });
  const interval = minimumIntervalSeconds === undefined ? '–' : duration(minimumIntervalSeconds);
  return [...head, duration(timeOnAir.totalSeconds), interval];
}

function codeOf({ region, ...rest }: Values, check: TransmissionCheck): string {
  const fields = literal(rest).replace(/^\{\s*/, `{ region: regions.${region}, `);
  return `import { checkTransmission, regions } from '@finial/lora';

const check = checkTransmission(${fields});
check.timeOnAir.totalSeconds; ${about(check.timeOnAir.totalSeconds)}
check.eirpDbm; ${about(check.eirpDbm)}
check.permitted; // → ${check.permitted}`;
}
