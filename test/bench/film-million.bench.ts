/**
 * Time and peak memory of `film --jsonl` and `film --json` on 10^5, 3 x 10^5 and 10^6 readings, as a
 * user runs it: the built command, a file on disk. Strips of 21 steps, read 10 times each. `npm run
 * build:cli && npm run bench -- film-million`
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { measuredCommand, writeManyReadings } from './many-readings.ts';

const SIZES = [1e5, 3e5, 1e6];

export function main(): void {
  const folder = mkdtempSync(path.join(tmpdir(), 'wedgebook-bench-'));
  try {
    console.log('readings    output    seconds   processor   peak MB');
    for (const readings of SIZES) {
      const file = path.join(folder, 'readings.csv');
      writeManyReadings(file, readings);
      for (const output of ['--jsonl', '--json']) {
        const { seconds, processor, peak } = measuredCommand(
          ['film', file, output],
          path.join(folder, 'result'),
        );
        console.log(
          `${String(readings).padStart(8)}    ${output.padEnd(8)} ${seconds.toFixed(1).padStart(8)} ${processor.toFixed(1).padStart(11)} ${peak.toFixed(0).padStart(9)}`,
        );
      }
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
