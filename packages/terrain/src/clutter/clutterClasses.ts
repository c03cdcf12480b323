/** What covers the ground, in the classes of Recommendation ITU-R P.1812. */
export type ClutterClass = 'water' | 'open' | 'suburban' | 'urban' | 'trees' | 'dense-urban';

/** One class of ground cover. */
export interface ClutterClassEntry {
  /** Name of the class. */
  readonly name: ClutterClass;
  /** Representative height in metres that the Recommendation gives where nothing better is known. */
  readonly heightM: number;
  /** What belongs to the class, in words. */
  readonly covers: string;
}

/**
 * The classes of ground cover and their representative heights in metres.
 *
 * A single house or a tall forest differs: a height measured on the spot is better. They belong on bare ground; over a model of
 * the surface, which holds roofs and tree tops already, clutter would count twice.
 *
 * @source Recommendation ITU-R P.1812-6 and later, section 3.2 (default heights; from memory). Edition 4 had 10 m for open ground.
 * @example
 * ```ts
 * import { clutterClasses } from '@finial/terrain';
 *
 * clutterClasses.filter(({ heightM }) => heightM === 0).map(({ name }) => name); // → ['water', 'open']
 * ```
 */
export const clutterClasses: readonly ClutterClassEntry[] = [
  { name: 'water', heightM: 0, covers: 'sea, lakes, wide rivers' },
  { name: 'open', heightM: 0, covers: 'fields, meadows, bare ground, scattered farms' },
  { name: 'suburban', heightM: 10, covers: 'houses with gardens, villages' },
  { name: 'urban', heightM: 15, covers: 'streets of terraced houses and blocks' },
  { name: 'trees', heightM: 15, covers: 'forest, orchards, parks with old trees' },
  { name: 'dense-urban', heightM: 20, covers: 'city centres' },
];
