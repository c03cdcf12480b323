import {
  type LedgerState,
  type LedgerTransmission,
  regions,
  type TransmitLedger,
  timeOnAir,
  transmitLedger,
  type WaitingFrame,
} from '@finial/lora';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

/** A frame on the air, in whole microseconds. */
interface Sent {
  readonly startUs: number;
  readonly endUs: number;
}

/**
 * The fullest window, by brute force and apart from the ledger's own way: the time on air within a sliding window can only be greatest
 * where one of its edges meets an edge of a frame.
 */
function fullestUs(sent: readonly Sent[], windowUs: number): number {
  const edges = sent.flatMap(({ startUs, endUs }) => [startUs, endUs]);
  const windows = edges.flatMap((edge) => [edge, edge - windowUs]);
  return Math.max(
    0,
    ...windows.map((fromUs) =>
      sent.reduce((sum, { startUs, endUs }) => {
        const inside = Math.min(endUs, fromUs + windowUs) - Math.max(startUs, fromUs);
        return sum + Math.max(0, inside);
      }, 0),
    ),
  );
}

function asSent({ startSeconds, timeOnAirSeconds }: LedgerTransmission): Sent {
  const startUs = Math.round(startSeconds * 1e6);
  return { startUs, endUs: startUs + Math.round((timeOnAirSeconds as number) * 1e6) };
}

function sentIn(ledger: TransmitLedger, mine: (frequencyHz: number) => boolean): readonly Sent[] {
  return ledger
    .toJSON()
    .entries.filter(({ frequencyHz }) => mine(frequencyHz))
    .map(asSent);
}

const european = { region: regions.EU868, jurisdiction: 'EU' } as const;
const american = { region: regions.US915, jurisdiction: 'US', channelUse: 'hopping-64' } as const;
const hour = 3600e6;

/** SF12, 51 bytes: 2793.472 ms, reference/lorawan.md, worked values. */
const slow = { frequencyHz: 868.1e6, dataRate: 0, applicationBytes: 51 } as const;

