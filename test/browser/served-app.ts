/** The built app on a local address. */
import path from 'node:path';
import { preview } from 'vite';

export const ROOT = path.resolve(import.meta.dirname, '../..');
export const APP = path.join(ROOT, 'apps/web');
export const CONFIG = path.join(APP, 'vite.config.ts');
export const DIST = path.join(APP, 'dist');

export interface ServedApp {
  readonly url: string;
  readonly close: () => Promise<void>;
}

/**
 * Serves the built app; port 0 lets the system choose.
 *
 * @param folder - the built app
 */
export async function serveApp(folder = DIST): Promise<ServedApp> {
  const server = await preview({
    root: APP,
    configFile: CONFIG,
    logLevel: 'error',
    build: { outDir: folder },
    preview: { port: 0, strictPort: false, open: false },
  });
  const url = server.resolvedUrls?.local[0];
  if (url === undefined) throw new Error('the preview server gave no address');
  return { url, close: () => server.close() };
}
