/**
 * liblcms2, the reader of CGATS.17 that is not ours, and the Python that calls it for the published
 * checks; installs Debian's where this process may.
 */
import { spawnSync } from 'node:child_process';
import { installFromDebian } from './debian.mjs';

const isThere = () =>
  spawnSync('python3', ['-c', "import ctypes; ctypes.CDLL('liblcms2.so.2')"]).status === 0;

/** Installs what is missing; throws, in one line, where that cannot be. */
export function ensureLcms2() {
  if (isThere()) return;
  installFromDebian('python3', 'liblcms2-2');
  if (isThere()) return;
  throw new Error(
    'No python3 with liblcms2 found for the check of CGATS.17 files: install both (Debian: `sudo apt-get install python3 liblcms2-2`).',
  );
}
