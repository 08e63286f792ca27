/**
 * Time and peak memory of `film --jsonl` and `film --json` on 10^5, 3 x 10^5 and 10^6 readings, as a
 * user runs it: the built command, a file on disk. Strips of 21 steps, read 10 times each. `npm run
 * build:cli && npm run bench -- film-million`
 */
import { spawnSync } from 'node:child_process';
import { closeSync, existsSync, mkdtempSync, openSync, rmSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';

const STEPS = 21;
const REPLICATES = 10;
const SIZES = [1e5, 3e5, 1e6];
const PROGRAM = path.resolve('packages/cli/bin/wedgebook.js');
/** Reports its own peak on standard error as the process ends. */
const WATCH = `process.on('exit', () => process.stderr.write('peak ' + process.resourceUsage().maxRSS));`;

const softplus = (z: number): number => Math.log1p(Math.exp(z));

/** Seeded uniform numbers, so that every run measures the same work. */
function uniforms(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

/** Writes so many readings, strip after strip. */
function write(file: string, readings: number): void {
  const uniform = uniforms(1890);
  const out = openSync(file, 'w');
  writeSync(out, 'strip,step,log_exposure,density\n');
  for (let written = 0, strip = 1; written < readings; strip += 1) {
    const slope = 0.4 + 0.5 * uniform();
    const toe = -2.3 + 0.5 * uniform();
    const rows: string[] = [];
    for (let step = 1; step <= STEPS; step += 1) {
      const x = -3 + 0.15 * (step - 1);
      for (let i = 0; i < REPLICATES && written < readings; i += 1, written += 1) {
        const noise = 0.01 * (uniform() + uniform() + uniform() + uniform() - 2) * Math.sqrt(3);
        const density = 0.12 + slope * 0.25 * softplus((x - toe) / 0.25) + noise;
        rows.push(
          `strip-${String(strip).padStart(6, '0')},${step},${x.toFixed(2)},${density.toFixed(3)}\n`,
        );
      }
    }
    writeSync(out, rows.join(''));
  }
  closeSync(out);
}

/** Prints one line a size and output. */
export function main(): void {
  if (!existsSync(path.resolve('packages/cli/dist/wedgebook.js'))) {
    throw new Error('build the command first: npm run build:cli');
  }
  const folder = mkdtempSync(path.join(tmpdir(), 'wedgebook-bench-'));
  try {
    console.log('readings    output    seconds   peak MB');
    for (const readings of SIZES) {
      const file = path.join(folder, 'readings.csv');
      write(file, readings);
      for (const output of ['--jsonl', '--json']) {
        const result = path.join(folder, 'result');
        const out = openSync(result, 'w');
        const start = performance.now();
        const { status, stderr } = spawnSync(
          process.execPath,
          [
            '--import',
            `data:text/javascript,${encodeURIComponent(WATCH)}`,
            PROGRAM,
            'film',
            file,
            output,
          ],
          { stdio: ['ignore', out, 'pipe'], encoding: 'utf8' },
        );
        const seconds = (performance.now() - start) / 1000;
        closeSync(out);
        const peak = Number(/peak (\d+)/.exec(stderr)?.[1]) / 1024;
        if (status !== 0) throw new Error(stderr);
        console.log(
          `${String(readings).padStart(8)}    ${output.padEnd(8)} ${seconds.toFixed(1).padStart(8)} ${peak.toFixed(0).padStart(9)}`,
        );
      }
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
