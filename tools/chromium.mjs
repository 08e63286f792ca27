/**
 * Finds a Chromium for the browser tests; installs Debian's where this process may.
 */
import path from 'node:path';
import { installFromDebian, isExecutable } from './debian.mjs';

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
  installFromDebian('chromium');
  const installed = findChromium();
  if (installed !== undefined) return installed;
  throw new Error(
    'No Chromium found for the browser tests: install one (Debian: `sudo apt-get install chromium`) or set WEDGEBOOK_CHROMIUM to its path.',
  );
}
