import { bandFilters, coaxialCables, commonAdapters, commonPigtails, surgeArrestors } from '@finial/feedline';
import type { Field, FieldGroup, Value } from '../frame/sheet.js';
import { type Slot, slots } from './CableValues.js';

/** Halves of connector pairs that parts of a gateway are sold with. */
const ends = [
  ...['N', 'SMA', 'RP-SMA', 'TNC', 'RP-TNC', 'BNC', 'UHF', 'MCX', 'MMCX', '7/16', '4.3-10'].flatMap(
    bothHalves,
  ),
  ...['micro-coax 2.5 mm height', 'micro-coax 1.6 mm height', 'micro-coax 1.2 mm height'].flatMap(bothHalves),
  ...['F', 'BNC', 'N'].flatMap((series) => bothHalves(series).map((half) => `${half} 75 ohm`)),
];

function bothHalves(series: string): string[] {
  return [`${series} plug`, `${series} jack`];
}

/** Ends as choices. */
export const endChoices = named(ends);

function named(words: readonly string[]) {
  return words.map((value) => ({ value, label: value }));
}

const designations = (rows: readonly { readonly designation: string }[]) =>
  named(rows.map(({ designation }) => designation));

const readyMade = {
  adapter: { label: 'Which adapter', choices: designations(commonAdapters) },
  pigtail: { label: 'Which pigtail', choices: designations(commonPigtails) },
  arrestor: { label: 'Which arrestor', choices: designations(surgeArrestors) },
  filter: { label: 'Which filter', choices: designations(bandFilters) },
} as const;

type Asked = Readonly<Record<string, Value>>;

/** A place is asked for when all before it are taken. */
function isOpen(values: Asked, slot: Slot): boolean {
  return slots.every((before) => before >= slot || values[`part${before}`] !== 'none');
}

function fieldsOf(slot: Slot): Field[] {
  const holds =
    (...kinds: readonly string[]) =>
    (values: Asked) =>
      isOpen(values, slot) && kinds.includes(String(values[`part${slot}`]));
  const ready = Object.entries(readyMade).map(
    ([kind, { label, choices }]): Field => ({
      kind: 'choice',
      key: `${kind}${slot}`,
      label,
      choices,
      isAsked: holds(kind),
    }),
  );
  return [
    {
      kind: 'choice',
      key: `part${slot}`,
      label: 'What comes next, towards the antenna',
      isAsked: (values) => isOpen(values, slot),
      choices: [
        { value: 'none', label: 'nothing more' },
        { value: 'cable', label: 'cable by the metre' },
        { value: 'pigtail', label: 'pigtail (short ready-made cable)' },
        { value: 'adapter', label: 'adapter' },
        { value: 'arrestor', label: 'surge arrestor' },
        { value: 'filter', label: 'filter' },
      ],
    },
    ...ready,
    {
      kind: 'check',
      key: `turned${slot}`,
      label: 'turned round: its second end towards the gateway',
      isAsked: holds('adapter', 'pigtail', 'arrestor', 'filter'),
    },
    {
      kind: 'choice',
      key: `cable${slot}`,
      label: 'Cable',
      choices: designations(coaxialCables),
      isAsked: holds('cable'),
    },
    { kind: 'number', key: `length${slot}M`, label: 'Length', unit: 'm', step: 0.5, isAsked: holds('cable') },
    {
      kind: 'choice',
      key: `from${slot}`,
      label: 'Connector on its end towards the gateway',
      choices: endChoices,
      isAsked: holds('cable'),
    },
    {
      kind: 'choice',
      key: `to${slot}`,
      label: 'Connector on its end towards the antenna',
      choices: endChoices,
      isAsked: holds('cable'),
    },
  ];
}

/** A group of fields for each place of the run. */
export const slotGroups: readonly FieldGroup[] = slots.map((slot) => ({
  legend: `Part ${slot}`,
  fields: fieldsOf(slot),
}));
