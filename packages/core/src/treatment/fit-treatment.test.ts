import { describe, expect, it } from 'vitest';
import { seleniumDefaults } from '../../../../test/selenium-bath.ts';
import { expectWithin } from '../../../../test/within.ts';
import { InvalidArgumentError } from '../errors.ts';
import type { CurveReadings } from '../readings/index.ts';
import { fitDoseResponse } from './fit-dose-response.ts';
import { fitTreatment, type TreatedStrip } from './fit-treatment.ts';
import { gainAtBath } from './gain-at-dose.ts';
import { treatedNetDensity } from './gain-law.ts';
import { pairStrips } from './pair-strips.ts';

const xs = Array.from({ length: 16 }, (_, i) => -2.4 + 0.15 * i);
const net = (x: number) => 0.6 * 0.25 * Math.log1p(Math.exp((x + 2) / 0.25));
const strip = (densityOf: (x: number) => number, base = 0.1): CurveReadings => ({
  logExposures: xs,
  densities: xs.map((x) => Math.round(1e4 * (base + densityOf(x))) / 1e4),
  unexposedDensities: [base, base],
});
const untreated = strip(net);
const treatedBy = (gain: number, bath: Partial<TreatedStrip['bath']> = {}, base = 0.1) => ({
  strip: `gain ${gain}`,
  bath: { partsWater: 1, minutes: 5, celsius: 20, ...bath },
  treated: strip((x) => gain * net(x), base),
  untreated,
  untreatedStrip: 'untreated',
});
const codes = ({ warnings }: { warnings: readonly { code: string }[] }) =>
  warnings.map(({ code }) => code);

describe('pairStrips', () => {
  it('pairs equal exposures above each strip’s own base + fog', () => {
    const paired = pairStrips(
      untreated,
      strip((x) => 1.2 * net(x), 0.13),
    );
    expect(paired.pairs).toHaveLength(16);
    expect(paired.treatedBaseFog).toMatchObject({ value: 0.13, source: 'read', weight: 2 });
    for (const { untreated: u, treated: v } of paired.pairs) expectWithin(v, 1.2 * u, 2e-4);
  });

  it('counts treated steps without a partner', () => {
    const shifted = { ...untreated, logExposures: xs.map((x, i) => (i < 3 ? x + 0.07 : x)) };
    expect(pairStrips(untreated, shifted).unpaired).toBe(3);
  });

  it('takes base + fog from the curve where none was read, and the lowest density from scraps', () => {
    const { logExposures, densities } = untreated;
    const paired = pairStrips({ logExposures, densities }, untreated);
    expect(paired.untreatedBaseFog.source).toBe('curve');
    expectWithin(paired.untreatedBaseFog.value, 0.1, 0.02);
    const scrap = { logExposures: [-1, 0], densities: [0.4, 1.1] };
    expect(pairStrips(scrap, scrap).untreatedBaseFog).toMatchObject({
      value: 0.4,
      source: 'lowest-density',
    });
  });

  it('averages replicates and tells their error', () => {
    const twice = {
      logExposures: [-1, -1, 0, 0],
      densities: [0.5, 0.52, 1.0, 1.02],
      unexposedDensities: [0.1, 0.1],
    };
    const paired = pairStrips(twice, twice);
    expectWithin(paired.pairs[0]!.untreated, 0.41, 1e-12);
    expect(paired.pairs[0]).toMatchObject({ untreatedCount: 2, treatedCount: 2 });
    // Pure error: two pairs 0.02 apart and one 0 apart on each strip, 3 degrees of freedom each.
    expectWithin(paired.replicateError!.standardDeviation, Math.sqrt(4e-4 / 3), 1e-9);
  });

  it('does not change its arguments', () => {
    const frozen = Object.freeze({
      logExposures: Object.freeze([...xs]),
      densities: Object.freeze([...untreated.densities]),
      unexposedDensities: Object.freeze([0.1]),
    });
    expect(() => pairStrips(frozen, frozen)).not.toThrow();
  });
});

