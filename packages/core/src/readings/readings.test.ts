import { describe, expect, it } from 'vitest';
import { expectWithin, printedTo } from '../../../../test/within.ts';
import { InvalidArgumentError, OutOfDomainError } from '../errors.ts';
import {
  cameraLogExposures,
  checkReadings,
  contactLogExposures,
  densityFromMatchedTimes,
  densityFromStops,
  densityFromTransmittance,
  meteredDensity,
  meterReadingOf,
  nominalTablet,
  poolReplicates,
  powerCorrectedTime,
  schwarzschildTime,
  stopsFromDensity,
  transmittanceFromDensity,
} from './index.ts';

describe('units of density', () => {
  it('gives a clear sample density 0, not -0', () => {
    expect(Object.is(densityFromTransmittance(1), 0)).toBe(true);
  });
  it('inverts transmittance and stops', () => {
    for (const density of [-0.3, 0, 0.1, 2.5]) {
      expectWithin(densityFromTransmittance(transmittanceFromDensity(density)), density, 1e-12);
      expectWithin(densityFromStops(stopsFromDensity(density)), density, 1e-12);
    }
  });
  it('reads a density from two times matched by eye (published: 13 s against 10 s gives 0.114)', () => {
    expectWithin(densityFromMatchedTimes(13, 10), 0.114, printedTo(3));
  });
  it.each([0, -1, NaN, Infinity])('refuses a transmittance of %f', (transmittance) => {
    expect(() => densityFromTransmittance(transmittance)).toThrow(OutOfDomainError);
  });
  it.each([NaN, Infinity])('refuses a density, a stop or a time of %f', (value) => {
    expect(() => transmittanceFromDensity(value)).toThrow(InvalidArgumentError);
    expect(() => densityFromStops(value)).toThrow(InvalidArgumentError);
    expect(() => densityFromMatchedTimes(value, 10)).toThrow(InvalidArgumentError);
  });
});

describe('tablets and exposures', () => {
  it('runs the trade sizes from 0.05 to the published end of 3.05 (practice)', () => {
    expect(nominalTablet({ steps: 21, increment: 0.15 }).at(-1)).toBe(3.05);
    expect(nominalTablet({ steps: 31, increment: 0.1 }).at(-1)).toBe(3.05);
    expect(nominalTablet({ steps: 11, increment: 0.3 }).at(-1)).toBe(3.05);
  });
  it('subtracts the tablet from the source', () => {
    expect(contactLogExposures([0.05, 0.2], -0.5)).toEqual([-0.55, -0.7]);
    expect(contactLogExposures([0])).toEqual([0]);
  });
  it('adds stops in the camera', () => {
    expectWithin(cameraLogExposures(-2, [10])[0] ?? NaN, -2 + 3.0103, printedTo(4));
  });
  it.each([
    { steps: 1, increment: 0.15 },
    { steps: 2.5, increment: 0.15 },
    { steps: 21, increment: 0 },
    { steps: 21, increment: NaN },
    { steps: 21, increment: 0.15, firstDensity: -1 },
  ])('refuses the tablet %o', (options) => {
    expect(() => nominalTablet(options)).toThrow(InvalidArgumentError);
  });
});

describe('poolReplicates', () => {
  it('finds the pure error of steps read twice and leaves its input alone', () => {
    const readings = {
      logExposures: [0, -1, 0],
      densities: [1.0, 0.5, 1.04],
      unexposedDensities: [0.1, 0.12],
    };
    const before = structuredClone(readings);
    const pooled = poolReplicates(readings);
    expect(readings).toEqual(before);
    expect(pooled.steps.map((step) => step.logExposure)).toEqual([-Infinity, -1, 0]);
    // By hand: 2 x 0.01² + 2 x 0.02² on 2 degrees of freedom.
    expectWithin(pooled.pureErrorSumOfSquares, 0.001, 1e-12);
    expect(pooled.pureErrorDegreesOfFreedom).toBe(2);
  });
  it('refuses arrays of different length and readings that are no numbers', () => {
    expect(() => poolReplicates({ logExposures: [0, 1], densities: [1] })).toThrow(
      InvalidArgumentError,
    );
    expect(() => poolReplicates({ logExposures: [0], densities: [NaN] })).toThrow(
      InvalidArgumentError,
    );
  });
  it('gives no standard deviation without replicates', () => {
    expect(poolReplicates({ logExposures: [], densities: [] }).readingStandardDeviation).toBeNull();
  });
});