describe('limits of the law, at their edges', () => {
  test('1 % of an hour is 36 s: 36 frames of 1 s, then none before the first leaves the window', () => {
    const ledger = transmitLedger(european);
    const frame = { frequencyHz: 868.1e6, dataRate: 5, timeOnAirSeconds: 1 };
    for (let index = 0; index < 36; index++) {
      const tx = { ...frame, startSeconds: index * 10 };
      expect(ledger.permits(tx)).toMatchObject({ permitted: true, findings: [] });
      ledger.record(tx);
    }
    // The window that ends with the new frame must have lost as much as comes in: it begins 1 s after the first start.
    expect(ledger.nextPermitted(frame)).toBe(3600);
    expect(ledger.permits({ ...frame, startSeconds: 3600 }).permitted).toBe(true);
    const early = ledger.permits({ ...frame, startSeconds: 3599.999999 });
    expect(early.permitted).toBe(false);
    expect(early.nextPermittedSeconds).toBe(3600);
    expect(early.findings.map(({ rule, severity }) => [rule, severity])).toEqual([
      ['airtime-budget', 'stop'],
    ]);
    expect(early.findings[0]?.measured).toBe('36.000001 s');
    expect(early.findings[0]?.limit).toBe('36 s in 3600 s');
    expect(early.books).toEqual([
      {
        book: 'EU 868 to 868.6 MHz',
        usedSeconds: 35.000001,
        budgetSeconds: 36,
        windowSeconds: 3600,
      },
    ]);
  });

  test('one burst of the whole budget, and silence for the rest of the hour', () => {
    const ledger = transmitLedger(european);
    const burst = { frequencyHz: 868.3e6, dataRate: 0, timeOnAirSeconds: 36 };
    expect(ledger.permits({ ...burst, startSeconds: 0 }).permitted).toBe(true);
    ledger.record({ ...burst, startSeconds: 0 });
    // Any 1 ms more must wait until the window that ends with it has lost 1 ms of the burst.
    expect(ledger.nextPermitted({ ...burst, timeOnAirSeconds: 0.001 })).toBe(3600);
    expect(ledger.nextPermitted(burst)).toBe(3600);
    expect(ledger.nextPermitted({ ...burst, timeOnAirSeconds: 36.000001 })).toBeUndefined();
  });

  test('partial overlap counts: half a burst in the window leaves room for the other half', () => {
    const ledger = transmitLedger(european);
    ledger.record({ frequencyHz: 868.1e6, dataRate: 0, timeOnAirSeconds: 20, startSeconds: 0 });
    ledger.record({ frequencyHz: 868.1e6, dataRate: 0, timeOnAirSeconds: 10, startSeconds: 100 });
    // 30 s are used; 16 s need 10 s to have left: the window begins at 10 s, so the frame ends at 3610 s.
    expect(ledger.nextPermitted({ frequencyHz: 868.1e6, dataRate: 0, timeOnAirSeconds: 16 })).toBe(3594);
  });

  test('400 ms in 20 s on each frequency, the others stay free (47 CFR 15.247(a)(1)(i))', () => {
    const ledger = transmitLedger(american);
    // SF10 with 11 bytes: 370.688 ms, reference/lorawan.md, worked values.
    const frame = { frequencyHz: 902.3e6, dataRate: 0, applicationBytes: 11 };
    ledger.record({ ...frame, startSeconds: 100 });
    // The window that ends with the next frame may hold 29.312 ms of the first, so it begins that much before its end.
    expect(ledger.nextPermitted(frame)).toBeCloseTo(100.370688 - 0.029312 + 20 - 0.370688, 6);
    expect(ledger.nextPermitted({ ...frame, frequencyHz: 902.5e6 })).toBe(100.370688);
    const long = ledger.permits({ ...frame, frequencyHz: 902.7e6, applicationBytes: 12, startSeconds: 200 });
    expect(long).toMatchObject({ permitted: false, nextPermittedSeconds: undefined });
    expect(long.findings.map(({ rule }) => rule)).toEqual(['longest-frame']);
    // 0.4 s in 3.2 s over the 8 channels of a sub-band.
    const hybrid = transmitLedger({ ...american, channelUse: 'hybrid-8' });
    hybrid.record({ ...frame, startSeconds: 100 });
    expect(hybrid.nextPermitted(frame)).toBeCloseTo(100.370688 - 0.029312 + 3.2 - 0.370688, 6);
  });

  test('500 kHz downlinks in the United States have no budget, and still one transmitter', () => {
    const ledger = transmitLedger(american);
    const downlink = {
      frequencyHz: 923.3e6,
      dataRate: 8,
      applicationBytes: 33,
      direction: 'downlink',
    } as const;
    ledger.record({ ...downlink, startSeconds: 0 });
    const answer = ledger.permits({ ...downlink, startSeconds: 0.1 });
    expect(answer.findings.map(({ rule }) => rule)).toEqual(['frames-overlap']);
    expect(answer.nextPermittedSeconds).toBe(answer.timeOnAirSeconds);
    expect(answer.books).toEqual([]);
  });

  test('durations are those of the modulation', () => {
    const ledger = transmitLedger(european);
    const answer = ledger.permits({ ...slow, startSeconds: 0 });
    expect(answer.timeOnAirSeconds).toBe(2.793472);
    // 50 kbit/s, 20 + 13 bytes: 8 (5 + 3 + 1 + 33 + 2) bits, by hand 7.04 ms.
    const keyed = ledger.permits({
      frequencyHz: 868.8e6,
      dataRate: 7,
      applicationBytes: 20,
      startSeconds: 0,
    });
    expect(keyed.timeOnAirSeconds).toBe(0.00704);
    // LR-FHSS 1/3 with M = 58: 4067.328 ms, reference/lorawan.md section 1.
    const hopping = ledger.permits({
      frequencyHz: 868.1e6,
      dataRate: 8,
      applicationBytes: 50,
      startSeconds: 0,
    });
    expect(hopping.timeOnAirSeconds).toBe(4.067328);
  });

  test('what no rule covers is never permitted, yet can be recorded', () => {
    const ledger = transmitLedger(european);
    const foreign = { frequencyHz: 868.65e6, dataRate: 0, applicationBytes: 5 };
    const answer = ledger.permits({ ...foreign, startSeconds: 0 });
    expect(answer).toMatchObject({ permitted: false, nextPermittedSeconds: undefined, books: [] });
    expect(answer.findings.map(({ rule, severity }) => [rule, severity])).toEqual([['not-covered', 'stop']]);
    expect(ledger.nextPermitted(foreign)).toBeUndefined();
    ledger.record({ ...foreign, startSeconds: 0 });
    expect(ledger.toJSON().entries).toHaveLength(1);
  });

  test('a frame that was not permitted counts all the same', () => {
    const ledger = transmitLedger(european);
    for (const startSeconds of [0, 100]) {
      ledger.record({ frequencyHz: 868.1e6, dataRate: 0, timeOnAirSeconds: 30, startSeconds });
    }
    // 60 s are used, 36 s allowed: 1 s more has room when 25 s of the first have left the window that ends with it.
    const next = ledger.nextPermitted({ frequencyHz: 868.1e6, dataRate: 0, timeOnAirSeconds: 1 }) as number;
    expect(next).toBe(3600 + 25 - 1);
  });

  test('a daily budget is one more book for everything', () => {
    const ledger = transmitLedger({ ...european, dailyBudgetSeconds: 30 });
    const frame = { frequencyHz: 868.1e6, dataRate: 0, timeOnAirSeconds: 10 };
    ledger.record({ ...frame, startSeconds: 0 });
    ledger.record({ ...frame, frequencyHz: 869.525e6, startSeconds: 4000 });
    ledger.record({ ...frame, frequencyHz: 867.1e6, startSeconds: 8000 });
    expect(ledger.nextPermitted(frame)).toBe(86_400);
    const [finding] = ledger.permits({ ...frame, startSeconds: 20_000 }).findings;
    expect(finding?.message).toContain('Daily budget: 40 s on the air within 86400 s');
    expect(finding?.source).toContain('common practice, no source');
    expect(ledger.nextPermitted({ ...frame, timeOnAirSeconds: 30.1 })).toBeUndefined();
  });
});

