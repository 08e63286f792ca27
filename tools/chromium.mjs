/**
 * Finds a Chromium for the browser tests; installs Debian's where this process may.
 */
import { spawnSync } from 'node:child_process';
import { accessSync, constants } from 'node:fs';
import path from 'node:path';

const NAMES = ['chromium', 'chromium-browser', 'google-chrome-stable', 'google-chrome'];

/** Path of a Chromium on this machine, or undefined. `WEDGEBOOK_CHROMIUM` overrides the search. */
function findChromium() {
  const folders = (process.env.PATH ?? '').split(path.delimiter);
  const candidates = [
    process.env.WEDGEBOOK_CHROMIUM,
    ...NAMES.flatMap((name) => ['/usr/bin', ...folders].map((folder) => path.join(folder, name))),
    '/Applications/Chromium.app/Contents/MacOS/Chromium',
    '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  ];
  return candidates.find((file) => file !== undefined && isExecutable(file));
}

/** Path of a Chromium, installed from Debian's packages if need be and allowed; throws otherwise. */
export function ensureChromium() {
  const found = findChromium();
  if (found !== undefined) return found;
  if (process.getuid?.() === 0 && isExecutable('/usr/bin/apt-get')) {
    console.log('No Chromium found: installing the one of the Debian packages.');
    const apt = (...args) =>
      spawnSync('apt-get', ['-qq', '-y', ...args], {
        stdio: ['ignore', 'ignore', 'inherit'],
        env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
      });
    apt('update');
    apt('install', 'chromium');
    const installed = findChromium();
    if (installed !== undefined) return installed;
  }
  throw new Error(
    'No Chromium found for the browser tests: install one (Debian: `sudo apt-get install chromium`) or set WEDGEBOOK_CHROMIUM to its path.',
  );
}

function isExecutable(file) {
  try {
    accessSync(file, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}
