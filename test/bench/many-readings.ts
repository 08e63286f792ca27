/** Files of readings of any size, and the built command run on them with its peak of memory. */
import { spawnSync } from 'node:child_process';
import { closeSync, existsSync, openSync, writeSync } from 'node:fs';
import path from 'node:path';

const STEPS = 21;
const REPLICATES = 10;
const PROGRAM = path.resolve('packages/cli/bin/wedgebook.js');
/** Reports its own peak on standard error as the process ends. */
const WATCH = `process.on('exit', () => {
  const { maxRSS, userCPUTime, systemCPUTime } = process.resourceUsage();
  process.stderr.write('peak ' + maxRSS + ' processor ' + (userCPUTime + systemCPUTime));
});`;

const softplus = (z: number): number => Math.log1p(Math.exp(z));

/** Seeded uniform numbers, so that every run measures the same work. */
function uniforms(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

/** Writes so many readings, strip after strip: strips of 21 steps, each read 10 times. */
export function writeManyReadings(file: string, readings: number): void {
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

/**
 * Runs the built command, standard output into a file.
 *
 * @returns seconds by the clock and of processor time, and the greatest resident memory of the process in MB
 */
export function measuredCommand(
  words: readonly string[],
  output: string,
): { readonly seconds: number; readonly processor: number; readonly peak: number } {
  if (!existsSync(path.resolve('packages/cli/dist/wedgebook.js'))) {
    throw new Error('build the command first: npm run build:cli');
  }
  const out = openSync(output, 'w');
  const start = performance.now();
  const { status, stderr } = spawnSync(
    process.execPath,
    ['--import', `data:text/javascript,${encodeURIComponent(WATCH)}`, PROGRAM, ...words],
    { stdio: ['ignore', out, 'pipe'], encoding: 'utf8', maxBuffer: 1 << 28 },
  );
  const seconds = (performance.now() - start) / 1000;
  closeSync(out);
  if (status !== 0) throw new Error(stderr);
  const [, peak, processor] = /peak (\d+) processor (\d+)/.exec(stderr) ?? [];
  return { seconds, processor: Number(processor) / 1e6, peak: Number(peak) / 1024 };
}