describe('pauses, hops and what is known from memory only', () => {
  const korean = { region: regions.KR920, jurisdiction: 'KR' } as const;
  const frame = { frequencyHz: 922.1e6, dataRate: 5 } as const;

  test('a Korean station that listens: 4 s at most, then 50 ms of silence (IEEE 802.15 regulation survey)', () => {
    const ledger = transmitLedger({ ...korean, access: 'listen-before-talk' });
    ledger.record({ ...frame, timeOnAirSeconds: 4, startSeconds: 0 });
    expect(ledger.nextPermitted({ ...frame, timeOnAirSeconds: 1 })).toBe(4.05);
    expect(ledger.nextPermitted({ ...frame, timeOnAirSeconds: 4.001 })).toBeUndefined();
    const early = ledger.permits({ ...frame, timeOnAirSeconds: 1, startSeconds: 4.049999 });
    expect(early.findings.map(({ rule, severity }) => [rule, severity])).toEqual([['pause', 'stop']]);
    // Silence is asked for before a later frame too.
    ledger.record({ ...frame, timeOnAirSeconds: 1, startSeconds: 6 });
    expect(ledger.permits({ ...frame, timeOnAirSeconds: 1.9, startSeconds: 4.05 }).permitted).toBe(true);
    expect(ledger.nextPermitted({ ...frame, timeOnAirSeconds: 1.900001, startSeconds: 4.05 })).toBe(7.05);
  });

  test('a Korean station that does not listen: 2 % of any 20 s', () => {
    const ledger = transmitLedger({ ...korean, access: 'duty-cycle' });
    ledger.record({ ...frame, timeOnAirSeconds: 0.4, startSeconds: 0 });
    expect(ledger.nextPermitted({ ...frame, timeOnAirSeconds: 0.1 })).toBe(20);
  });

  test('what is remembered of the Japanese rules is noted and holds nothing back', () => {
    const ledger = transmitLedger({ region: regions.AS923_1, jurisdiction: 'JP' });
    const tx = { frequencyHz: 923.2e6, dataRate: 2, timeOnAirSeconds: 1 };
    ledger.record({ ...tx, startSeconds: 0 });
    const answer = ledger.permits({ ...tx, startSeconds: 1.01 });
    expect(answer).toMatchObject({ permitted: true, nextPermittedSeconds: 1.01 });
    expect(answer.findings.map(({ rule, severity }) => [rule, severity])).toEqual([['pause', 'note']]);
    expect(answer.findings[0]?.message).toContain('unverified');
  });

  test('an American LR-FHSS frame may last 4 s, for its hops are short', () => {
    const ledger = transmitLedger(american);
    const tx = { frequencyHz: 903e6, dataRate: 5 } as const;
    for (const duration of [{ applicationBytes: 50 }, { timeOnAirSeconds: 4.067328 }]) {
      const answer = ledger.permits({ ...tx, ...duration, startSeconds: 0 });
      expect(answer).toMatchObject({ permitted: true, timeOnAirSeconds: 4.067328, books: [], findings: [] });
    }
    ledger.record({ ...tx, applicationBytes: 50, startSeconds: 0 });
    expect(ledger.nextPermitted({ ...tx, applicationBytes: 50 })).toBe(4.067328);
  });

  test('a use that no known rule permits is refused with the reason', () => {
    const ledger = transmitLedger({ ...american, channelUse: { system: 'hopping', channelCount: 16 } });
    const answer = ledger.permits({
      frequencyHz: 902.3e6,
      dataRate: 3,
      applicationBytes: 5,
      startSeconds: 0,
    });
    expect(answer.permitted).toBe(false);
    expect(answer.findings[0]?.message).toContain('16 channels of 125 kHz are 34 too few');
  });

  test('a set of channels is the same in whatever order it is written', () => {
    const settings = { ...american, channelUse: { system: 'hybrid', channelCount: 16 } } as const;
    const ledger = transmitLedger(settings);
    ledger.record({ frequencyHz: 902.3e6, dataRate: 0, applicationBytes: 11, startSeconds: 0 });
    const state = { ...ledger.toJSON(), channelUse: { channelCount: 16, system: 'hybrid' } } as const;
    expect(transmitLedger({ ...settings, state }).toJSON()).toEqual(ledger.toJSON());
    expect(() => transmitLedger({ ...settings, state: { ...state, channelUse: 'hybrid-8' } })).toThrow(
      expect.objectContaining({ argument: 'state.channelUse' }),
    );
  });
});

