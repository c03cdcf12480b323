import { type Direction, type Region, regions } from '@finial/lora';
import { InputError } from '@finial/units';

/** The regional parameters of a name that a person typed. */
export function regionNamed(name: string): Region {
  const found = Object.values(regions).find((region) => region.name === name);
  if (found !== undefined) return found;
  const expected = Object.values(regions)
    .map((region) => region.name)
    .join(', ');
  throw new InputError({ code: 'unknown-option', argument: '--region', received: name, expected });
}

/** Centre of the first channel on which a data rate goes, in hertz; of the very first where none is made for it. */
export function firstChannelHz(region: Region, dataRate: number, wanted: Direction = 'uplink'): number {
  const { channels } = region;
  const fitting = channels.find(
    ({ direction, minDataRate, maxDataRate }) =>
      (direction === 'both' || direction === wanted) && dataRate >= minDataRate && dataRate <= maxDataRate,
  );
  const first = fitting ?? channels[0];
  if (first === undefined) throw new Error(`${region.name} has no channels`);
  return first.firstHz;
}
