import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Outcome, SheetFile, SheetFiles, Value } from '../../docs/worksheets/frame/sheet.js';
import { walk } from '../../docs/worksheets/walk/walk.js';
import { root } from '../support/workspace.js';
import { runSnippet } from './runSnippet.js';

const folder = join(root, 'examples', 'fennimara');
const logText = readFileSync(join(folder, 'walk.csv'), 'utf8');
const fileOf = (name: string, text: string): SheetFile => ({ name, bytes: new TextEncoder().encode(text) });
const fennimara = { log: [fileOf('walk.csv', logText)] };
const work = { signal: new AbortController().signal, onProgress: () => undefined };

async function ask(
  files: SheetFiles = fennimara,
  values: Readonly<Record<string, Value>> = {},
): Promise<Outcome> {
  return await walk.compute({ ...walk.defaults, ...values }, files, work);
}

const fact = (outcome: Outcome, name: string): string | undefined =>
  outcome.facts.find(([each]) => each === name)?.[1];
const rowsOf = (outcome: Outcome, caption: RegExp): readonly (readonly string[])[] =>
  outcome.tables?.find((table) => caption.test(table.caption))?.rows ?? [];

/** The example's log by nothing but its commas. */
const [head = '', ...lines] = logText.trim().split('\n');
const columns = head.split(',');
const cells = lines.map((line) => line.split(','));
const cell = (row: readonly string[], column: string): string => row[columns.indexOf(column)] ?? '';

const home = process.cwd();
beforeAll(() => process.chdir(folder));
afterAll(() => process.chdir(home));

