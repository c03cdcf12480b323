import { existsSync, readFileSync } from 'node:fs';
import { type DefaultTheme, defineConfig } from 'vitepress';

type SidebarItem = DefaultTheme.SidebarItem;

/** The API's pages, as TypeDoc lists them. */
function apiSidebar(): SidebarItem[] {
  const file = new URL('../api/typedoc-sidebar.json', import.meta.url);
  if (!existsSync(file)) return [];
  return (JSON.parse(readFileSync(file, 'utf8')) as SidebarItem[]).map(withoutEmptyHeads);
}

/** A group that folds but leads nowhere is a button without a name for screen readers: it stays open. */
function withoutEmptyHeads({ items, collapsed, ...head }: SidebarItem): SidebarItem {
  return {
    ...head,
    ...(items === undefined ? {} : { items: items.map(withoutEmptyHeads) }),
    ...(head.link !== undefined && items !== undefined && collapsed !== undefined ? { collapsed } : {}),
  };
}

const guide: SidebarItem[] = [
  { text: 'What this guide is', link: '/guide/' },
  { text: 'Choosing the site', link: '/guide/choosing-the-site' },
  { text: 'The antenna', link: '/guide/the-antenna' },
  { text: 'The cable', link: '/guide/the-cable' },
  { text: 'The law', link: '/guide/the-law' },
  { text: 'Power and weather', link: '/guide/power-and-weather' },
  { text: 'The prediction', link: '/guide/the-prediction' },
  { text: 'The walk', link: '/guide/the-walk' },
  { text: 'The statement', link: '/guide/the-statement' },
  { text: 'Looking after it', link: '/guide/looking-after-it' },
];

const worksheets: SidebarItem[] = [
  { text: 'All worksheets', link: '/worksheets/' },
  { text: 'Frame and law', link: '/worksheets/frame-and-law' },
  { text: 'Link budget', link: '/worksheets/link-budget' },
  { text: 'Antenna', link: '/worksheets/antenna' },
  { text: 'Cable', link: '/worksheets/cable' },
  { text: 'Supply and heat', link: '/worksheets/supply-and-heat' },
  { text: 'Terrain and coverage', link: '/worksheets/terrain' },
  { text: 'Walk', link: '/worksheets/walk' },
];

const conditions = ['@finial/source', 'module', 'browser', 'development|production'];

/** The sweep's worker is named as its built script is; the site takes the sources, where it ends otherwise. */
const sourceOfWorker = {
  name: 'source-of-worker',
  enforce: 'pre',
  transform: (code: string, id: string) =>
    id.endsWith('/sweep/workers/startWorker.ts')
      ? code.replace("'./sweepWorker.js', import.meta.url", "'./sweepWorker.ts', import.meta.url")
      : undefined,
} as const;

export default defineConfig({
  title: 'Finial',
  description: 'Plan, check and prove a community LoRaWAN gateway: guide, worksheets and API.',
  lang: 'en-GB',
  head: [['link', { rel: 'icon', type: 'image/svg+xml', href: '/favicon.svg' }]],
  rewrites: { 'generated/sources.md': 'sources.md', 'generated/changes.md': 'changes.md' },
  // What a worksheet fetches once the page is there shall not hold the page up.
  shouldPreload: (link) => !/\/(terrainAnswer|prepareTerrain|walkAnswer)\./.test(link),
  markdown: {
    theme: { light: 'github-light-high-contrast', dark: 'github-dark-high-contrast' },
  },
  vite: {
    plugins: [sourceOfWorker],
    resolve: { conditions },
    ssr: { noExternal: [/^@finial\//], resolve: { conditions: ['@finial/source', 'module', 'node'] } },
    worker: { format: 'es' },
    build: { chunkSizeWarningLimit: 2000 },
  },
  themeConfig: {
    logo: '/favicon.svg',
    nav: [
      { text: 'Guide', link: '/guide/', activeMatch: '^/guide/' },
      { text: 'Worksheets', link: '/worksheets/', activeMatch: '^/worksheets/' },
      { text: 'API', link: '/api/', activeMatch: '^/api/' },
      { text: 'Sources', link: '/sources' },
      { text: 'Changes', link: '/changes' },
    ],
    sidebar: {
      '/guide/': [{ text: 'Guide', items: guide }],
      '/worksheets/': [{ text: 'Worksheets', items: worksheets }],
      '/api/': [{ text: 'Packages', link: '/api/', items: apiSidebar() }],
    },
    outline: { level: [2, 3], label: 'On this page' },
    search: { provider: 'local', options: { detailedView: false } },
    docFooter: { prev: 'Before', next: 'Next' },
  },
});