const steps = [1, 0, 1, 7, 40, 400, 900, 3590, 3600, 4000];

/** A frame of any length up to the budget, and how long after the last one it is tried. */
const trial = fc.record({
  frequencyHz: fc.constantFrom(868.1e6, 868.3e6, 867.1e6, 869.525e6),
  durationUs: fc.oneof(fc.integer({ min: 1, max: 40_000_000 }), fc.constantFrom(36_000_000, 18_000_000, 1)),
  afterUs: fc.oneof(
    fc.integer({ min: 0, max: 4_000_000_000 }),
    fc.constantFrom(...steps.map((step) => step * 1e6)),
  ),
});

/** 47 CFR 15.247(a)(1)(i). */
const dwell = { budgetUs: 400_000, windowUs: 20_000_000 };

/** Whether a frame keeps the dwell time and clear of others, by brute force. */
function isFree(sent: readonly Sent[], startUs: number, durationUs: number): boolean {
  const endUs = startUs + durationUs;
  if (sent.some((other) => other.startUs < endUs && other.endUs > startUs)) return false;
  const near = sent.filter(
    (other) => other.endUs > startUs - dwell.windowUs && other.startUs < endUs + dwell.windowUs,
  );
  return fullestUs([...near, { startUs, endUs }], dwell.windowUs) <= dwell.budgetUs;
}

