import { describe, expect, it } from 'vitest';
import { expectWithin } from '../../../../test/within.ts';
import {
  derivedNetPoint,
  estimateOn,
  fitCurve,
  functionOf,
  plus,
  derivedDensity,
  scaled,
  shifted,
  type CharacteristicCurve,
  type CurveMeasure,
} from '../curve/index.ts';
import { toeOnly, toeShoulder } from '../fitting/index.ts';
import {
  averageGradientBetweenDensities,
  averageGradientBetweenExposures,
  chordOver,
  contrastIndex,
  deltaXSpeed,
  filmMeasures,
  steepestPart,
} from './index.ts';

/** A curve with given parameters and a made-up diagonal covariance. */
function curveOf(
  parameters: readonly number[],
  range: readonly [number, number] = [-3, 0.6],
): CharacteristicCurve {
  const model = parameters.length === 4 ? toeOnly : toeShoulder;
  const size = parameters.length;
  return {
    family: 'toe-shoulder',
    parameters,
    parameterNames: model.parameterNames,
    covariance: Array.from({ length: size * size }, (_, k) => (k % (size + 1) === 0 ? 1e-4 : 0)),
    knots: [],
    logExposureRange: range,
    densityRangeRead: [0.1, 2.5],
    residualStandardDeviation: 0.01,
    degreesOfFreedom: 15,
    companions: [],
    weight: 1,
  };
}
const withShoulder = curveOf([0.12, 0.7, -2, 0.25, 0.4, 0.2]);
const withoutShoulder = curveOf([0.15, 0.7, -2, 0.25]);

const measures: Record<string, CurveMeasure> = {
  'speed point': (c) => derivedNetPoint(c, 0.1),
  'chord over 1.30': (c) => {
    const x = derivedNetPoint(c, 0.1);
    return x && scaled(plus(derivedDensity(c, shifted(x, 1.3)), derivedDensity(c, x), -1), 1 / 1.3);
  },
  'contrast index': (c) => contrastIndex(c)?.index ?? null,
  gamma: (c) => steepestPart(c)?.gamma ?? null,
  inertia: (c) => steepestPart(c)?.inertia ?? null,
};

describe.each([
  ['with a shoulder', withShoulder],
  ['without a shoulder', withoutShoulder],
])('derivatives of measures on a curve %s', (_, curve) => {
  it.each(Object.entries(measures))('%s agrees with fourth-order differences', (_name, measure) => {
    const derived = measure(curve);
    if (derived === null) throw new Error('not defined');
    curve.parameters.forEach((parameter, j) => {
      const h = 1e-3 * Math.max(0.1, Math.abs(parameter));
      const at = (k: number) => {
        const parameters = curve.parameters.map((p, i) => (i === j ? p + k * h : p));
        return measure({ ...curve, parameters })?.value ?? NaN;
      };
      const difference = (8 * (at(1) - at(-1)) - (at(2) - at(-2))) / (12 * h);
      // Fourth-order differences with h of 1e-4 to 2e-3 leave errors near 1e-7. The centre of the
      // steepest chord moves with the parameters, which `inertia` leaves out: by (D' - gamma) dx.
      const tolerance = _name === 'inertia' ? 1e-3 : 2e-6;
      expectWithin(derived.derivatives[j] ?? NaN, difference, tolerance, curve.parameterNames[j]);
    });
  });
});

describe('chords', () => {
  it('give the slope of a straight part between densities and between exposures', () => {
    const straight = curveOf([0.1, 0.6, -2, 0.001]);
    expectWithin(averageGradientBetweenDensities(straight, 0.2, 1)?.value ?? NaN, 0.6, 1e-9);
    expectWithin(averageGradientBetweenExposures(straight, -1.5, 0)?.value ?? NaN, 0.6, 1e-9);
    expectWithin(chordOver(straight, 0.1, 1.5)?.value ?? NaN, 0.6, 1e-9);
  });
  it('refuse end points in the wrong order', () => {
    expect(() => averageGradientBetweenDensities(withShoulder, 1, 0.5)).toThrow();
    expect(() => averageGradientBetweenExposures(withShoulder, 0, NaN)).toThrow();
    expect(() => chordOver(withShoulder, 0.1, 0)).toThrow();
  });
});

describe('contrast index', () => {
  it('puts both points on one line through the centre, at 0.2 and 2.2 from it', () => {
    const found = contrastIndex(withShoulder);
    if (found === null) throw new Error('not found');
    const base = 0.12;
    for (const [point, distance] of [
      [found.inner, 0.2],
      [found.outer, 2.2],
    ] as const) {
      const run = point.logExposure - found.centreLogExposure;
      const rise = point.density - base;
      expectWithin(Math.hypot(run, rise), distance, 1e-9);
      expectWithin(rise / run, found.index.value, 1e-9);
    }
  });

  it('takes the steeper centre of a long toe and names the other', () => {
    // A faint wide toe below the main one: the lower centre lies on it.
    const toe = (x: number) => 0.12 * Math.log1p(Math.exp((x + 5) / 0.9));
    const logExposures = Array.from({ length: 61 }, (_, i) => -6 + 0.1 * i);
    const densities = logExposures.map(
      (x) => 0.1 + 0.2 * toe(x) + 0.75 * 0.2 * Math.log1p(Math.exp((x + 2) / 0.2)),
    );
    const fit = fitCurve({ logExposures, densities, unexposedDensities: [0.1, 0.1] });
    if (fit.status !== 'ok') throw new Error(fit.reason);
    const found = contrastIndex(fit.curve);
    expect(found?.index.value).toBeGreaterThan(0.5);
  });

  it('is null where the strip is too short for the outer point', () => {
    expect(contrastIndex(curveOf([0.12, 0.7, -2, 0.25], [-3, -1]))).toBeNull();
  });
});