describe('fitTreatment', () => {
  it('gives a gain with its error while a reading is half typed, however badly the law fits', () => {
    const exposures = [0.45, 0.45, 0.3];
    const scrap = (densities: readonly number[]): CurveReadings => ({
      logExposures: exposures,
      densities,
      unexposedDensities: [0.2],
    });
    // 1.10 as far as its first digit goes: the weight of the law in use is below the least double.
    const half = {
      ...treatedBy(1),
      untreated: scrap([1.5, 1.52, 1.1]),
      treated: scrap([1.5, 1.52, 0]),
    };
    const [treated] = fitTreatment([half], seleniumDefaults).treated;
    expect(treated?.gain.standardError).toBeGreaterThan(0);
  });

  it('finds the gain of one strip and keeps the built-in dose-response for the rest', () => {
    const model = fitTreatment([treatedBy(1.15)], seleniumDefaults);
    expect(model.origin).toBe('fitted');
    expectWithin(model.treated[0]!.gain.value, 1.15, 1e-3);
    expect(model.doseResponse.origin).toMatchObject({ maximumGain: 'fitted', halfDose: 'default' });
    expect(codes(model)).toContain('dose-response-default');
    // The model repeats the trial at the trial's own bath.
    const { gain } = gainAtBath(model.doseResponse, treatedBy(1.15).bath);
    expectWithin(gain.value, 1.15, 1e-3);
  });

  it('does not mind a base + fog that was toned too', () => {
    const model = fitTreatment([treatedBy(1.15, {}, 0.14)], seleniumDefaults);
    expectWithin(model.treated[0]!.gain.value, 1.15, 1e-3);
  });

  it('takes two readings before and after on one scrap, with an honest error', () => {
    const scrap = (gain: number) => ({
      logExposures: [-1, 0],
      densities: [0.1 + 0.5 * gain, 0.1 + 1.1 * gain],
      unexposedDensities: [0.1],
    });
    const model = fitTreatment(
      [
        {
          strip: 'scrap',
          bath: { partsWater: 3, minutes: 6, celsius: 20 },
          untreated: scrap(1),
          treated: scrap(1.12),
        },
      ],
      seleniumDefaults,
    );
    const { gain } = model.treated[0]!;
    expectWithin(gain.value, 1.12, 1e-6);
    // Two readings of 0.01 each on a range of 1.2: about 0.015.
    expect(gain.standardError).toBeGreaterThan(0.008);
    expect(gain.standardError).toBeLessThan(0.03);
    expect(model.law.reason).toBe('too-few');
    expect(codes(model)).toContain('reading-error-assumed');
  });

  it.each([1.2, 0.8])('tells a power of %f with base + fog read or not', (exponent) => {
    const law = { family: 'power', exponent, referenceDensity: 1.2 } as const;
    const exact = (densityOf: (x: number) => number): CurveReadings => ({
      logExposures: xs,
      densities: xs.map((x) => 0.1 + densityOf(x)),
    });
    const powered = exact((x) => treatedNetDensity(net(x), 1.17, law));
    for (const unexposedDensities of [[0.1, 0.1], undefined]) {
      const base = unexposedDensities === undefined ? {} : { unexposedDensities };
      const model = fitTreatment(
        [
          {
            strip: 'power',
            bath: { partsWater: 1, minutes: 6, celsius: 20 },
            untreated: { ...exact(net), ...base },
            treated: { ...powered, ...base },
          },
        ],
        seleniumDefaults,
      );
      expect(model.law.family).toBe('power');
      expectWithin(model.law.exponent.value, exponent, 2e-3);
      expectWithin(model.treated[0]!.gain.value, 1.17, 1e-3);
      expect(codes(model).includes('base-fog-extrapolated')).toBe(unexposedDensities === undefined);
    }
  });

  it('tells concentration and temperature exponents from trials that differ in them', () => {
    const n = 1.3;
    const q = 1.8;
    const gainOf = (partsWater: number, minutes: number, celsius: number) => {
      const e = minutes * (1 + partsWater) ** -n * q ** ((celsius - 20) / 10);
      return 1 + 0.25 * (1 - 2 ** (-e / 0.6));
    };
    const baths = [
      [1, 1, 20],
      [1, 3, 20],
      [1, 8, 20],
      [4, 3, 20],
      [4, 9, 20],
      [1, 1.5, 28],
      [4, 5, 28],
    ] as const;
    const model = fitTreatment(
      baths.map(([partsWater, minutes, celsius]) =>
        treatedBy(gainOf(partsWater, minutes, celsius), { partsWater, minutes, celsius }),
      ),
      seleniumDefaults,
      { family: 'first-order' },
    );
    const { concentrationExponent, temperatureCoefficient, maximumGain, halfDose, origin } =
      model.doseResponse;
    expect(Object.values(origin).filter((from) => from === 'fitted')).toHaveLength(4);
    expectWithin(concentrationExponent.value, n, 0.02);
    expectWithin(temperatureCoefficient.value, q, 0.05);
    expectWithin(maximumGain.value, 1.25, 0.003);
    expectWithin(halfDose.value, 0.6, 0.03);
  });

  it('keeps the built-in half dose where every trial was complete, and says so', () => {
    const model = fitTreatment(
      [treatedBy(1.2, { minutes: 30 }), treatedBy(1.2, { minutes: 60 })],
      seleniumDefaults,
    );
    expect(model.doseResponse.origin.halfDose).toBe('default');
    expectWithin(model.doseResponse.maximumGain.value, 1.2, 2e-3);
    expect(codes(model)).toContain('dose-response-not-determined');
  });

  it('warns of gains that the chemistry does not allow', () => {
    expect(codes(fitTreatment([treatedBy(1.6)], seleniumDefaults))).toContain('gain-above-bound');
    expect(codes(fitTreatment([treatedBy(0.8)], seleniumDefaults))).toContain('gain-below-one');
  });

  it('leaves out strips without a partner; with none left the built-in model stands', () => {
    const alone = { ...treatedBy(1.2), untreated: null };
    const model = fitTreatment([alone], seleniumDefaults);
    expect(model.origin).toBe('default');
    expect(codes(model)).toEqual(
      expect.arrayContaining(['strips-unpaired', 'dose-response-default']),
    );
    expect(fitTreatment([], seleniumDefaults).origin).toBe('default');
  });

  it('takes an untreated control in the bath list for what it is', () => {
    const model = fitTreatment(
      [
        treatedBy(1, { minutes: 0 }),
        treatedBy(1.14, { minutes: 4 }),
        treatedBy(1.19, { minutes: 9 }),
      ],
      seleniumDefaults,
    );
    expect(Number.isFinite(model.doseResponse.maximumGain.value)).toBe(true);
    expectWithin(model.treated[0]!.gain.value, 1, 1e-3);
  });

  it('refuses readings that are no numbers', () => {
    const bad = treatedBy(1.2);
    const treated = { ...bad.treated, densities: xs.map(() => NaN) };
    expect(() => fitTreatment([{ ...bad, treated }], seleniumDefaults)).toThrow(
      InvalidArgumentError,
    );
  });

  it('survives JSON, so that it can be stored and sent to a worker', () => {
    const model = fitTreatment([treatedBy(1.1, { minutes: 2 }), treatedBy(1.2)], seleniumDefaults);
    expect(JSON.parse(JSON.stringify(model))).toEqual(model);
  });
});

