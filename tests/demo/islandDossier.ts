import { readFileSync } from 'node:fs';
import { assembleDossier, type Dossier, parsePlan } from '@finial/dossier';

const folder = 'examples/fennimara/';

/** The demo's dossier with every part, its map coarse so that it comes soon. */
export async function islandDossier(): Promise<Dossier> {
  const plan = parsePlan(readFileSync(`${folder}plan.json`, 'utf8'));
  const terrain = plan.terrain && {
    ...plan.terrain,
    coverage: plan.terrain.coverage && { ...plan.terrain.coverage, cellM: 200 },
  };
  const names = [
    ...(plan.terrain?.elevation ?? []),
    ...(plan.antenna?.sweeps ?? []).map(({ file }) => file),
    plan.walk?.file,
    plan.beacon?.file,
  ];
  const files = Object.fromEntries(
    names.flatMap((name) => (name === undefined ? [] : [[name, readFileSync(folder + name)]])),
  );
  return assembleDossier({ ...plan, terrain }, files);
}
