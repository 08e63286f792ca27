/** Debian's packages, for what a check needs and npm does not have. */
import { spawnSync } from 'node:child_process';
import { accessSync, constants } from 'node:fs';

const APT = '/usr/bin/apt-get';

/** Installs packages where this process may; what came of it is for the caller to look. */
export function installFromDebian(...packages) {
  if (process.getuid?.() !== 0 || !isExecutable(APT)) return;
  console.log(`Installing from Debian: ${packages.join(', ')}.`);
  for (const words of [['update'], ['install', ...packages]]) {
    spawnSync(APT, ['-qq', '-y', ...words], {
      stdio: ['ignore', 'ignore', 'inherit'],
      env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
    });
  }
}

export function isExecutable(file) {
  try {
    accessSync(file, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}
