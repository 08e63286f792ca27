/**
 * Time and peak memory of `convert` between CSV and CGATS.17 on 10^5, 3 x 10^5 and 10^6 readings, as a
 * user runs it: the built command, a file on disk. What comes out must hold every reading that went
 * in. `npm run build:cli && npm run bench -- convert-million`
 */
import { createReadStream, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { createInterface } from 'node:readline';
import { measuredCommand, writeManyReadings } from './many-readings.ts';

const SIZES = [1e5, 3e5, 1e6];
const WAYS = [
  ['csv', 'csv'],
  ['csv', 'cgats'],
  ['cgats', 'csv'],
] as const;

export async function main(): Promise<void> {
  const folder = mkdtempSync(path.join(tmpdir(), 'wedgebook-bench-'));
  const fileOf = (kind: string) => path.join(folder, `readings.${kind}`);
  try {
    console.log('readings    way             seconds   processor   peak MB   readings out');
    for (const readings of SIZES) {
      writeManyReadings(fileOf('csv'), readings);
      for (const [from, to] of WAYS) {
        // The CGATS.17 file of the second way is the input of the third.
        const result = to === 'cgats' ? fileOf('cgats') : path.join(folder, 'result');
        const { seconds, processor, peak } = measuredCommand(
          ['convert', fileOf(from), '--to', to],
          result,
        );
        const way = `${from} to ${to}`;
        console.log(
          `${String(readings).padStart(8)}    ${way.padEnd(12)} ${seconds.toFixed(1).padStart(10)} ${processor.toFixed(1).padStart(11)} ${peak.toFixed(0).padStart(9)} ${String(await readingsIn(result)).padStart(14)}`,
        );
      }
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Lines of data: in both formats, those that begin with a step or with the name of a strip. */
async function readingsIn(file: string): Promise<number> {
  let count = 0;
  for await (const line of createInterface({ input: createReadStream(file) })) {
    if (/^(strip-\d+,|\d+\t)/.test(line)) count += 1;
  }
  return count;
}
