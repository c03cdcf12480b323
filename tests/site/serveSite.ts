import { existsSync, readFileSync, statSync } from 'node:fs';
import { createServer } from 'node:http';
import { extname, join, normalize } from 'node:path';
import { root } from '../support/workspace.js';

const dist = join(root, 'docs/.vitepress/dist');

const types: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.svg': 'image/svg+xml',
  '.json': 'application/json',
};

/** The built site on an address of its own. */
export interface ServedSite {
  readonly origin: string;
  readonly close: () => Promise<void>;
}

/** Serves the built site as a plain file server does. */
export async function serveSite(): Promise<ServedSite> {
  if (!existsSync(join(dist, 'index.html'))) {
    throw new Error(
      'The site is not built: run `npx --yes pnpm@12 run docs` first (the test command does it).',
    );
  }
  const server = createServer((request, response) => {
    const path = normalize(decodeURIComponent(new URL(request.url ?? '/', 'http://site').pathname));
    const file = [path, join(path, 'index.html')]
      .map((each) => join(dist, each))
      .find((each) => each.startsWith(dist) && existsSync(each) && statSync(each).isFile());
    if (file === undefined) {
      response.writeHead(404).end('not here');
      return;
    }
    response.writeHead(200, { 'content-type': types[extname(file)] ?? 'application/octet-stream' });
    response.end(readFileSync(file));
  });
  await new Promise<void>((ready) => server.listen(0, '127.0.0.1', ready));
  const address = server.address();
  if (address === null || typeof address === 'string') throw new Error('no port');
  return {
    origin: `http://127.0.0.1:${address.port}`,
    close: () => new Promise((closed) => server.close(() => closed())),
  };
}
