/**
 * Speed of the fitting room, side by side with a peer: `npm run bench -- fitting-speed`.
 *
 * One run, the same 200 strips of 21 steps (scatter 0.01) for all: toe-shoulder with covariance,
 * the default path, every film measure with its error, a bootstrap of 1,000; and logistic-5 and
 * toe-shoulder by ml-levenberg-marquardt with analytic derivatives, from the same starts to the
 * same optimum. The peer stops on an absolute sum of squares alone, so that with readings that
 * scatter it always uses its allowance, 100 iterations by default: that is what it takes a user who
 * does not know the answer. Beside it stands the fewest iterations of a doubling series that bring
 * its sum of squares within 1e-6 of the optimum on nine strips in ten, which only the answer can
 * tell. It has no covariance. The library runs as the bundle that users get.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import type * as Core from '@wedgebook/core';
import { levenbergMarquardt } from 'ml-levenberg-marquardt';
import { build } from 'vite';

const STEPS = Array.from({ length: 21 }, (_, i) => -3 + 0.15 * i);
const TRUTH = [0.1, 0.65, -2.3, 0.15, -0.45, 0.22];
const STRIPS = 200;
const ROUNDS = 15;

/** Bundles core as the command does and loads the bundle. */
async function loadCore(): Promise<{ core: typeof Core; remove: () => void }> {
  const folder = mkdtempSync(path.join(tmpdir(), 'wedgebook-bench-'));
  await build({
    configFile: false,
    logLevel: 'error',
    resolve: { conditions: ['wedgebook-source'] },
    build: {
      outDir: folder,
      target: 'node20',
      minify: false,
      lib: { entry: path.resolve('packages/core/src/index.ts'), formats: ['es'], fileName: 'core' },
      rolldownOptions: { external: [/^mathjs/, /^ml-/] },
    },
  });
  const file = path.join(path.resolve('node_modules'), '.cache-wedgebook-core.mjs');
  const { copyFileSync, readdirSync } = await import('node:fs');
  const bundle = readdirSync(folder).find((name) => /\.m?js$/.test(name));
  if (bundle === undefined) throw new Error('nothing was bundled');
  copyFileSync(path.join(folder, bundle), file);
  const core = (await import(/* @vite-ignore */ pathToFileURL(file).href)) as typeof Core;
  return {
    core,
    remove: () => {
      rmSync(folder, { recursive: true });
      rmSync(file);
    },
  };
}

/** Median over rounds of the microseconds that one call takes, after a warm-up. */
function microseconds(calls: number, work: () => void, rounds = ROUNDS): number {
  work();
  work();
  const times: number[] = [];
  for (let round = 0; round < rounds; round++) {
    const before = performance.now();
    work();
    times.push(((performance.now() - before) / calls) * 1000);
  }
  times.sort((a, b) => a - b);
  return times[Math.floor(times.length / 2)] ?? NaN;
}

/** Median over strips of the median of 21 calls on each. */
function medianPerStrip(
  sets: readonly (readonly number[])[],
  work: (y: readonly number[]) => void,
) {
  for (let warm = 0; warm < 10; warm++) for (const y of sets) work(y);
  const medians = sets.map((y) => {
    const times = Array.from({ length: 21 }, () => {
      const before = performance.now();
      work(y);
      return (performance.now() - before) * 1000;
    }).sort((a, b) => a - b);
    return times[10] ?? NaN;
  });
  medians.sort((a, b) => a - b);
  return medians[Math.floor(medians.length / 2)] ?? NaN;
}

/** Prints the tables. */
export async function main(): Promise<void> {
  const { core, remove } = await loadCore();
  try {
    report(core);
  } finally {
    remove();
  }
}