describe('fitDoseResponse', () => {
  it('scales errors up where gains scatter more than they should', () => {
    const baths = [1, 2, 4, 8].map((minutes) => ({ partsWater: 1, minutes, celsius: 20 }));
    const truth = baths.map(({ minutes }) => 1 + 0.2 * (1 - 2 ** (-minutes / 1.4)));
    const gains = (shift: number) =>
      truth.map((value, i) => ({ value: value + (i % 2 ? shift : -shift), standardError: 0.002 }));
    const covariance = truth.flatMap((_, i) => truth.map((__, j) => (i === j ? 4e-6 : 0)));
    const fit = (shift: number) =>
      fitDoseResponse({ baths, gains: gains(shift), covariance }, seleniumDefaults, 'first-order')
        .doseResponse.maximumGain.standardError!;
    expect(fit(0.012)).toBeGreaterThan(3 * fit(0));
  });
});

describe('parameters that are held', () => {
  const trials = [1, 3, 8].map((minutes) =>
    treatedBy(1 + 0.2 * (1 - 2 ** (-minutes / 2 / 0.7)), { minutes }),
  );

  it('stay where they are held, say so, and have neither error nor range', () => {
    const model = fitTreatment(trials, seleniumDefaults, { held: { maximumGain: 1.25 } });
    const { doseResponse } = model;
    expect(doseResponse.origin).toMatchObject({ maximumGain: 'held', halfDose: 'fitted' });
    expect(doseResponse.maximumGain).toEqual({ value: 1.25, standardError: null });
    expect(doseResponse.plausible.maximumGain).toBeNull();
    // The rate makes up for the greater gain.
    const free = fitTreatment(trials, seleniumDefaults).doseResponse;
    expect(doseResponse.halfDose.value).toBeGreaterThan(free.halfDose.value);
    expectWithin(free.halfDose.value, 0.7, 0.01, 'free half dose');
  });

  it('free a trial for another: with gain and rate held, one piece at 1+3 tells the exponent', () => {
    const gain = 1 + 0.2 * (1 - 2 ** (-(4 * 0.25 ** 1.2) / 0.7));
    const two = [
      treatedBy(gain, { partsWater: 3, minutes: 4 }),
      treatedBy(1 + 0.2 * (1 - 2 ** (-3 / 2 ** 1.2 / 0.7)), { minutes: 3 }),
    ];
    const { doseResponse } = fitTreatment(two, seleniumDefaults, {
      held: { maximumGain: 1.2, halfDose: 0.7 },
    });
    expect(doseResponse.origin.concentrationExponent).toBe('fitted');
    expectWithin(doseResponse.concentrationExponent.value, 1.2, 0.02, 'n');
  });

  it('leave nothing to fit when all are held, and the gains of the strips stand', () => {
    const held = {
      maximumGain: 1.2,
      halfDose: 0.7,
      steepness: 1,
      concentrationExponent: 1,
      temperatureCoefficient: 2,
    };
    const model = fitTreatment(trials, seleniumDefaults, { held });
    expect(new Set(Object.values(model.doseResponse.origin))).toEqual(new Set(['held']));
    expectWithin(model.doseResponse.halfDose.value, 0.7, 0, 'half dose');
    expectWithin(
      gainAtBath(model.doseResponse, { partsWater: 1, minutes: 3, celsius: 20 }).gain.value,
      model.treated[1]!.gain.value,
      0.002,
      'gain',
    );
  });

  it('hold without any trial too', () => {
    const model = fitTreatment([], seleniumDefaults, { held: { concentrationExponent: 1.3 } });
    expect(model.doseResponse.origin.concentrationExponent).toBe('held');
    expect(model.doseResponse.concentrationExponent.value).toBe(1.3);
    expect(model.doseResponse.plausible.concentrationExponent).toBeNull();
  });

  it.each([
    ['maximumGain', 0],
    ['halfDose', NaN],
    ['concentrationExponent', 5],
    ['temperatureCoefficient', 0.5],
  ] as const)('refuse %s of %s', (name, value) => {
    expect(() => fitTreatment(trials, seleniumDefaults, { held: { [name]: value } })).toThrow(
      InvalidArgumentError,
    );
    expect(() => fitTreatment([], seleniumDefaults, { held: { [name]: value } })).toThrow(
      InvalidArgumentError,
    );
  });
});

