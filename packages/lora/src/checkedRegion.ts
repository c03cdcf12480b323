import { checkInteger, checkOneOf, checkRange, frequencyHints, InputError } from '@finial/units';
import type { DataRate, Direction, Region } from './Region.js';

/**
 * The region if it is one. JavaScript callers pass its name, a part of it, or one read from a file: every member that the functions of
 * this package read is looked at, so that none of them ends in a TypeError or a NaN.
 */
export function checkedRegion(region: Region): Region {
  const given: unknown = region;
  if (!isObject(given) || typeof given['name'] !== 'string' || !Array.isArray(given['dataRates'])) {
    throw wrongType('region', region, 'the regional parameters, such as regions.EU868');
  }
  checkOneOf(given['plan'], 'region.plan', ['dynamic', 'fixed']);
  checkRange(given['minHz'], 'region.minHz', bandHz);
  checkRange(given['maxHz'], 'region.maxHz', bandHz);
  checkInteger(given['repeaterMacPayloadBytes'], 'region.repeaterMacPayloadBytes', macPayload);
  each(given['dataRates'], 'region.dataRates', checkDataRateRow);
  each(given['unconfirmedDataRates'] ?? [], 'region.unconfirmedDataRates', checkDataRateRow);
  each(given['channels'], 'region.channels', checkChannelGroup);
  each(given['channelPlans'] ?? [], 'region.channelPlans', checkChannelPlan);
  checkPower(given['power']);
  checkFirstWindow(given['firstWindow']);
  checkDwell(given['dwell']);
  checkSources(given['sources']);
  return region;
}

/** The index if it can be a data rate: DR15 means 'keep' in commands and is none. */
export function checkedDataRate(dataRate: unknown, argument: string): number {
  return checkInteger(dataRate, argument, dataRateIndex);
}

/** The direction if it is one. */
export function checkedDirection(direction: unknown): Direction {
  return checkOneOf(direction, 'direction', ['uplink', 'downlink']);
}

/** The row of a data rate, also of an unconfirmed one, or nothing where the plan reserves the index or lets nobody use it. */
export function dataRateRow(region: Region, dataRate: number): DataRate | undefined {
  return [...region.dataRates, ...(region.unconfirmedDataRates ?? [])].find(
    (row) => row.dataRate === dataRate,
  );
}

/** Whether frames of this direction may use the row. */
export function serves(row: { readonly direction: Direction | 'both' }, direction: Direction): boolean {
  return row.direction === 'both' || row.direction === direction;
}

/** Whether the payload table of a limited dwell time holds: where the plan always limits it, or knows the setting and it is on. */
export function dwellTableHolds({ dwell }: Region, dwellLimited: boolean | undefined): boolean {
  return dwell !== undefined && (dwellLimited ?? dwell.when === 'always');
}

const bandHz = { min: 100e6, max: 3e9, unit: 'hertz', hints: frequencyHints };
const dataRateIndex = { min: 0, max: 14, unit: 'data rate' };
const macPayload = { min: 8, max: 250, unit: 'bytes' };
const directions = ['uplink', 'downlink', 'both'] as const;

type Members = Readonly<Record<string, unknown>>;

function checkDataRateRow(row: Members, path: string): void {
  checkInteger(row['dataRate'], `${path}.dataRate`, dataRateIndex);
  checkOneOf(row['direction'], `${path}.direction`, directions);
  checkInteger(row['macPayloadBytes'], `${path}.macPayloadBytes`, macPayload);
  const limited = row['dwellMacPayloadBytes'] ?? undefined;
  if (limited !== undefined) checkInteger(limited, `${path}.dwellMacPayloadBytes`, macPayload);
  const modulation = checkOneOf(row['modulation'], `${path}.modulation`, ['LoRa', 'FSK', 'LR-FHSS']);
  if (modulation === 'LoRa') {
    checkInteger(row['spreadingFactor'], `${path}.spreadingFactor`, {
      min: 5,
      max: 12,
      unit: 'bits per symbol',
    });
    checkRange(row['bandwidthHz'], `${path}.bandwidthHz`, { min: 7e3, max: 500e3, unit: 'hertz' });
  } else if (modulation === 'FSK') {
    checkRange(row['bitRateBps'], `${path}.bitRateBps`, { min: 600, max: 1e6, unit: 'bits per second' });
  } else {
    checkOneOf(row['codeRate'], `${path}.codeRate`, ['1/3', '2/3']);
    checkRange(row['channelWidthHz'], `${path}.channelWidthHz`, { min: 1e3, max: 10e6, unit: 'hertz' });
  }
}