/** Where a frame would begin to fit, if it did before another start: by the edges of frames and windows, and just before. */
function startsToTry(sent: readonly Sent[], durationUs: number, nextUs: number): readonly number[] {
  const { windowUs } = dwell;
  const edges = sent.flatMap(({ startUs, endUs }) => [
    endUs,
    startUs - durationUs,
    startUs + windowUs,
    endUs + windowUs - durationUs,
    endUs - windowUs,
    startUs + windowUs - durationUs,
  ]);
  return [...edges, nextUs - 1, nextUs - 1000, Math.floor(nextUs / 2)];
}

const inSubBands: readonly [string, (frequencyHz: number) => boolean, number][] = [
  ['865 to 868 MHz', (hz) => hz < 868e6, 36e6],
  ['868 to 868.6 MHz', (hz) => hz > 868e6 && hz < 868.6e6, 36e6],
  ['869.4 to 869.65 MHz', (hz) => hz > 869.4e6, 360e6],
];

describe('properties', () => {
  test('no sequence of permitted frames is too much for any window, and none waits longer than it must', () =>
    fc.assert(
      fc.property(
        fc.array(trial, { maxLength: 30 }),
        fc.integer({ min: -4e9, max: 4e9 }),
        (trials, epoch) => {
          const ledger = transmitLedger(european);
          const all: LedgerTransmission[] = [];
          let nowUs = epoch * 1e3;
          for (const { frequencyHz, durationUs, afterUs } of trials) {
            const frame = { frequencyHz, dataRate: 5, timeOnAirSeconds: durationUs / 1e6 };
            nowUs += afterUs;
            const tx = { ...frame, startSeconds: nowUs / 1e6 };
            const answer = ledger.permits(tx);
            if (answer.permitted) {
              ledger.record(tx);
              all.push(tx);
              expect(answer.nextPermittedSeconds).toBe(tx.startSeconds);
              continue;
            }
            const next = answer.nextPermittedSeconds;
            expect(ledger.nextPermitted(tx)).toBe(next);
            if (next === undefined) {
              expect(durationUs).toBeGreaterThan(frequencyHz > 869.4e6 ? 360e6 : 36e6);
              continue;
            }
            expect(ledger.permits({ ...frame, startSeconds: next }).permitted).toBe(true);
            const before = ledger.permits({ ...frame, startSeconds: next - 0.001 });
            if (next - 0.001 > nowUs / 1e6) expect(before.permitted).toBe(false);
          }
          for (const [name, mine, budgetUs] of inSubBands) {
            const sent = all.filter(({ frequencyHz }) => mine(frequencyHz)).map(asSent);
            expect(fullestUs(sent, hour), name).toBeLessThanOrEqual(budgetUs);
          }
        },
      ),
    ));

  test('the same holds where frames are planned into gaps before others', () =>
    fc.assert(
      fc.property(
        fc.array(
          fc.record({
            durationUs: fc.integer({ min: 1, max: 400_000 }),
            startUs: fc.integer({ min: 0, max: 70_000_000 }),
          }),
          { maxLength: 40 },
        ),
        fc.integer({ min: 1, max: 400_000 }),
        fc.integer({ min: 0, max: 70_000_000 }),
        (planned, durationUs, fromUs) => {
          const ledger = transmitLedger(american);
          const frame = { frequencyHz: 902.3e6, dataRate: 3 };
          for (const each of planned) {
            const tx = {
              ...frame,
              timeOnAirSeconds: each.durationUs / 1e6,
              startSeconds: each.startUs / 1e6,
            };
            if (ledger.permits(tx).permitted) ledger.record(tx);
          }
          const sent = sentIn(ledger, () => true);
          expect(fullestUs(sent, dwell.windowUs)).toBeLessThanOrEqual(dwell.budgetUs);

          // The first free start, against trying other starts with the brute force.
          const waiting = { ...frame, timeOnAirSeconds: durationUs / 1e6, startSeconds: fromUs / 1e6 };
          const nextUs = Math.round((ledger.nextPermitted(waiting) as number) * 1e6);
          expect(isFree(sent, nextUs, durationUs)).toBe(true);
          for (const startUs of startsToTry(sent, durationUs, nextUs)) {
            if (startUs < fromUs || startUs >= nextUs) continue;
            expect(isFree(sent, startUs, durationUs), `at ${startUs}`).toBe(false);
          }
        },
      ),
      { numRuns: 300 },
    ));

  test('a ledger that was written to a file and read again gives the same answers', () =>
    fc.assert(
      fc.property(
        fc.array(trial, { minLength: 1, maxLength: 20 }),
        fc.array(fc.boolean(), { minLength: 20, maxLength: 20 }),
        fc.option(fc.integer({ min: 20, max: 200 }), { nil: undefined }),
        (trials, restarts, dailyBudgetSeconds) => {
          const steady = transmitLedger({ ...european, dailyBudgetSeconds });
          let restarted = transmitLedger({ ...european, dailyBudgetSeconds });
          let nowUs = 1_700_000_000e6;
          for (const [index, { frequencyHz, durationUs, afterUs }] of trials.entries()) {
            nowUs += afterUs;
            const tx = {
              frequencyHz,
              dataRate: 3,
              timeOnAirSeconds: durationUs / 1e6,
              startSeconds: nowUs / 1e6,
            };
            if (restarts[index]) {
              const state = JSON.parse(JSON.stringify(restarted)) as LedgerState;
              restarted = transmitLedger({ ...european, dailyBudgetSeconds, state });
            }
            const answer = steady.permits(tx);
            expect(restarted.permits(tx)).toEqual(answer);
            expect(restarted.nextPermitted(asWaiting(tx))).toBe(steady.nextPermitted(asWaiting(tx)));
            if (!answer.permitted) continue;
            steady.record(tx);
            restarted.record(tx);
          }
          expect(restarted.toJSON()).toEqual(steady.toJSON());
        },
      ),
    ));

  test('books are independent: frames of another sub-band change nothing but while they last', () =>
    fc.assert(
      fc.property(fc.array(trial, { maxLength: 20 }), (trials) => {
        const mixed = transmitLedger(european);
        const alone = transmitLedger(european);
        let nowUs = 0;
        for (const { durationUs, afterUs } of trials) {
          nowUs += afterUs;
          const foreign = {
            frequencyHz: 869.525e6,
            dataRate: 5,
            timeOnAirSeconds: 5,
            startSeconds: nowUs / 1e6,
          };
          if (mixed.permits(foreign).permitted) mixed.record(foreign);
          nowUs += 5e6;
          const tx = {
            ...foreign,
            frequencyHz: 868.1e6,
            timeOnAirSeconds: durationUs / 1e6,
            startSeconds: nowUs / 1e6,
          };
          const answer = alone.permits(tx);
          expect(mixed.permits(tx)).toEqual(answer);
          nowUs += durationUs;
          if (!answer.permitted) continue;
          alone.record(tx);
          mixed.record(tx);
        }
      }),
    ));

  test('old frames are forgotten, and the state stays small', () => {
    const ledger = transmitLedger(european);
    const frame = { frequencyHz: 868.1e6, dataRate: 5, applicationBytes: 20 };
    for (let index = 0; index < 2000; index++) ledger.record({ ...frame, startSeconds: index * 60 });
    // An hour of lateness and an hour of window: 120 frames at one a minute.
    expect(ledger.toJSON().entries.length).toBeLessThanOrEqual(121);
    expect(ledger.toJSON().entries.length).toBeGreaterThanOrEqual(119);
  });

  test('microseconds survive the epoch of the world clock', () =>
    fc.assert(
      fc.property(
        fc.integer({ min: -4e9, max: 3.9e9 }),
        fc.integer({ min: 0, max: 999_999 }),
        fc.integer({ min: 1, max: 30_000_000 }),
        (second, microsecond, durationUs) => {
          const ledger = transmitLedger(european);
          const frame = { frequencyHz: 868.1e6, dataRate: 5, timeOnAirSeconds: durationUs / 1e6 };
          const startSeconds = (second * 1e6 + microsecond) / 1e6;
          ledger.record({ ...frame, startSeconds });
          const next = ledger.nextPermitted(frame) as number;
          expect(ledger.permits({ ...frame, startSeconds: next }).permitted).toBe(true);
          const endUs = second * 1e6 + microsecond + durationUs;
          if (durationUs <= 18_000_000) expect(Math.round(next * 1e6)).toBe(endUs);
        },
      ),
    ));
});