function report(core: typeof Core): void {
  const { fitModel, toeShoulder, logistic5, randomNormal } = core;
  const normal = randomNormal(1890);
  const sets = Array.from({ length: STRIPS }, () =>
    STEPS.map((x) => toeShoulder.value(x, TRUTH) + 0.01 * normal()),
  );
  const rows: (readonly [string, number])[] = [];
  for (const model of [
    toeShoulder,
    core.toeOnly,
    core.logistic4,
    logistic5,
    core.hurterDriffield,
  ]) {
    const time = medianPerStrip(sets, (y) => fitModel(model, STEPS, y));
    rows.push([`${model.name} with covariance`, time]);
  }
  rows.push([
    'monotone-smooth with covariance',
    medianPerStrip(sets, (y) => core.monotoneSmooth(STEPS, y)),
  ]);
  rows.push([
    'default path, fit alone',
    medianPerStrip(sets, (y) => core.fitDefaultCurve(STEPS, y)),
  ]);
  rows.push([
    'default path, suspects and all film measures with errors',
    medianPerStrip(sets, (densities) => {
      const readings = { logExposures: STEPS, densities };
      const fit = core.fitCurve(readings, { suspects: core.findSuspects });
      if (fit.status === 'ok') core.filmMeasures(fit.curve, { exposureKind: 'absolute' });
    }),
  ]);
  console.log('| per strip of 21 steps, median | µs |\n|---|---|');
  for (const [name, time] of rows) console.log(`| ${name} | ${time.toFixed(0)} |`);

  const first = fitModel(toeShoulder, STEPS, sets[0] ?? []);
  const bootstrap = microseconds(1, () => core.parametricBootstrap(toeShoulder, STEPS, first), 7);
  console.log(`\nBootstrap of 1,000, toe-shoulder: ${(bootstrap / 1000).toFixed(0)} ms\n`);

  console.log('| model | here, µs | peer, default | ratio | peer, fewest iterations | ratio |');
  console.log('|---|---|---|---|---|---|');
  for (const [model, truth] of [
    [toeShoulder, TRUTH],
    [logistic5, [0.1, 2.2, -1.4, 0.3, 1.8]],
  ] as const) {
    const strips = sets.map(() => STEPS.map((x) => model.value(x, truth) + 0.01 * normal()));
    const peer = comparePeer(core, model, strips);
    const time = medianPerStrip(strips, (y) => fitModel(model, STEPS, y));
    console.log(
      `| ${model.name} | ${time.toFixed(0)} | ${peer.byDefault.toFixed(0)}, ` +
        `${(100 * peer.shareByDefault).toFixed(0)} % at the optimum | ` +
        `${(peer.byDefault / time).toFixed(0)} | ${peer.fewest.toFixed(0)} (${peer.iterations.toFixed(0)} iterations) | ` +
        `${(peer.fewest / time).toFixed(0)} |`,
    );
  }
}

function comparePeer(
  core: typeof Core,
  model: Core.CurveModel,
  sets: readonly (readonly number[])[],
): { byDefault: number; shareByDefault: number; fewest: number; iterations: number } {
  const row = new Float64Array(model.parameterNames.length);
  const few = sets.slice(0, 40);
  const fitWith = (y: readonly number[], maxIterations: number) =>
    levenbergMarquardt({ x: STEPS, y }, (p) => (x) => model.value(x, p), {
      initialValues: model.start(STEPS, y),
      jacobianFunction: (p) => (x) => {
        model.derivatives(x, p, row);
        return Array.from(row);
      },
      maxIterations,
      errorTolerance: 1e-12,
    });
  const atOptimum = (y: readonly number[], iterations: number): boolean => {
    const best = core.fitModel(model, STEPS, y).residualSumOfSquares;
    const { parameterValues } = fitWith(y, iterations);
    const square = STEPS.reduce(
      (sum, x, i) => sum + (model.value(x, parameterValues) - (y[i] ?? 0)) ** 2,
      0,
    );
    return square <= best * (1 + 1e-6);
  };
  const shareAt = (iterations: number): number =>
    few.filter((y) => atOptimum(y, iterations)).length / few.length;
  const timeOf = (iterations: number): number =>
    microseconds(
      few.length,
      () => {
        for (const y of few) fitWith(y, iterations);
      },
      5,
    );
  let iterations = 4;
  while (iterations < 4096 && shareAt(iterations) < 0.9) iterations *= 2;
  return {
    byDefault: timeOf(100),
    shareByDefault: shareAt(100),
    fewest: timeOf(iterations),
    iterations,
  };
}
