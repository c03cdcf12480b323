import { type Region, regions } from '@finial/lora';

/** Every region by its name in the trade, with a hyphen where the export has an underscore. */
export const everyRegion: readonly (readonly [string, Region])[] = Object.entries(regions).map(
  ([key, region]) => [key.replace('_', '-'), region] as const,
);

/** The regions that a name of the vectors stands for: `AS923` for its four groups. */
export function regionsNamed(name: string): readonly Region[] {
  return everyRegion
    .filter(([full]) => full === name || full.startsWith(`${name}-`))
    .map(([, region]) => region);
}

export const as923Groups: readonly Region[] = [
  regions.AS923_1,
  regions.AS923_2,
  regions.AS923_3,
  regions.AS923_4,
];
