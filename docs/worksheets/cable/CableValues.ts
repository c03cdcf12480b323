/** Places for parts between the two ports. */
export const slots = [1, 2, 3, 4, 5, 6] as const;

export type Slot = (typeof slots)[number];

/** What stands in a place; the run ends before the first that is empty. */
export type SlotKind = 'none' | 'cable' | 'adapter' | 'pigtail' | 'arrestor' | 'filter';

type PerSlot = { readonly [Key in `part${Slot}`]: SlotKind } & {
  readonly [Key in `${'cable' | 'from' | 'to' | 'adapter' | 'pigtail' | 'arrestor' | 'filter'}${Slot}`]: string;
} & { readonly [Key in `length${Slot}M`]: number } & { readonly [Key in `turned${Slot}`]: boolean };

/** What the cable worksheet asks for. */
export interface CableValues extends PerSlot {
  readonly frequencyHz: number;
  readonly temperatureC: number;
  readonly gatewayEnd: string;
  readonly antennaEnd: string;
  readonly conductedPowerDbm: number;
  readonly antennaGainDbi: number;
  readonly receiverNoiseFigureDb: number;
}
