/**
 * Whatever is typed, no number of a result is NaN or infinite, nothing is thrown but typed errors,
 * and no fit runs off. WILD_STRIPS=20000 makes a long run of it, WILD_SEED another one.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  compareFamilies,
  CURVE_FAMILIES,
  densityBand,
  filmMeasures,
  fitCurve,
  fitModel,
  fitPaperCurve,
  MODELS,
  paperMeasures,
  robustLeastSquares,
  findSuspects,
  WedgebookError,
  type CurveReadings,
} from './index.ts';

const { WILD_STRIPS, WILD_SEED } =
  (globalThis as { process?: { env: Record<string, string> } }).process?.env ?? {};
const numRuns = Number(WILD_STRIPS ?? 40);
const seed = Number(WILD_SEED ?? 1890);
/** A minute for a run of the length that the suite makes: a search without an end would show. */
const timeout = 1000 * numRuns;

/** The only places where an infinite number is an answer. */
const MAY_BE_INFINITE = /\.(condition|relativeOffset)$|suspects\.\d+\.x$/;

/** Every number in a value that is neither finite nor allowed to be infinite, by its path. */
function strayNumbers(value: unknown, path = ''): string[] {
  if (typeof value === 'number') {
    const good = Number.isFinite(value) || (!Number.isNaN(value) && MAY_BE_INFINITE.test(path));
    return good ? [] : [`${path} = ${value}`];
  }
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => strayNumbers(inner, `${path}.${key}`));
}

/** The result, or nothing where core refused its arguments with a typed error. */
function attempt<R>(work: () => R): R | null {
  try {
    return work();
  } catch (error) {
    if (error instanceof WedgebookError) return null;
    throw error;
  }
}

const finite = fc.oneof(
  { weight: 6, arbitrary: fc.double({ min: -0.1, max: 4, noNaN: true }) },
  fc.constantFrom(0, -0, 1e-300, -1e-300, 1e-12, 1e6, -1e6, 1e150, 1e300, -1e300, 5e-324),
);
const anything = fc.oneof(
  { weight: 40, arbitrary: finite },
  fc.constantFrom(NaN, Infinity, -Infinity),
);

/** Densities that look like a strip, with whatever was done to them. */
const shaped = fc
  .record({
    count: fc.integer({ min: 0, max: 24 }),
    first: fc.constantFrom(-3, 0, 1e6, -300, 290),
    step: fc.constantFrom(0.15, 0.3, 0.05, 0, 1e-9, 100, -0.15),
    repeats: fc.integer({ min: 1, max: 3 }),
    shape: fc.constantFrom('curve', 'constant', 'cliff', 'falling', 'straight', 'two', 'noise'),
    size: fc.constantFrom(1, 1, 1, 1e-6, 1e6, 1e-150, 1e150),
    noise: fc.constantFrom(0, 0.005, 0.05, 1),
    slips: fc.array(fc.tuple(fc.nat(), finite), { maxLength: 3 }),
    random: fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 7, maxLength: 31 }),
  })
  .map(({ count, first, step, repeats, shape, size, noise, slips, random }) => {
    const logExposures = Array.from(
      { length: count },
      (_, i) => first + step * Math.floor(i / repeats),
    );
    const densities = logExposures.map((_, i) => {
      const u = (6 * i) / Math.max(1, count - 1) - 3;
      const chance = random[(i * 7) % random.length] ?? 0;
      const form = {
        curve: 0.1 + 2 / (1 + Math.exp(-1.5 * u)),
        constant: 0.3,
        cliff: u < 0 ? 0.1 : 2.5,
        falling: 2 - 0.3 * u,
        straight: 1 + 0.3 * u,
        two: 0.2 + 0.5 / (1 + Math.exp(-6 * (u + 1))) + 0.8 / (1 + Math.exp(-5 * (u - 1.5))),
        noise: 1 + chance,
      }[shape];
      return size * (form + noise * chance);
    });
    for (const [at, value] of slips) if (count > 0) densities[at % count] = value;
    return { logExposures, densities };
  });

const free = fc
  .array(fc.tuple(anything, anything), { maxLength: 16 })
  .map((rows) => ({ logExposures: rows.map(([x]) => x), densities: rows.map(([, y]) => y) }));

const strips: fc.Arbitrary<CurveReadings> = fc
  .tuple(
    fc.oneof({ weight: 4, arbitrary: shaped }, free),
    fc.oneof({ weight: 3, arbitrary: fc.constant([]) }, fc.array(finite, { maxLength: 3 })),
  )
  .map(([readings, unexposedDensities]) => ({ ...readings, unexposedDensities }));

describe('wild readings', () => {
  it.each([undefined, ...CURVE_FAMILIES])(
    'give sound numbers by family %s',
    (family) => {
      fc.assert(
        fc.property(strips, (readings) => {
          const fit = attempt(() => fitCurve(readings, { family, suspects: findSuspects }));
          expect(strayNumbers(fit)).toEqual([]);
          if (fit?.status !== 'ok') return;
          const [first, last] = fit.curve.logExposureRange;
          const at = [first, (first + last) / 2, last, last + 1];
          for (const exposureKind of ['absolute', 'relative'] as const) {
            const film = attempt(() => filmMeasures(fit.curve, { exposureKind }));
            expect(strayNumbers(film)).toEqual([]);
            const paper = attempt(() => paperMeasures(fit.curve, { exposureKind }));
            expect(strayNumbers(paper)).toEqual([]);
          }
          expect(strayNumbers(attempt(() => densityBand(fit.curve, at)))).toEqual([]);
        }),
        { numRuns, seed },
      );
    },
    timeout,
  );

  it(
    'give sound numbers when the families are compared, and on paper',
    () => {
      fc.assert(
        fc.property(strips, (readings) => {
          expect(strayNumbers(attempt(() => compareFamilies(readings)))).toEqual([]);
          expect(strayNumbers(attempt(() => fitPaperCurve(readings)))).toEqual([]);
        }),
        { numRuns, seed },
      );
    },
    timeout,
  );

  it.each(MODELS)(
    'give sound numbers by the model $name',
    (model) => {
      const weighed = fc.tuple(
        strips,
        fc.array(fc.constantFrom(1, 0, 1e-12, 1e12, Infinity, -1, NaN, 2), { maxLength: 24 }),
        fc.boolean(),
        fc.constantFrom('absolute', 'relative'),
      );
      fc.assert(
        fc.property(weighed, ([{ logExposures, densities }, values, robust, kind]) => {
          const sigma =
            values.length < 5
              ? undefined
              : ({
                  kind,
                  values: densities.map((_, i) => values[i % values.length] ?? 1),
                } as const);
          const fit = attempt(() =>
            fitModel(model, logExposures, densities, {
              sigma,
              ...(robust && { solve: robustLeastSquares }),
            }),
          );
          expect(strayNumbers(fit)).toEqual([]);
        }),
        { numRuns, seed },
      );
    },
    timeout,
  );
});
