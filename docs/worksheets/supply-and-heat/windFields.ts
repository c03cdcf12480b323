import { mastMaterials } from '@finial/site';
import type { FieldGroup, Value } from '../frame/sheet.js';
import { whereChosen } from '../frame/whereChosen.js';

const isAsked = whereChosen('question', 'wind');
const byCode = (code: string) => (values: Readonly<Record<string, Value>>) =>
  isAsked(values) && values['code'] === code;
const isAsce = byCode('asce-7');
const isEn = byCode('en-1991-1-4');
const isBallast = (values: Readonly<Record<string, Value>>) =>
  isAsked(values) && values['foot'] === 'ballast';
const hasPlate = (values: Readonly<Record<string, Value>>) => isAsked(values) && values['hasPlate'] === true;

/** Fields of the mast in the wind. */
export const windGroups: readonly FieldGroup[] = [
  {
    legend: 'The wind',
    fields: [
      {
        kind: 'choice',
        key: 'code',
        label: 'By which code',
        choices: [
          { value: 'en-1991-1-4', label: 'EN 1991-1-4: mean of ten minutes' },
          { value: 'asce-7', label: 'ASCE 7: gust of three seconds' },
        ],
        isAsked,
        help: 'Each code has its own speed. A gust put into the mean of the other counts the gust twice.',
      },
      {
        kind: 'number',
        key: 'meanSpeedMPerS',
        label: 'Basic wind velocity (mean)',
        unit: 'm/s',
        step: 1,
        isAsked: isEn,
        help: 'From the map of the national annex.',
      },
      {
        kind: 'number',
        key: 'gustSpeedMPerS',
        label: 'Gust speed',
        unit: 'm/s',
        step: 1,
        isAsked: isAsce,
        help: 'From the map of the code.',
      },
      {
        kind: 'choice',
        key: 'terrainCategory',
        label: 'Ground around',
        choices: [
          { value: '0', label: '0: the open sea' },
          { value: 'I', label: 'I: lakes, flat and bare' },
          { value: 'II', label: 'II: low plants, few obstacles' },
          { value: 'III', label: 'III: villages, woods' },
          { value: 'IV', label: 'IV: a city' },
        ],
        isAsked: isEn,
      },
      {
        kind: 'choice',
        key: 'exposureCategory',
        label: 'Ground around',
        choices: [
          { value: 'B', label: 'B: towns and woods' },
          { value: 'C', label: 'C: open country' },
          { value: 'D', label: 'D: beside open water' },
        ],
        isAsked: isAsce,
      },
      {
        kind: 'number',
        key: 'heightAboveGroundM',
        label: 'Top of the mast above the ground',
        unit: 'm',
        step: 1,
        isAsked,
        help: 'Above the ground, not above the roof.',
      },
      {
        kind: 'number',
        key: 'iceM',
        label: 'Ice all round',
        unit: 'mm',
        scale: 1e-3,
        step: 5,
        isAsked,
      },
    ],
  },
  {
    legend: 'The mast',
    fields: [
      {
        kind: 'number',
        key: 'tubeDiameterM',
        label: 'Diameter of the tube',
        unit: 'mm',
        scale: 1e-3,
        step: 1,
        isAsked,
      },
      {
        kind: 'number',
        key: 'tubeWallM',
        label: 'Thickness of its wall',
        unit: 'mm',
        scale: 1e-3,
        step: 0.1,
        isAsked,
      },
      {
        kind: 'number',
        key: 'tubeLengthM',
        label: 'Height of the tube above its foot',
        unit: 'm',
        step: 0.1,
        isAsked,
      },
      {
        kind: 'number',
        key: 'tubeSupportM',
        label: 'Topmost bracket above the foot',
        unit: 'm',
        step: 0.1,
        isAsked,
        help: '0 where the foot alone holds it.',
      },
      {
        kind: 'choice',
        key: 'material',
        label: 'Material',
        choices: Object.keys(mastMaterials).map((value) => ({ value, label: value.replaceAll('-', ' ') })),
        isAsked,
      },
      {
        kind: 'number',
        key: 'antennaDiameterM',
        label: 'Diameter of the antenna',
        unit: 'mm',
        scale: 1e-3,
        step: 1,
        isAsked,
      },
      {
        kind: 'number',
        key: 'antennaLengthM',
        label: 'Length of the antenna, on top of the tube',
        unit: 'm',
        step: 0.1,
        isAsked,
      },
      { kind: 'check', key: 'hasPlate', label: 'a box or awning hangs on the mast', isAsked },
      {
        kind: 'number',
        key: 'plateWidthM',
        label: 'Its width',
        unit: 'cm',
        scale: 0.01,
        step: 1,
        isAsked: hasPlate,
      },
      {
        kind: 'number',
        key: 'plateHeightM',
        label: 'Its height',
        unit: 'cm',
        scale: 0.01,
        step: 1,
        isAsked: hasPlate,
      },
      {
        kind: 'number',
        key: 'plateCentreM',
        label: 'Its middle above the foot',
        unit: 'm',
        step: 0.1,
        isAsked: hasPlate,
      },
    ],
  },
  {
    legend: 'The foot',
    fields: [
      {
        kind: 'choice',
        key: 'foot',
        label: 'What holds it',
        choices: [
          { value: 'ballast', label: 'weight on a level roof' },
          { value: 'fixed', label: 'bolts or clamps' },
        ],
        isAsked,
      },
      {
        kind: 'number',
        key: 'tippingArmM',
        label: 'From the mast to the edge over which it would tip',
        unit: 'm',
        step: 0.05,
        isAsked: isBallast,
        help: 'Half the width of a square foot.',
      },
      {
        kind: 'number',
        key: 'frictionRatio',
        label: 'Friction between foot and roof',
        unit: '',
        step: 0.05,
        isAsked: isBallast,
        help: 'Wet or mossy roofs halve it.',
      },
      { kind: 'number', key: 'ballastKg', label: 'Ballast on it', unit: 'kg', step: 5, isAsked: isBallast },
      {
        kind: 'number',
        key: 'footAreaM2',
        label: 'Area on which it rests',
        unit: 'm²',
        step: 0.05,
        isAsked: isBallast,
      },
    ],
  },
];