function asWaiting({ startSeconds: _, ...frame }: LedgerTransmission): WaitingFrame {
  return frame;
}

describe('refusals', () => {
  const ledger = () => {
    const made = transmitLedger(european);
    made.record({ ...slow, startSeconds: 10_000 });
    return made;
  };

  test('a frame over another cannot be recorded, one that touches it can', () => {
    const made = ledger();
    for (const startSeconds of [10_000, 10_002, 9998]) {
      expect(() => made.record({ ...slow, startSeconds })).toThrow(
        expect.objectContaining({ name: 'InputError', code: 'out-of-range', argument: 'startSeconds' }),
      );
    }
    made.record({ ...slow, startSeconds: 10_002.793472 });
    made.record({ ...slow, startSeconds: 10_000 - 2.793472 });
    expect(made.toJSON().entries.map(({ startSeconds }) => startSeconds)).toEqual([
      9997.206528, 10_000, 10_002.793472,
    ]);
  });

  test('what is longer ago than an hour is refused, in questions too', () => {
    const startSeconds = 6402;
    for (const call of ['permits', 'record', 'nextPermitted'] as const) {
      const made = ledger();
      expect(() => made[call]({ ...slow, startSeconds })).toThrow(
        expect.objectContaining({ code: 'out-of-range', argument: 'startSeconds' }),
      );
      expect(() => made[call]({ ...slow, startSeconds: 6403 })).not.toThrow();
    }
  });

  test.each([
    ['frequencyHz', { frequencyHz: 868.1 }],
    ['dataRate', { dataRate: 15 }],
    ['dataRate', { dataRate: 14 }],
    ['direction', { direction: 'up' }],
    ['startSeconds', { startSeconds: 1.7e12 }],
    ['startSeconds', { startSeconds: Number.NaN }],
    ['startSeconds', { startSeconds: undefined }],
    ['applicationBytes', { applicationBytes: 243 }],
    ['applicationBytes', { applicationBytes: undefined }],
    ['timeOnAirSeconds', { timeOnAirSeconds: 1 }],
    ['timeOnAirSeconds', { applicationBytes: undefined, timeOnAirSeconds: 0 }],
    ['timeOnAirSeconds', { applicationBytes: undefined, timeOnAirSeconds: 3601 }],
    ['timeOnAirSeconds', { applicationBytes: undefined, timeOnAirSeconds: '1' }],
  ])('%s of %o is refused by name', (argument, wrong) => {
    const tx = { ...slow, startSeconds: 0, ...wrong } as LedgerTransmission;
    for (const call of ['permits', 'record'] as const) {
      expect(() => transmitLedger(european)[call](tx)).toThrow(
        expect.objectContaining({ name: 'InputError', argument }),
      );
    }
  });

  test('milliseconds are hinted at', () =>
    expect(() => ledger().permits({ ...slow, startSeconds: 1.7e12 })).toThrow(/milliseconds\?/));

  const state = ledger().toJSON();
  const [entry] = state.entries;
  test.each([
    ['state.version', { ...state, version: 2 }],
    ['state.region', { ...state, region: 'US915' }],
    ['state.jurisdiction', { ...state, jurisdiction: 'US' }],
    ['state.access', { ...state, access: 'duty-cycle' }],
    ['state.dailyBudgetSeconds', { ...state, dailyBudgetSeconds: 30 }],
    ['state.dailyBudgetSeconds', { ...state, dailyBudgetSeconds: Number.NaN }],
    ['state.note', { ...state, note: 'x' }],
    ['state.entries', { ...state, entries: 'none' }],
    ['state.entries[0]', { ...state, entries: [null] }],
    ['state.entries[0].startMs', { ...state, entries: [{ ...entry, startMs: 1 }] }],
    ['state.entries[0].startSeconds', { ...state, entries: [{ ...entry, startSeconds: null }] }],
    ['state.entries[0].timeOnAirSeconds', { ...state, entries: [{ ...entry, timeOnAirSeconds: -1 }] }],
    ['state.entries[0].frequencyHz', { ...state, entries: [{ ...entry, frequencyHz: 868 }] }],
    ['state.entries[0].dataRate', { ...state, entries: [{ ...entry, dataRate: 13 }] }],
    ['state.entries[0].direction', { ...state, entries: [{ ...entry, direction: '' }] }],
    ['state.entries[1].startSeconds', { ...state, entries: [entry, entry] }],
  ])('%s is refused by its path', (argument, wrong) =>
    expect(() => transmitLedger({ ...european, state: wrong as LedgerState })).toThrow(
      expect.objectContaining({ name: 'InputError', argument }),
    ),
  );

  test.each([
    ['region', { region: 'EU868' }],
    ['jurisdiction', { jurisdiction: 'Mars' }],
    ['channelUse', { channelUse: 'all' }],
    ['access', { access: 'politely' }],
    ['dailyBudgetSeconds', { dailyBudgetSeconds: 0 }],
    ['dailyBudgetSeconds', { dailyBudgetSeconds: 86_401 }],
    ['dailyBudgetSeconds', { dailyBudgetSeconds: Number.POSITIVE_INFINITY }],
  ])('%s of %o is refused by name', (argument, wrong) =>
    expect(() => transmitLedger({ ...european, ...wrong } as never)).toThrow(
      expect.objectContaining({ name: 'InputError', argument }),
    ),
  );

  test('a day of a busy gateway is kept in order, and questions about it change nothing', () => {
    const busy = transmitLedger({ ...european, dailyBudgetSeconds: 8640 });
    const { totalSeconds } = timeOnAir({
      spreadingFactor: 7,
      bandwidthHz: 125e3,
      codingRate: 5,
      payloadBytes: 30,
      crc: false,
    });
    const frame = {
      frequencyHz: 869.525e6,
      dataRate: 5,
      timeOnAirSeconds: totalSeconds,
      direction: 'downlink',
    } as const;
    for (let index = 0; index < 20_000; index++) busy.record({ ...frame, startSeconds: index * 0.8 });
    const answers = Array.from({ length: 100 }, () => busy.nextPermitted({ ...frame, startSeconds: 15_000 }));
    expect(new Set(answers.map((answer) => JSON.stringify(answer))).size).toBe(1);
  });
});
