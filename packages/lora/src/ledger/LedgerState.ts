import { checkObject, checkOneOf } from '@finial/units';
import type { Direction, Region } from '../Region.js';
import { refused } from '../refused.js';
import type { Access, ChannelUse, JurisdictionName } from '../Transmission.js';
import { type CheckedFrame, checkedFrame, checkedInstantUs } from './LedgerFrame.js';
import { secondsOf } from './microseconds.js';

/** A recorded frame, as plain data: it can be recorded again as it is. */
export interface LedgerEntry {
  /** Start in seconds of the ledger's epoch. */
  readonly startSeconds: number;
  /** Time on air in seconds, as it is counted: rounded up to the microsecond. */
  readonly timeOnAirSeconds: number;
  /** Centre frequency in hertz. */
  readonly frequencyHz: number;
  /** Index of the data rate. */
  readonly dataRate: number;
  /** Which way the frame went. */
  readonly direction: Direction;
}

/** A ledger as plain data, for a file: JSON and back gives the same answers. */
export interface LedgerState {
  /** Version of this format. */
  readonly version: 1;
  /** Name of the region, such as `EU868`. */
  readonly region: string;
  /** Whose law held. */
  readonly jurisdiction: JurisdictionName;
  /** How a node spread its uplinks, if it was said. */
  readonly channelUse?: ChannelUse | undefined;
  /** How the station shared its channel, if it was said. */
  readonly access?: Access | undefined;
  /** Seconds on the air in any 24 hours that the station allowed itself, if it did. */
  readonly dailyBudgetSeconds?: number | undefined;
  /** The frames that may still matter, by their starts. */
  readonly entries: readonly LedgerEntry[];
}

/** What a ledger is kept under; the entries of a state mean something else under anything else. */
export type LedgerTerms = Omit<LedgerState, 'version' | 'region' | 'entries'>;

/** A recorded frame inside the ledger. */
export interface RecordedFrame extends CheckedFrame {
  readonly startUs: number;
}

const keysOfState = [
  'version',
  'region',
  'jurisdiction',
  'channelUse',
  'access',
  'dailyBudgetSeconds',
  'entries',
];
const keysOfEntry = ['startSeconds', 'timeOnAirSeconds', 'frequencyHz', 'dataRate', 'direction'];

/** The ledger as plain data; what was not said is left out, as JSON would. */
export function stateOf(region: Region, terms: LedgerTerms, frames: Iterable<RecordedFrame>): LedgerState {
  const said = Object.fromEntries(Object.entries(terms).filter(([, value]) => value !== undefined));
  const entries = Array.from(frames, ({ startUs, durationUs, frequencyHz, dataRate, direction }) => ({
    startSeconds: secondsOf(startUs),
    timeOnAirSeconds: secondsOf(durationUs),
    frequencyHz,
    dataRate,
    direction,
  }));
  return { version: 1, region: region.name, ...(said as typeof terms), entries };
}

/** The frames of a state that was kept under the same terms. Every entry is checked as if it came from a stranger. */
export function framesOfState(region: Region, terms: LedgerTerms, state: LedgerState): RecordedFrame[] {
  checkObject(state, 'state');
  refuseOtherKeys(state, keysOfState, 'state');
  checkOneOf(state.version, 'state.version', [1]);
  checkOneOf(state.region, 'state.region', [region.name]);
  checkOneOf(state.jurisdiction, 'state.jurisdiction', [terms.jurisdiction]);
  refuseOtherTerm(state.channelUse, terms.channelUse, 'channelUse');
  refuseOtherTerm(state.access, terms.access, 'access');
  refuseOtherTerm(state.dailyBudgetSeconds, terms.dailyBudgetSeconds, 'dailyBudgetSeconds');
  if (!Array.isArray(state.entries)) {
    throw refused('state.entries', state.entries, 'a list', 'wrong-type');
  }
  return Array.from(state.entries, (entry: LedgerEntry, index) => {
    const path = `state.entries[${index}]`;
    checkObject(entry, path);
    refuseOtherKeys(entry, keysOfEntry, path);
    if (entry.timeOnAirSeconds === undefined) {
      throw refused(`${path}.timeOnAirSeconds`, undefined, 'seconds', 'missing');
    }
    const frame = checkedFrame(region, entry, `${path}.`);
    return { ...frame, startUs: checkedInstantUs(entry.startSeconds, `${path}.startSeconds`) };
  });
}

function refuseOtherTerm(kept: unknown, wanted: unknown, key: string): void {
  if (typeof kept === typeof wanted && inWords(kept) === inWords(wanted)) return;
  const expected = `${inWords(wanted)}, as the ledger is asked for`;
  throw refused(`state.${key}`, kept, expected, 'unknown-option');
}

/** A set of channels is an object: it is compared by what it says, in whatever order. */
function inWords(term: unknown): string {
  if (typeof term !== 'object' || term === null) return term === undefined ? 'nothing' : String(term);
  const members = Object.entries(term).sort(([a], [b]) => (a < b ? -1 : 1));
  return members.map(([name, value]) => `${name} ${String(value)}`).join(', ');
}

function refuseOtherKeys(value: object, known: readonly string[], path: string): void {
  const other = Object.keys(value).find((key) => !known.includes(key));
  if (other === undefined) return;
  throw refused(`${path}.${other}`, other, `only ${known.join(', ')}`, 'unknown-option');
}
