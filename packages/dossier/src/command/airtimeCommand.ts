import {
  type Access,
  type ChannelUse,
  checkTransmission,
  type Direction,
  type FrameTime,
  type JurisdictionName,
  type TransmissionCheck,
} from '@finial/lora';
import { type Command, Option } from 'commander';
import { inPlan } from '../inPlan.js';
import { codeOf, helpAfter } from './exitCodes.js';
import { decibels, megahertz, seconds } from './figures.js';
import { facts, findingLines, wrapped, writeJson, writeLines } from './layout.js';
import { flagOf, numberOption } from './numberOption.js';
import { firstChannelHz, regionNamed } from './regionNamed.js';
import type { CommandSetting, Terminal } from './Terminal.js';

interface AirtimeOptions {
  readonly region: string;
  readonly jurisdiction: JurisdictionName;
  readonly dataRate: number;
  readonly bytes: number;
  readonly conductedPowerDbm: number;
  readonly antennaGainDbi: number;
  readonly feedlineLossDb: number;
  readonly direction: Direction;
  readonly frequencyHz?: number;
  readonly foptsBytes?: number;
  readonly intervalSeconds?: number;
  readonly channelUse?: ChannelUse;
  readonly access?: Access;
  readonly dwellLimited?: true;
  readonly repeater?: true;
  readonly json?: true;
}

const example = `finial airtime --region EU868 --jurisdiction EU --data-rate 3 --bytes 12 \\
    --conducted-power-dbm 14 --antenna-gain-dbi 2`;

/** `finial airtime`: one frame against law and regional parameters. */
export function addAirtimeCommand(program: Command, { terminal, end }: CommandSetting): void {
  program
    .command('airtime')
    .description('check one frame: time on air, radiated power, least interval, and what the law says')
    .requiredOption('--region <name>', 'LoRaWAN regional parameters, such as EU868')
    .requiredOption('--jurisdiction <name>', 'whose law holds: EU, US, AU, JP, IN, KR or CN')
    .addOption(numberOption('--data-rate', 'data rate index of the region').makeOptionMandatory())
    .addOption(numberOption('--bytes', 'bytes of the application').makeOptionMandatory())
    .addOption(
      numberOption('--conducted-power-dbm', "power at the transmitter's connector").makeOptionMandatory(),
    )
    .addOption(numberOption('--antenna-gain-dbi', 'gain of the antenna').makeOptionMandatory())
    .addOption(numberOption('--feedline-loss-db', 'loss between transmitter and antenna', 0))
    .addOption(
      numberOption('--frequency-hz', 'channel centre; the first channel for the data rate when left out'),
    )
    .addOption(new Option('--direction <way>', 'who sends').choices(['uplink', 'downlink']).default('uplink'))
    .addOption(numberOption('--fopts-bytes', 'bytes of MAC commands in the header'))
    .addOption(numberOption('--interval-seconds', 'planned time between two starts; then it is checked too'))
    .option('--channel-use <way>', 'hopping-64, hybrid-8 or single; only some laws ask')
    .option('--access <way>', 'duty-cycle or listen-before-talk, where the law leaves the choice')
    .option('--dwell-limited', 'the network limits the dwell time of uplinks')
    .option('--repeater', 'the frame may pass a repeater')
    .option('--json', 'print the result as JSON')
    .addHelpText(
      'after',
      helpAfter(example, 'prints 205.8 ms on the air and 20.58 s between starts; writes no files.'),
    )
    .action((options: AirtimeOptions) => {
      const { frequencyHz, check } = checked(options);
      if (options.json) {
        const { region, jurisdiction, dataRate, direction } = options;
        writeJson(terminal, { region, jurisdiction, direction, dataRate, frequencyHz, ...check });
      } else writeLines(terminal, described(options, frequencyHz, check, terminal));
      end(codeOf(check.findings));
    });
}

function checked(options: AirtimeOptions): {
  readonly frequencyHz: number;
  readonly check: TransmissionCheck;
} {
  const { region: name, bytes, foptsBytes, json: _json, ...rest } = options;
  const region = regionNamed(name);
  const frequencyHz = options.frequencyHz ?? firstChannelHz(region, options.dataRate, options.direction);
  const flag = (argument: string) =>
    argument === 'applicationBytes'
      ? '--bytes'
      : argument === 'fOptsBytes'
        ? '--fopts-bytes'
        : flagOf(argument);
  const check = inPlan(flag, () =>
    checkTransmission({ ...rest, region, frequencyHz, applicationBytes: bytes, fOptsBytes: foptsBytes }),
  );
  return { frequencyHz, check };
}

function described(
  { region, dataRate, direction, bytes }: AirtimeOptions,
  frequencyHz: number,
  check: TransmissionCheck,
  terminal: Terminal,
): readonly string[] {
  const { timeOnAir, phyPayloadBytes, eirpDbm, erpDbm, permitted, findings, notCovered } = check;
  const verdict = permitted ? 'nothing found that forbids it' : 'must not be sent like this';
  const frame = `${region} DR${dataRate} ${direction}, ${timeOnAir.modulation}, ${megahertz(frequencyHz)}`;
  return [
    ...wrapped(`${frame}: ${verdict}.`, terminal),
    ...facts(
      [
        ['frame', `${bytes} bytes of the application, ${phyPayloadBytes} bytes in all`],
        ['time on air', `${seconds(timeOnAir.totalSeconds)} = ${partsInWords(timeOnAir)}`],
        ['radiated power', `${decibels(eirpDbm, 'dBm')} EIRP, ${decibels(erpDbm, 'dBm')} ERP`],
        ['least interval', intervalInWords(check)],
      ],
      terminal,
    ),
    ...findingLines(findings, terminal),
    ...(notCovered.length === 0 ? [] : wrapped(`Not looked at: ${notCovered.join('; ')}.`, terminal)),
  ];
}

function partsInWords(time: FrameTime): string {
  switch (time.modulation) {
    case 'LoRa':
      return `preamble ${seconds(time.preambleSeconds)} + ${time.payloadSymbols} symbols ${seconds(time.payloadSeconds)}`;
    case 'FSK':
      return `preamble ${seconds(time.preambleSeconds)} + payload ${seconds(time.payloadSeconds)}`;
    case 'LR-FHSS':
      return `${time.headerCount} headers ${seconds(time.headerSeconds)} + payload ${seconds(time.payloadSeconds)}`;
  }
}

function intervalInWords({
  minimumIntervalSeconds,
  intervalScope,
  framesPerHour,
}: TransmissionCheck): string {
  if (minimumIntervalSeconds === undefined) return 'no known rule sets one';
  const frames = framesPerHour === undefined ? '' : `, ${framesPerHour} frames an hour`;
  return `${seconds(minimumIntervalSeconds)} between starts on the same ${intervalScope}${frames}`;
}
