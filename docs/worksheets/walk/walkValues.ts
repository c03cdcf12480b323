import { type JurisdictionName, regions } from '@finial/lora';
import { checkRange } from '@finial/units';
import type { BuiltPlan } from '../../../packages/dossier/src/builtPlan.js';

/** What the walk worksheet asks. */
export interface WalkValues {
  readonly source: 'log' | 'track';
  readonly decimal: '.' | ',';
  readonly receivedOnly: boolean;
  readonly skipBadRows: boolean;
  readonly clock: 'same' | 'whole-hours' | 'levels' | 'stated';
  readonly clockOffsetSeconds: number;
  readonly toTrackEnd: boolean;
  readonly squareM: number;
  readonly gatewayLatitudeDeg: number;
  readonly gatewayLongitudeDeg: number;
  readonly noiseFigureDb: number;
  readonly manMadeNoiseDb: number;
  readonly region: keyof typeof regions;
  readonly jurisdiction: JurisdictionName;
  readonly dataRate: number;
  readonly frequencyHz: number;
  readonly applicationBytes: number;
  readonly nodeHeightM: number;
  readonly conductedPowerDbm: number;
  readonly nodeGainDbi: number;
}

/** The values as the dossier's own parts take them. */
export function planOf(values: WalkValues): BuiltPlan {
  // The threshold is a plain sum of these; an empty field would only make it no number.
  const noiseFigureDb = checkRange(values.noiseFigureDb, 'noiseFigureDb', { min: 0, max: 60, unit: 'dB' });
  const manMadeNoiseDb = checkRange(values.manMadeNoiseDb, 'manMadeNoiseDb', { min: 0, max: 60, unit: 'dB' });
  const { gatewayLatitudeDeg: latitudeDeg, gatewayLongitudeDeg: longitudeDeg } = values;
  const { conductedPowerDbm, dataRate, frequencyHz, applicationBytes } = values;
  return {
    version: 1,
    name: 'worksheet',
    region: regions[values.region].name as BuiltPlan['region'],
    jurisdiction: values.jurisdiction,
    gateway: {
      position: { latitudeDeg, longitudeDeg },
      // A walk says what arrived: nothing of the gateway but its place and its noise comes into it.
      antennaHeightM: 1,
      conductedPowerDbm: 0,
      antennaGainDbi: 0,
      feedlineLossDb: 0,
      noiseFigureDb,
      manMadeNoiseDb,
    },
    node: {
      heightM: values.nodeHeightM,
      conductedPowerDbm,
      antennaGainDbi: values.nodeGainDbi,
      noiseFigureDb,
      uplink: { dataRate, frequencyHz, applicationBytes },
      intervalSeconds: 600,
    },
    link: { distanceM: 1, groundDropM: 0 },
    walk: { file: 'walk', receivedOnly: values.source === 'log' && values.receivedOnly },
  };
}
