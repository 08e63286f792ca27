/**
 * Time and peak memory of `film` on 2,000 strips of 21 steps, as a user runs it: the built command,
 * a file on disk, start of the process included. `npm run build:cli && npm run bench --
 * film-2000-strips`
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';

const STRIPS = 2000;
const STEPS = 21;
const RUNS = 5;
const PROGRAM = path.resolve('packages/cli/bin/wedgebook.js');

/** Seeded uniform numbers, so that every run measures the same work. */
function uniforms(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

const softplus = (z: number): number => Math.log1p(Math.exp(z));

/** Strips of many shapes: with and without shoulder, steep and flat, noise of 0.01. */
function csv(): string {
  const uniform = uniforms(1890);
  const rows = ['strip,step,log_exposure,density'];
  for (let strip = 0; strip < STRIPS; strip += 1) {
    const slope = 0.4 + 0.5 * uniform();
    const toe = -2.3 + 0.5 * uniform();
    const shoulder = -0.6 + 1.2 * uniform();
    for (let step = 1; step <= STEPS; step += 1) {
      const x = -3 + 0.15 * (step - 1);
      const noise = 0.01 * (uniform() + uniform() + uniform() + uniform() - 2) * Math.sqrt(3);
      const density =
        0.12 +
        slope * 0.25 * softplus((x - toe) / 0.25) -
        slope * 0.3 * softplus((x - shoulder) / 0.3) +
        noise;
      rows.push(`S${strip + 1},${step},${x.toFixed(2)},${density.toFixed(3)}`);
    }
  }
  return `${rows.join('\n')}\n`;
}

/**
 * Reports its own peak and its own time of work on standard error as the process ends: on a busy
 * machine the clock tells what the others do.
 */
const WATCH = `process.on('exit', () => {
  const { maxRSS, userCPUTime, systemCPUTime } = process.resourceUsage();
  process.stderr.write('peak ' + maxRSS + ' work ' + (userCPUTime + systemCPUTime));
});`;

/** Prints one line a run. */
export function main(): void {
  if (!existsSync(path.resolve('packages/cli/dist/wedgebook.js'))) {
    throw new Error('build the command first: npm run build:cli');
  }
  const folder = mkdtempSync(path.join(tmpdir(), 'wedgebook-bench-'));
  const file = path.join(folder, 'strips.csv');
  const text = csv();
  writeFileSync(file, text);
  const watch = path.join(folder, 'watch.mjs');
  writeFileSync(watch, WATCH);
  console.log(`film on ${STRIPS} strips of ${STEPS} steps (${(text.length / 1e6).toFixed(2)} MB)`);
  for (const flags of [[], ['--json']]) {
    for (let run = 1; run <= RUNS; run += 1) {
      const began = performance.now();
      const { status, stdout, stderr } = spawnSync(
        process.execPath,
        ['--import', watch, PROGRAM, 'film', file, ...flags],
        { encoding: 'utf8', maxBuffer: 1 << 28 },
      );
      const seconds = (performance.now() - began) / 1000;
      if (status !== 0) throw new Error(stderr);
      const peak = Number(/peak (\d+)/.exec(stderr)?.[1]) / 1024;
      const work = Number(/work (\d+)/.exec(stderr)?.[1]) / 1e6;
      console.log(
        `${flags.join(' ') || 'table '} run ${run}: ${seconds.toFixed(2)} s, work of all threads ${work.toFixed(2)} s, peak ${peak.toFixed(0)} MB, ` +
          `${(stdout.length / 1e6).toFixed(1)} MB of output`,
      );
    }
  }
  rmSync(folder, { recursive: true });
}