describe('what a bath does to base + fog', () => {
  it('is told where it was read before and after, with its error', () => {
    const model = fitTreatment(
      [treatedBy(1.1, { minutes: 2 }, 0.12), treatedBy(1.18, { minutes: 8 }, 0.12)],
      seleniumDefaults,
    );
    expectWithin(model.baseFogChange!.value, 0.02, 1e-9, 'change');
    expect(model.baseFogChange!.standardError).toBeGreaterThan(0);
    expectWithin(model.treated[0]!.baseFogChange!.value, 0.02, 1e-9, 'of one strip');
  });

  it('is not told where it was not read', () => {
    const { logExposures, densities } = untreated;
    const model = fitTreatment(
      [{ ...treatedBy(1.1), untreated: { logExposures, densities } }],
      seleniumDefaults,
    );
    expect(model.baseFogChange).toBeNull();
  });
});

describe('reducers of the three classes', () => {
  const reduced = (densityOf: (u: number) => number, minutes: number): TreatedStrip => ({
    strip: `${minutes} min`,
    bath: { partsWater: 1, minutes, celsius: 20 },
    treated: strip((x) => densityOf(net(x))),
    untreated,
    untreatedStrip: 'untreated',
  });

  it('proportional: half of the silver everywhere', () => {
    const model = fitTreatment([reduced((u) => 0.5 * u, 3)], seleniumDefaults);
    expect(model.law.family).toBe('proportional');
    expectWithin(model.treated[0]!.gain.value, 0.5, 2e-3, 'gain');
  });

  it('surface: the same everywhere, down to the base', () => {
    const model = fitTreatment([reduced((u) => Math.max(0, u - 0.12), 3)], seleniumDefaults);
    expect(model.law.family).toBe('shift');
    expectWithin(1.2 * (1 - model.treated[0]!.gain.value), 0.12, 3e-3, 'taken');
  });

  it('superproportional: most from where there is most', () => {
    const law = { family: 'intensifier-safe', exponent: 1.5, referenceDensity: 1.2 } as const;
    const model = fitTreatment(
      [reduced((u) => treatedNetDensity(u, 0.7, law), 3)],
      seleniumDefaults,
    );
    expect(model.law.family).toBe('intensifier-safe');
    expectWithin(model.law.exponent.value, 1.5, 0.02, 'exponent');
    expectWithin(model.treated[0]!.gain.value, 0.7, 3e-3, 'gain');
  });
});