describe('checkReadings', () => {
  const logExposures = [-3, -2, -1, 0];
  it('says nothing of a plain strip', () => {
    expect(checkReadings({ logExposures, densities: [0.1, 0.4, 1, 1.5] })).toEqual([]);
  });
  it('tells a reversed strip from a solarised one', () => {
    const kindOf = (densities: number[]) =>
      checkReadings({ logExposures, densities })[0]?.details.kind;
    expect(kindOf([1.5, 1, 0.4, 0.1])).toBe('reversed');
    expect(kindOf([0.1, 0.9, 1.6, 1.2])).toBe('solarised');
  });
  it('counts slightly negative densities', () => {
    expect(checkReadings({ logExposures, densities: [-0.02, 0, 1, 2] })).toMatchObject([
      { code: 'density-slightly-negative', details: { count: 1, lowest: -0.02 } },
    ]);
  });
  it('tells replicates that differ by more than a densitometer scatters, the worst of them', () => {
    const twice = (second: readonly number[], unexposedDensities: readonly number[] = []) =>
      checkReadings({
        logExposures: [...logExposures, ...logExposures],
        densities: [0.1, 0.4, 1, 1.5, ...second],
        unexposedDensities,
      });
    expect(twice([0.12, 0.38, 1.04, 1.46], [0.1, 0.12])).toEqual([]);
    expect(twice([0.12, 0.58, 1.24, 1.46])).toMatchObject([
      {
        code: 'replicates-disagree',
        details: { count: 2, logExposure: -1, lowest: 1, highest: 1.24 },
      },
    ]);
    const [told] = twice([0.1, 0.4, 1, 1.5], [0.1, 0.4]);
    expect(told).toMatchObject({ code: 'replicates-disagree', details: { count: 1 } });
    expect(told?.details).not.toHaveProperty('logExposure');
  });
});

describe('reciprocity', () => {
  it('reproduces the published table for a = 0.001766 (published, recomputed)', () => {
    const table = [
      [80, 82.1],
      [160, 166.6],
      [240, 252.7],
      [480, 519.0],
      [960, 1079.7],
    ] as const;
    for (const [metered, corrected] of table) {
      expectWithin(powerCorrectedTime(metered, 0.001766), corrected, printedTo(1) + 0.02);
    }
  });
  it('leaves the time alone where there is no failure', () => {
    expectWithin(schwarzschildTime(30, 1), 30, 1e-12);
    expect(() => schwarzschildTime(30, NaN)).toThrow(OutOfDomainError);
  });
});

describe('density by a light meter', () => {
  it('takes one stop less as 0.301 (published: log10 of 2) and a tenth of the lux as 1', () => {
    expectWithin(
      meteredDensity('exposure-value', 9, { base: 10, step: 0 }).value,
      0.301,
      printedTo(3),
    );
    expectWithin(meteredDensity('lux', 12.5, { base: 125, step: 0 }).value, 1, 1e-12);
  });
  it('reads matched times (published: 13 s against 10 s gives 0.114)', () => {
    expectWithin(meteredDensity('seconds', 13, { base: 10, step: 0 }).value, 0.114, printedTo(3));
  });
  it('gives the error of a step, by hand', () => {
    // 1/3 stop: 0.30103 x sqrt 2 x (1/3) / sqrt 12 = 0.0410
    const thirds = meteredDensity('exposure-value', 5, { base: 10, step: 1 / 3 });
    expectWithin(thirds.standardError ?? NaN, 0.041, printedTo(3));
    // 10 lux shown to 1: 0.4343 x 0.2887 x hypot(1/10, 1/1000) = 0.01254
    const lux = meteredDensity('lux', 10, { base: 1000, step: 1 });
    expectWithin(lux.standardError ?? NaN, 0.01254, printedTo(5));
    expect(meteredDensity('lux', 10, { base: 1000, step: 0 }).standardError).toBeNull();
  });
  it('agrees with readings rounded to the step, over a generated series', () => {
    let square = 0;
    const count = 2000;
    for (let i = 0; i < count; i++) {
      const density = 0.3 + (1.5 * i) / count;
      const base = 500 + 0.37 * i;
      const read = Math.round(meterReadingOf('lux', density, base));
      const { value, standardError } = meteredDensity('lux', read, {
        base: Math.round(base),
        step: 1,
      });
      square += ((value - density) / (standardError ?? NaN)) ** 2;
    }
    expectWithin(Math.sqrt(square / count), 1, 0.05);
  });
  it('goes there and back on every scale', () => {
    for (const scale of ['exposure-value', 'lux', 'seconds'] as const) {
      for (const density of [-0.1, 0, 0.77, 3]) {
        const reading = meterReadingOf(scale, density, 12);
        expectWithin(meteredDensity(scale, reading, { base: 12, step: 0.1 }).value, density, 1e-12);
      }
    }
  });
  it('refuses what no meter shows', () => {
    const base = { base: 10, step: 1 };
    expect(() => meteredDensity('lux', 0, base)).toThrow(InvalidArgumentError);
    expect(() => meteredDensity('seconds', -1, base)).toThrow(InvalidArgumentError);
    expect(() => meteredDensity('exposure-value', NaN, base)).toThrow(InvalidArgumentError);
    expect(() => meteredDensity('lux', 5, { base: 0, step: 1 })).toThrow(InvalidArgumentError);
    expect(() => meteredDensity('lux', 5, { base: 10, step: NaN })).toThrow(InvalidArgumentError);
    expect(() => meterReadingOf('lux', NaN, 10)).toThrow(InvalidArgumentError);
    expect(() => meterReadingOf('lux', 1, 0)).toThrow(InvalidArgumentError);
  });
});
