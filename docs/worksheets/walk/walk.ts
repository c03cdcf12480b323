import { jurisdictionField, regionField } from '../frame/lawFields.js';
import { defineSheet } from '../frame/sheet.js';
import { whereChosen } from '../frame/whereChosen.js';
import type { WalkValues } from './walkValues.js';

const ofLog = whereChosen('source', 'log');
const ofTrack = whereChosen('source', 'track');
/** What a walk log, or a track with the gateway's log, says of a gateway. */
export const walk = defineSheet<WalkValues>({
  runs: 'typing',
  defaults: {
    source: 'log',
    decimal: '.',
    receivedOnly: false,
    skipBadRows: false,
    clock: 'same',
    clockOffsetSeconds: 0,
    toTrackEnd: false,
    squareM: 200,
    gatewayLatitudeDeg: 41.1901,
    gatewayLongitudeDeg: -37.4322,
    noiseFigureDb: 4,
    manMadeNoiseDb: 3,
    region: 'EU868',
    jurisdiction: 'EU',
    dataRate: 3,
    frequencyHz: 868.1e6,
    applicationBytes: 4,
    nodeHeightM: 1.5,
    conductedPowerDbm: 14,
    nodeGainDbi: -2,
  },
  groups: [
    {
      legend: 'The walk',
      fields: [
        {
          kind: 'choice',
          key: 'source',
          label: 'What was written down',
          choices: [
            { value: 'log', label: 'a log with a place for each frame' },
            { value: 'track', label: "a track, and the gateway's log" },
          ],
        },
        {
          kind: 'file',
          key: 'log',
          label: 'Walk log (CSV, GeoJSON, NDJSON)',
          accept: '.csv,.txt,.json,.geojson,.ndjson,.jsonl',
          isAsked: ofLog,
          help: 'One row for each frame sent, the missed ones too. The columns are listed below.',
        },
        {
          kind: 'file',
          key: 'track',
          label: 'Track of the walker (GPX, CSV, NDJSON)',
          accept: '.gpx,.csv,.txt,.ndjson,.jsonl',
          isAsked: ofTrack,
        },
        {
          kind: 'file',
          key: 'uplinks',
          label: 'Frames that the gateway received (CSV, NDJSON)',
          accept: '.csv,.txt,.ndjson,.jsonl',
          isAsked: ofTrack,
          help: 'A gap in the frame counters is a missed frame: it gets the place where the walker was then.',
        },
        {
          kind: 'choice',
          key: 'decimal',
          label: 'Decimal mark in CSV',
          choices: [
            { value: '.', label: 'point: 12.5' },
            { value: ',', label: 'comma: 12,5' },
          ],
        },
        {
          kind: 'check',
          key: 'skipBadRows',
          label: 'Skip rows that cannot be read, and list them',
        },
        {
          kind: 'check',
          key: 'receivedOnly',
          label: 'The log holds received frames only',
          isAsked: ofLog,
          help: 'Then it cannot show what was missed, and nothing may be claimed from it.',
        },
        {
          kind: 'choice',
          key: 'clock',
          label: 'Clocks of track and gateway',
          isAsked: ofTrack,
          choices: [
            { value: 'same', label: 'both right' },
            { value: 'whole-hours', label: 'track in local time: find the whole hours' },
            { value: 'levels', label: 'find the seconds from the levels' },
            { value: 'stated', label: 'state the seconds' },
          ],
        },
        {
          kind: 'number',
          key: 'clockOffsetSeconds',
          label: "Add to the track's times",
          unit: 's',
          step: 1,
          isAsked: (values) => ofTrack(values) && values['clock'] === 'stated',
        },
        {
          kind: 'check',
          key: 'toTrackEnd',
          label: 'The node went on sending to the end of the track',
          isAsked: ofTrack,
          help: 'The gateway knows nothing of frames after the last that it received.',
        },
        {
          kind: 'number',
          key: 'squareM',
          label: 'Squares for frames without a spot',
          unit: 'm',
          step: 50,
          help: 'Where frames have no name of a spot, those of one square of this side count as one spot.',
        },
      ],
    },
    {
      legend: 'The gateway',
      fields: [
        {
          kind: 'number',
          key: 'gatewayLatitudeDeg',
          label: 'Latitude',
          unit: '°',
          step: 0.0001,
          help: 'North of the equator is positive.',
        },
        {
          kind: 'number',
          key: 'gatewayLongitudeDeg',
          label: 'Longitude',
          unit: '°',
          step: 0.0001,
          help: 'East of Greenwich is positive.',
        },
        {
          kind: 'number',
          key: 'noiseFigureDb',
          label: 'Noise figure of its receiver',
          unit: 'dB',
          step: 0.5,
          help: 'What the receiver adds to the noise of nature. With the next field it says how weak a frame may be before it is missed.',
        },
        {
          kind: 'number',
          key: 'manMadeNoiseDb',
          label: 'Man-made noise',
          unit: 'dB',
          step: 0.5,
          help: 'What machines and other radios add on top.',
        },
      ],
    },
    {
      legend: 'The node',
      fields: [
        regionField,
        jurisdictionField,
        {
          kind: 'number',
          key: 'dataRate',
          label: 'Data rate',
          unit: 'DR',
          step: 1,
          help: 'In EU868 DR3 is SF9. The statement counts the frames of the log with that spreading factor.',
        },
        { kind: 'number', key: 'frequencyHz', label: 'Frequency', unit: 'MHz', scale: 1e6, step: 0.1 },
        { kind: 'number', key: 'applicationBytes', label: 'Application payload', unit: 'bytes', step: 1 },
        {
          kind: 'number',
          key: 'nodeHeightM',
          label: 'Its antenna above the ground',
          unit: 'm',
          step: 0.1,
        },
        {
          kind: 'number',
          key: 'conductedPowerDbm',
          label: 'Power at its connector',
          unit: 'dBm',
          step: 0.5,
        },
        { kind: 'number', key: 'nodeGainDbi', label: 'Gain of its antenna', unit: 'dBi', step: 0.1 },
      ],
    },
  ],
  waitsFor: [
    { key: 'log', words: 'Drop a walk log, or use that of the invented island.' },
    { key: 'track', words: 'Drop the track of the walk.' },
    { key: 'uplinks', words: 'Drop what the gateway received.' },
  ],
  samples: [{ key: 'log', name: 'the walk on the invented island', url: '/fennimara/walk.csv' }],
  fieldOf: {
    observations: 'log',
    'gateway.latitudeDeg': 'gatewayLatitudeDeg',
    'gateway.longitudeDeg': 'gatewayLongitudeDeg',
    'origin.latitudeDeg': 'gatewayLatitudeDeg',
    'origin.longitudeDeg': 'gatewayLongitudeDeg',
    'position.latitudeDeg and longitudeDeg': 'gatewayLatitudeDeg',
    'node.heightM': 'nodeHeightM',
    antennaGainDbi: 'nodeGainDbi',
  },
  prepare: () => import('./walkAnswer.js'),
  compute: async (values, files) => {
    const { walkAnswer } = await import('./walkAnswer.js');
    return walkAnswer(values, files);
  },
});
