import type { Calls, Exempt } from './Call.js';

export const calls: Calls = {};

const stage =
  'takes a whole plan or dossier, which is checked key by key where it enters; see the tests of the package';

export const exempt: Exempt = { assembleDossier: stage, renderHtml: stage, toGeoJson: stage };