function checkChannelGroup(group: Members, path: string): void {
  checkOneOf(group['direction'], `${path}.direction`, directions);
  checkRange(group['firstHz'], `${path}.firstHz`, bandHz);
  checkRange(group['stepHz'], `${path}.stepHz`, { min: 0, max: 1e9, unit: 'hertz' });
  checkInteger(group['channelCount'], `${path}.channelCount`, { min: 0, max: 1000, unit: 'channels' });
  checkRange(group['bandwidthHz'], `${path}.bandwidthHz`, { min: 1e3, max: 10e6, unit: 'hertz' });
  checkInteger(group['minDataRate'], `${path}.minDataRate`, dataRateIndex);
  checkInteger(group['maxDataRate'], `${path}.maxDataRate`, dataRateIndex);
}

function checkChannelPlan(plan: Members, path: string): void {
  if (typeof plan['name'] !== 'string') throw wrongType(`${path}.name`, plan['name'], 'a text');
  each(plan['channels'], `${path}.channels`, checkChannelGroup);
  each(plan['joinChannels'], `${path}.joinChannels`, (channel, place) => {
    checkRange(channel['uplinkHz'], `${place}.uplinkHz`, bandHz);
    checkRange(channel['firstWindowHz'], `${place}.firstWindowHz`, bandHz);
    checkRange(channel['secondWindowHz'], `${place}.secondWindowHz`, bandHz);
  });
  const window = plan['secondWindow'];
  if (!isObject(window)) throw wrongType(`${path}.secondWindow`, window, 'an object');
  checkRange(window['frequencyHz'], `${path}.secondWindow.frequencyHz`, bandHz);
  checkInteger(window['dataRate'], `${path}.secondWindow.dataRate`, dataRateIndex);
}

function checkPower(power: unknown): void {
  if (!isObject(power)) throw wrongType('region.power', power, 'an object');
  checkOneOf(power['quantity'], 'region.power.quantity', ['EIRP', 'conducted']);
  const levels = power['txPowersDbm'];
  if (!Array.isArray(levels)) throw wrongType('region.power.txPowersDbm', levels, 'a list');
  for (const [index, level] of levels.entries()) checkRange(level, `region.power.txPowersDbm[${index}]`, dbm);
  each(power['lowerParts'] ?? [], 'region.power.lowerParts', (part, path) => {
    checkRange(part['minHz'], `${path}.minHz`, bandHz);
    checkRange(part['maxHz'], `${path}.maxHz`, bandHz);
    checkRange(part['maximumDbm'], `${path}.maximumDbm`, dbm);
  });
}

const dbm = { min: -300, max: 300, unit: 'dBm' };

function checkFirstWindow(firstWindow: unknown): void {
  if (!isObject(firstWindow)) throw wrongType('region.firstWindow', firstWindow, 'an object');
  checkOffsets(firstWindow['dataRates'], 'region.firstWindow.dataRates');
  const limited = firstWindow['dwellDataRates'];
  if (limited !== undefined) checkOffsets(limited, 'region.firstWindow.dwellDataRates');
}

function checkOffsets(table: unknown, path: string): void {
  if (!isObject(table)) throw wrongType(path, table, 'data rates by uplink data rate');
  for (const [uplink, row] of Object.entries(table)) {
    if (!Array.isArray(row)) throw wrongType(`${path}.${uplink}`, row, 'a list');
    for (const [offset, dataRate] of row.entries()) {
      checkInteger(dataRate, `${path}.${uplink}[${offset}]`, dataRateIndex);
    }
  }
}

function checkDwell(dwell: unknown): void {
  if (dwell === undefined) return;
  if (!isObject(dwell)) throw wrongType('region.dwell', dwell, 'an object');
  checkOneOf(dwell['when'], 'region.dwell.when', ['always', 'commanded']);
  checkRange(dwell['dwellSeconds'], 'region.dwell.dwellSeconds', { min: 1e-3, max: 1e3, unit: 'seconds' });
}

/** A group that is missing is no fault: what rests on it is then unverified. */
function checkSources(sources: unknown): void {
  if (!isObject(sources)) throw wrongType('region.sources', sources, 'citations by group');
  for (const [group, citations] of Object.entries(sources)) {
    each(citations, `region.sources.${group}`, (citation, path) => {
      for (const member of ['document', 'edition']) {
        const text = citation[member];
        if (typeof text !== 'string') throw wrongType(`${path}.${member}`, text, 'a text');
      }
      checkOneOf(citation['status'], `${path}.status`, ['read', 'quoted', 'stack', 'memory']);
    });
  }
}

function each(list: unknown, path: string, check: (item: Members, path: string) => void): void {
  if (!Array.isArray(list)) throw wrongType(path, list, 'a list');
  for (const [index, item] of list.entries()) {
    if (!isObject(item)) throw wrongType(`${path}[${index}]`, item, 'an object');
    check(item, `${path}[${index}]`);
  }
}

function isObject(value: unknown): value is Members {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function wrongType(argument: string, received: unknown, expected: string): InputError {
  return new InputError({ code: 'wrong-type', argument, received, expected });
}