describe('the walk on the invented island', () => {
  test('counts what the file holds', async () => {
    const outcome = await ask();
    const received = cells.filter((row) => cell(row, 'received') === '1').length;
    expect(fact(outcome, 'Frames received')).toMatch(new RegExp(`^${received} of ${cells.length}, `));
    const spots = new Set(cells.map((row) => cell(row, 'spot')));
    expect(fact(outcome, 'Spots')).toBe(String(spots.size));
    expect(fact(outcome, 'Rows read')).toBe(`${cells.length}, of which 0 skipped`);
  });

  test('counts each spot, and means its levels', async () => {
    const table = rowsOf(await ask(), /^The spots/);
    const names = [...new Set(cells.map((row) => cell(row, 'spot')))];
    expect(table.map(([name]) => name)).toEqual(names);
    for (const [name, , counted, , , rssi = ''] of table) {
      const there = cells.filter((row) => cell(row, 'spot') === name);
      const heard = there.filter((row) => cell(row, 'received') === '1');
      expect(counted).toBe(`${heard.length} of ${there.length}`);
      if (heard.length === 0) continue;
      const mean = heard.reduce((sum, row) => sum + Number(cell(row, 'rssi_dbm')), 0) / heard.length;
      expect(Number.parseFloat(rssi.replace('\u2212', '-'))).toBeCloseTo(mean, 0);
    }
  });

  test('draws map and levels, one dot for each received frame', async () => {
    const [map, levels] = (await ask()).pictures ?? [];
    const spots = new Set(cells.map((row) => cell(row, 'spot')));
    expect(map?.svg.match(/<circle class="spot share-\d" cx="\d/g)).toHaveLength(spots.size + 5);
    const received = cells.filter((row) => cell(row, 'received') === '1').length;
    expect(levels?.svg.match(/class="frame"/g)).toHaveLength(received);
    expect(levels?.svg.match(/class="missed"/g)).toHaveLength(cells.length - received);
  });

  test('proves only spots with enough frames', async () => {
    const outcome = await ask();
    const open = rowsOf(outcome, /^Frames still/);
    // Twenty-nine of twenty-nine are the least that prove 90 % at 95 % for one spot: 0.9 ** 29 < 0.05.
    for (const [name, received, sent] of rowsOf(outcome, /^The spots/).map(([spot, , counted = '']) => [
      spot,
      ...counted.split(' of '),
    ])) {
      if (received === sent && Number(sent) < 29) expect(open.map(([spot]) => spot)).toContain(name);
    }
    const [published, notClaimed] = outcome.lists ?? [];
    expect(published?.sentences[0]).toContain('at least 90 %');
    expect(notClaimed?.sentences.length).toBeGreaterThan(0);
  });

  test('reads the weakest frame from the noise', async () => {
    // -174 dBm per hertz in 125 kHz, noise figure 4, man-made noise 3, SF9 at -12.5 dB.
    const needed = -174 + 10 * Math.log10(125_000) + 4 + 3 - 12.5;
    const shown = fact(await ask(), 'Weakest frame that the gateway can read') ?? '';
    expect(shown).toMatch(/at SF9$/);
    expect(Number.parseFloat(shown.replace('\u2212', '-'))).toBeCloseTo(needed, 0);
  });

  test('is computed by the code that is shown', async () => {
    const { code } = await ask();
    expect(code).toContain("readFile('walk.csv'");
    await runSnippet(code);
  });
});

describe('other logs', () => {
  const plain = `latitude_deg;longitude_deg;received;rssi_dbm;snr_db
41,1950;-37,4322;1;-80,5;9
41,1951;-37,4322;1;-82;8,5
41,2000;-37,4322;1;-101;2
41,2000;-37,4322;0;;
41,2100;-37,4322;1;-113;-6
41,2100;-37,4322;x;;
`;

  test('a decimal comma, no spots, and a bad row that is skipped and listed', async () => {
    const files = { log: [fileOf('plain.csv', plain)] };
    const outcome = await ask(files, { decimal: ',', skipBadRows: true, squareM: 500 });
    expect(fact(outcome, 'Frames received')).toMatch(/^4 of 5, 80/);
    // A minute of latitude is a sea mile: 0.0049 to 0.0199 degrees are 544 to 2210 m north.
    expect(rowsOf(outcome, /^The spots/).map(([name]) => name)).toEqual([
      'east 0 m, north 500 m',
      'east 0 m, north 1000 m',
      'east 0 m, north 2000 m',
    ]);
    expect(rowsOf(outcome, /^Rows that were skipped/)).toEqual([
      ['7', expect.stringContaining('"x"'), expect.stringContaining('41,2100;-37,4322;x')],
    ]);
    expect(outcome.code).not.toContain('readFile');
    await runSnippet(outcome.code);
  });

  test('a bad row is refused with file and line', async () => {
    const asked = ask({ log: [fileOf('plain.csv', plain)] }, { decimal: ',' });
    await expect(asked).rejects.toMatchObject({ name: 'InputError', file: 'plain.csv', line: 7 });
  });

  test('a log of received frames claims nothing', async () => {
    const received = 'latitude_deg,longitude_deg,rssi_dbm\n41.195,-37.432,-90\n41.196,-37.432,-92\n';
    const outcome = await ask({ log: [fileOf('heard.csv', received)] }, { receivedOnly: true });
    expect(outcome.findings?.map(({ rule }) => rule)).toContain('received-only');
    expect(outcome.lead).not.toContain('%');
    expect(outcome.lists?.[0]?.sentences).toEqual([expect.stringMatching(/^Nothing/)]);
    await runSnippet(outcome.code);
  });

  test('bytes that are no text are refused', async () => {
    const asked = ask({ log: [{ name: 'walk.bin', bytes: Uint8Array.of(0xff, 0xfe, 0x00, 0xd8) }] });
    await expect(asked).rejects.toMatchObject({ name: 'InputError', file: 'walk.bin' });
  });
});

describe("a track and the gateway's log", () => {
  // Northwards along a meridian at 0.00001 degrees a second: 20 minutes, a frame every 60 s, every third one lost.
  const start = Date.UTC(2026, 2, 14, 10);
  const isoAt = (seconds: number, shiftSeconds = 0): string =>
    new Date(start + (seconds + shiftSeconds) * 1000).toISOString();
  const gpx = (shiftSeconds: number): string => {
    const points = Array.from(
      { length: 61 },
      (_, index) =>
        `<trkpt lat="${(41.1911 + index * 20 * 1e-5).toFixed(5)}" lon="-37.4322"><time>${isoAt(index * 20, shiftSeconds)}</time></trkpt>`,
    );
    return `<gpx><trk><trkseg>${points.join('')}</trkseg></trk></gpx>`;
  };
  const counters = Array.from({ length: 20 }, (_, index) => index + 1);
  const heard = counters.filter((counter) => counter % 3 !== 0);
  const uplinks = `time_utc,counter,rssi_dbm,snr_db\n${heard
    .map((counter) => `${isoAt(counter * 60)},${counter},${-90 - counter},${5 - counter / 2}`)
    .join('\n')}\n`;
  const filesOf = (shiftSeconds: number): SheetFiles => ({
    track: [fileOf('track.gpx', gpx(shiftSeconds))],
    uplinks: [fileOf('uplinks.csv', uplinks)],
  });

  test('a gap in the counters is a missed frame', async () => {
    const outcome = await ask(filesOf(0), { source: 'track' });
    // Counters 1 to 20, of which 3, 6, 9, 12, 15 and 18 are missing.
    expect(fact(outcome, 'Frames received')).toMatch(/^14 of 20, 70/);
    expect(fact(outcome, 'Added to the times of the track')).toBe('0\u00a0s');
    const elsewhere = mkdtempSync(join(tmpdir(), 'finial-walk-'));
    writeFileSync(join(elsewhere, 'track.gpx'), gpx(0));
    writeFileSync(join(elsewhere, 'uplinks.csv'), uplinks);
    process.chdir(elsewhere);
    await runSnippet(outcome.code).finally(() => process.chdir(folder));
    rmSync(elsewhere, { recursive: true });
  });

  test('a track in local time is moved by whole hours', async () => {
    const outcome = await ask(filesOf(7200), { source: 'track', clock: 'whole-hours' });
    expect(fact(outcome, 'Frames received')).toMatch(/^14 of 20/);
    expect(fact(outcome, 'Added to the times of the track')).toBe('-7200\u00a0s');
  });

  test('short files stand in the code, which then runs as it is', async () => {
    const point = (second: number, lat: number): string =>
      `<trkpt lat="${lat}" lon="-37.4322"><time>${isoAt(second)}</time></trkpt>`;
    const short = {
      track: [
        fileOf('t.gpx', `<gpx><trk><trkseg>${point(0, 41.195)}${point(240, 41.2)}</trkseg></trk></gpx>`),
      ],
      uplinks: [fileOf('u.csv', `time_utc,counter,rssi_dbm\n${isoAt(0)},7,-90\n${isoAt(120)},9,-99\n`)],
    };
    const values = { source: 'track', toTrackEnd: true };
    const outcome = await ask(short, values);
    // One frame a minute from 0 to 240 s: 7 to 11, of which 7 and 9 arrived.
    expect(fact(outcome, 'Frames received')).toMatch(/^2 of 5/);
    await runSnippet(outcome.code);
  });
});

describe('what is refused, by field', () => {
  test.each([
    ['no latitude', { gatewayLatitudeDeg: Number.NaN }, 'gatewayLatitudeDeg'],
    ['no noise figure', { noiseFigureDb: Number.NaN }, 'noiseFigureDb'],
    ['noise below zero', { manMadeNoiseDb: -3 }, 'manMadeNoiseDb'],
    ['no height', { nodeHeightM: Number.NaN }, 'nodeHeightM'],
    ['a data rate that is none', { dataRate: 14 }, 'dataRate'],
    ['a payload that is none', { applicationBytes: 5000 }, 'applicationBytes'],
    ['no power', { conductedPowerDbm: Number.NaN }, 'conductedPowerDbm'],
    ['no gain', { nodeGainDbi: Number.NaN }, 'nodeGainDbi'],
    ['no frequency', { frequencyHz: Number.NaN }, 'frequencyHz'],
    ['squares of no size', { squareM: 0 }, 'squareM'],
  ])('%s', async (_, values, field) => {
    const error = await ask(fennimara, values).then(
      () => undefined,
      (thrown: { argument: string; name: string }) => thrown,
    );
    expect(error?.name).toBe('InputError');
    const keys = walk.groups.flatMap(({ fields }) => fields.map(({ key }) => key));
    const argument = error?.argument ?? '';
    const named =
      walk.fieldOf?.[argument] ?? argument.split(/[.[\]]+/).findLast((part) => keys.includes(part));
    expect(named, argument).toBe(field);
  });
});
