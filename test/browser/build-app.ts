/** Builds the app once before the browser tests, so that they drive what a user gets. */
import { spawnSync } from 'node:child_process';
import path from 'node:path';
import { APP, CONFIG, ROOT } from './served-app.ts';

export default function buildApp(): void {
  // `npm test` has built it a moment ago.
  if (process.env['WEDGEBOOK_APP_IS_BUILT'] === '1') return;
  // A process of its own: under the test runner the build would take the development files.
  const vite = path.join(ROOT, 'node_modules/vite/bin/vite.js');
  const { status } = spawnSync(
    process.execPath,
    [vite, 'build', APP, '--config', CONFIG, '--logLevel', 'warn'],
    { stdio: 'inherit', env: { ...process.env, NODE_ENV: 'production' } },
  );
  if (status !== 0) throw new Error('the app does not build');
}