describe('filmMeasures', () => {
  it('gives no speed for relative exposures and says why', () => {
    const result = filmMeasures(withShoulder, { exposureKind: 'relative' });
    expect(result.speed).toBeNull();
    expect(result.speedPoint).not.toBeNull();
    expect(result.warnings.map((w) => w.code)).toContain('exposure-relative');
  });

  it('calls the speed an exposure index where the contrast condition is not met', () => {
    const steep = filmMeasures(curveOf([0.12, 1.1, -2, 0.2]), { exposureKind: 'absolute' });
    expect(steep.isoTriangle?.met).toBe(false);
    expect(steep.speed?.kind).toBe('exposure-index');
    expect(steep.warnings.map((w) => w.code)).toContain('iso-triangle-not-met');
  });

  it('takes the tolerance of the contrast condition as given', () => {
    const wide = { exposureKind: 'absolute', isoTolerance: 2 } as const;
    expect(filmMeasures(curveOf([0.12, 1.1, -2, 0.2]), wide).speed?.kind).toBe('iso');
    expect(() =>
      filmMeasures(withShoulder, { exposureKind: 'absolute', isoTolerance: NaN }),
    ).toThrow();
  });

  it('does not give a speed point that lies farther than a stop outside the readings', () => {
    const late = filmMeasures(curveOf([0.12, 0.7, -2, 0.25], [-1, 1]), {
      exposureKind: 'absolute',
    });
    expect(late.speedPoint).toBeNull();
    expect(late.speed).toBeNull();
    expect(late.averageGradients).toEqual([]);
    expect(late.warnings.map((w) => w.code)).toContain('speed-point-not-reached');
  });

  it('warns of what leans a little beyond the readings and leaves out what leans far', () => {
    const short = filmMeasures(curveOf([0.12, 0.7, -2, 0.25], [-3, -0.8]), {
      exposureKind: 'absolute',
    });
    expect(short.averageGradients.map((gradient) => gradient.to)).toEqual(['+1.30', '+1.50']);
    const codes = short.warnings.map((w) => w.code);
    expect(codes).toContain('measure-extrapolated');
    expect(codes).toContain('measure-not-reached');
  });

  it('widens errors by a companion that the readings do not exclude', () => {
    const alone = estimateOn(withShoulder, (c) => derivedNetPoint(c, 0.1));
    const companion = curveOf([0.15, 0.7, -1.9, 0.25]);
    const pair = { ...withShoulder, weight: 0.6, companions: [{ curve: companion, weight: 0.4 }] };
    const both = estimateOn(pair, (c) => derivedNetPoint(c, 0.1));
    expect(both?.value).toBe(alone?.value);
    expect(both?.standardError ?? 0).toBeGreaterThan(alone?.standardError ?? Infinity);
  });

  it('states no error, rather than NaN, where one overflows', () => {
    const steep = { ...withShoulder, companions: [{ curve: withoutShoulder, weight: 0.4 }] };
    const overflowing = estimateOn({ ...steep, weight: 0.6 }, (c) => ({
      value: c === withoutShoulder ? 1e300 : 1,
      derivatives: new Float64Array(c.parameters.length).fill(c === withoutShoulder ? 1e300 : 0),
    }));
    expect(overflowing).toEqual({ value: 1, standardError: null });
  });

  it('still finds gamma on a curve without a straight part', () => {
    // Pure logistic: greatest gradient height / (4 width) = 0.625.
    const logExposures = Array.from({ length: 21 }, (_, i) => -3 + 0.15 * i);
    const densities = logExposures.map((x) => 0.1 + 1 / (1 + Math.exp(-(x + 1.5) / 0.4)));
    const fit = fitCurve({ logExposures, densities });
    if (fit.status !== 'ok') throw new Error(fit.reason);
    const { gamma } = filmMeasures(fit.curve, { exposureKind: 'relative' });
    expectWithin(gamma?.value ?? NaN, 0.625, 0.01);
    expect(gamma?.standardError ?? Infinity).toBeLessThan(0.05);
    expect(functionOf(fit.curve).name).toBe('toe-shoulder');
  });
});

describe('delta-X speed', () => {
  it('equals the 0.10 speed at the ISO contrast condition (derived)', () => {
    const speed = deltaXSpeed(
      { value: Math.log10(0.008), standardError: null },
      { value: 0.8, standardError: null },
    );
    expectWithin(speed?.exact.value ?? NaN, 100, 1e-9);
    expect(speed?.verified).toBe(false);
  });
  it('is not given outside the rises for which the relation was made', () => {
    const point = { value: -2, standardError: null };
    for (const rise of [0.5, 1.2, NaN]) {
      expect(deltaXSpeed(point, { value: rise, standardError: null })).toBeNull();
    }
  });
});
