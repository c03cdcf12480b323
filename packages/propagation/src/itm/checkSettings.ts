import { checkObject, checkOneOf, checkRange, InputError, type RangeBounds } from '@finial/units';
import { climateCurves } from './climateCurves.js';
import type { Climate, Ground, ItmSettings } from './ItmSettings.js';
import type { VariabilityQuestion } from './variability.js';

/** The settings with every default filled in. */
export interface CheckedSettings extends VariabilityQuestion {
  readonly seaLevelRefractivity: number;
  readonly ground: Ground;
  readonly outsideValidity: 'refuse' | 'allow';
}

/** Average ground. */
const averageGround: Ground = { permittivity: 15, conductivitySPerM: 0.005 };

/** The ends, at which a share would need an endless margin, do not belong to the range. */
const percentBounds: RangeBounds = { min: 1e-6, max: 100 - 1e-6, unit: 'per cent' };
const variabilityModes = ['single-message', 'accidental', 'mobile', 'broadcast'] as const;

/** Checks the settings that both ways of using the model share. */
export function checkSettings(settings: ItmSettings): CheckedSettings {
  const {
    climate,
    seaLevelRefractivity,
    ground = averageGround,
    timePercent = 50,
    locationPercent = 50,
    situationPercent = 50,
    variabilityMode = 'broadcast',
    withoutLocationVariability = false,
    withoutSituationVariability = false,
    outsideValidity = 'refuse',
  } = checkObject(settings, 'settings');
  return {
    climate: checkOneOf(climate, 'climate', Object.keys(climateCurves) as Climate[]),
    seaLevelRefractivity: checkRange(seaLevelRefractivity, 'seaLevelRefractivity', {
      min: 250,
      max: 400,
      unit: 'N-units',
    }),
    ground: checkGround(ground),
    timePercent: checkRange(timePercent, 'timePercent', percentBounds),
    locationPercent: checkRange(locationPercent, 'locationPercent', percentBounds),
    situationPercent: checkRange(situationPercent, 'situationPercent', percentBounds),
    variabilityMode: checkOneOf(variabilityMode, 'variabilityMode', variabilityModes),
    withoutLocationVariability: checkSwitch(withoutLocationVariability, 'withoutLocationVariability'),
    withoutSituationVariability: checkSwitch(withoutSituationVariability, 'withoutSituationVariability'),
    outsideValidity: checkOneOf(outsideValidity, 'outsideValidity', ['refuse', 'allow']),
  };
}

function checkGround(ground: Ground): Ground {
  checkObject(ground, 'ground');
  const { permittivity, conductivitySPerM } = ground;
  const conductivity: RangeBounds = { min: 1e-9, max: 100, unit: 'siemens per metre' };
  // At a permittivity of exactly 1 the impedance is as much reactance as resistance, where the model ends.
  return {
    permittivity: checkRange(permittivity, 'ground.permittivity', {
      min: 1.000001,
      max: 100,
      unit: 'times vacuum',
    }),
    conductivitySPerM: checkRange(conductivitySPerM, 'ground.conductivitySPerM', conductivity),
  };
}

function checkSwitch(value: unknown, argument: string): boolean {
  if (typeof value === 'boolean') return value;
  throw new InputError({ code: 'wrong-type', argument, received: value, expected: 'true or false' });
}
