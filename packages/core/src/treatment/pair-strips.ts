/**
 * Pairs of net densities, untreated and treated, at the same exposure.
 *
 *   u = D_untreated - b,   v = D_treated - b'
 *
 * Each strip stands above its own base + fog, so it does not matter whether the bath tones the fog
 * too. Replicates of a step are averaged.
 *
 * Sources: [GSE1979] for density above fog as what an intensifier acts on. Deviations: none.
 */
import { derivedBaseFog, estimateOn, firstCurve, FEWEST_STEPS } from '../curve/index.ts';
import type { Estimate } from '../estimate.ts';
import { poolReplicates, type CurveReadings, type PooledReadings } from '../readings/index.ts';

/** One exposure on both strips. */
export interface DensityPair {
  readonly logExposure: number;
  /** u, net density without the bath. */
  readonly untreated: number;
  /** v, net density after the bath. */
  readonly treated: number;
  /** Readings behind each of the two. */
  readonly untreatedCount: number;
  readonly treatedCount: number;
}

/** Where the base + fog of a strip comes from. */
export type BaseFogSource = 'read' | 'curve' | 'lowest-density' | 'given';

export interface BaseFog extends Estimate {
  readonly source: BaseFogSource;
  /** How many readings it is worth in a fit: the count of unexposed ones, Infinity when given. */
  readonly weight: number;
}

export interface PairedReadings {
  readonly pairs: readonly DensityPair[];
  readonly untreatedBaseFog: BaseFog;
  readonly treatedBaseFog: BaseFog;
  /** Treated steps without an untreated one at the same exposure. */
  readonly unpaired: number;
  /** Standard deviation of one reading by replicates, with its degrees of freedom; null without. */
  readonly replicateError: {
    readonly standardDeviation: number;
    readonly degreesOfFreedom: number;
  } | null;
}

export interface PairOptions {
  readonly untreatedBaseFog?: number;
  readonly treatedBaseFog?: number;
}

/** Log exposures closer than this are the same step. */
const SAME_EXPOSURE = 1e-4;
/** Standard deviation of a reading where nothing tells it. */
const ASSUMED_READING_ERROR = 0.01;
/** Steps that make a strip, of which the curve tells base + fog, rather than a scrap. */
const STRIP_STEPS = 6;
const LEAST_UNREAD_ERROR = 0.01;
/** How far below its thinnest reading the base + fog of a scrap may lie. */
const SCRAP_ERROR = 0.2;

/**
 * Pairs two strips step by step.
 *
 * @param untreated - readings of the strip without the bath
 * @param treated - readings of the strip after the bath, same tablet and exposure
 * @param options - base + fog where it is known otherwise
 * @returns pairs in ascending exposure; the base + fog is the mean of the unexposed readings, else
 *   the fitted curve's, else the lowest density, as `source` says
 * @throws InvalidArgumentError if readings are not finite or arrays differ in length
 */
export function pairStrips(
  untreated: CurveReadings,
  treated: CurveReadings,
  options: PairOptions = {},
): PairedReadings {
  const before = poolReplicates(untreated);
  const after = poolReplicates(treated);
  const found = [
    baseFogOf(untreated, before, options.untreatedBaseFog),
    baseFogOf(treated, after, options.treatedBaseFog),
  ] as const;
  // Both strips were read with one error; the better fitted curve of the two tells it.
  const readingError = Math.min(found[0].readingError, found[1].readingError);
  const [untreatedBaseFog, treatedBaseFog] = found.map((one): BaseFog => ({
    value: one.value,
    standardError: one.standardError,
    source: one.source,
    weight: one.weight ?? (readingError / one.standardError) ** 2,
  })) as [BaseFog, BaseFog];
  const steps = before.steps.filter(({ logExposure }) => logExposure > -Infinity);
  const pairs: DensityPair[] = [];
  let unpaired = 0;
  for (const { logExposure, meanDensity, count } of after.steps) {
    if (logExposure === -Infinity) continue;
    const partner = steps.find((step) => Math.abs(step.logExposure - logExposure) < SAME_EXPOSURE);
    if (partner === undefined) unpaired++;
    else {
      pairs.push({
        logExposure,
        untreated: partner.meanDensity - untreatedBaseFog.value,
        treated: meanDensity - treatedBaseFog.value,
        untreatedCount: partner.count,
        treatedCount: count,
      });
    }
  }
  return {
    pairs,
    untreatedBaseFog,
    treatedBaseFog,
    unpaired,
    replicateError: replicateErrorOf([before, after]),
  };
}

/** Base + fog before its weight is settled; `weight` is null where it was not read. */
interface FoundBaseFog {
  readonly value: number;
  readonly standardError: number;
  readonly source: BaseFogSource;
  readonly weight: number | null;
  /** Standard deviation of a reading as far as this strip tells it. */
  readonly readingError: number;
}

function baseFogOf(
  readings: CurveReadings,
  pooled: PooledReadings,
  given: number | undefined,
): FoundBaseFog {
  const readingError = pooled.readingStandardDeviation ?? ASSUMED_READING_ERROR;
  if (given !== undefined) {
    return { value: given, standardError: 0, source: 'given', weight: Infinity, readingError };
  }
  const unexposed = pooled.steps.find(({ logExposure }) => logExposure === -Infinity);
  if (unexposed !== undefined) {
    const { meanDensity: value, count } = unexposed;
    const standardError = readingError / Math.sqrt(count);
    return { value, standardError, source: 'read', weight: count, readingError };
  }
  const lowest = Math.min(...pooled.steps.map(({ meanDensity }) => meanDensity));
  const unread = { source: 'lowest-density', weight: null, readingError } as const;
  if (pooled.steps.length < Math.max(FEWEST_STEPS, STRIP_STEPS)) {
    return { ...unread, value: lowest, standardError: SCRAP_ERROR };
  }
  const fit = firstCurve(readings);
  const fitted = fit.status === 'ok' ? estimateOn(fit.curve, derivedBaseFog) : null;
  // A base + fog far below every reading is an extrapolation that nothing supports.
  if (fitted === null || !(fitted.value > lowest - 0.15 && fitted.value <= lowest + 0.02)) {
    return { ...unread, value: lowest, standardError: LEAST_UNREAD_ERROR };
  }
  const spread = fit.status === 'ok' ? fit.curve.residualStandardDeviation : null;
  return {
    value: fitted.value,
    // A toe of another shape moves it by a hundredth at least.
    standardError: Math.max(fitted.standardError ?? 0, LEAST_UNREAD_ERROR),
    source: 'curve',
    weight: null,
    readingError: spread !== null && spread > 0 ? spread : readingError,
  };
}

function replicateErrorOf(strips: readonly PooledReadings[]): PairedReadings['replicateError'] {
  let squares = 0;
  let degreesOfFreedom = 0;
  for (const strip of strips) {
    squares += strip.pureErrorSumOfSquares;
    degreesOfFreedom += strip.pureErrorDegreesOfFreedom;
  }
  if (degreesOfFreedom === 0) return null;
  return { standardDeviation: Math.sqrt(squares / degreesOfFreedom), degreesOfFreedom };
}
