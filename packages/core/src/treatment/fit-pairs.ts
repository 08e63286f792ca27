/**
 * Gains, base + fogs and exponent of one law by least squares.
 *
 * Strips that were paired with one untreated strip are fitted together; what other strips share with
 * them is the exponent alone. Given it, the groups fall apart, so that the work grows with their
 * number and not with its cube. The exponent is found by Gauss and Newton's step along the valley,
 *
 *   s = (sum_g j'j - b' A^-1 b)^-1,   step = -s sum_g r'j,   b = J'j,   A = J'J
 *
 * with r and J of group g at its own minimum, j the derivative by the exponent, and the covariance
 * of everything is that of the joint fit: A^-1 within a group, plus s (A^-1 b)(A^-1 b)' among all.
 *
 * Sources: [GP1973] for the projection; the partitioned inverse for the rest. Deviations: none.
 */
import { leastSquares, type LeastSquaresFit } from '../fitting/index.ts';
import type { GainLawFamily } from './gain-law.ts';
import { pairBlocks, projectedResiduals, type PairBlocks, type StripPairs } from './pair-blocks.ts';

/** What a law's fit tells. */
export interface PairsFit {
  /** Gains of the strips, base + fogs of the strips and of the untreated ones, the exponent if any. */
  readonly parameters: readonly number[];
  /** Row-major, for readings with an error of 1; zero where it is not determined. */
  readonly covariance: readonly number[];
  readonly residualSumOfSquares: number;
  /** Readings less the true densities projected out. */
  readonly rows: number;
  /** Parameters that were free to move. */
  readonly free: number;
  /** True where every parameter was determined and none is held by a bound. */
  readonly settled: boolean;
}

/** Every parameter within a millionth of its standard error. */
const OFFSET_TOLERANCE = 1e-6;
const MOST_STEPS = 30;
const EXPONENTS: readonly [number, number] = [0.2, 5];
/** A reading's error below which no digit of the exponent is worth a step. */
const LEAST_ERROR = 1e-5;

export function hasExponent(family: GainLawFamily): boolean {
  return family === 'power' || family === 'intensifier-safe';
}

/**
 * The strips by the untreated strip that they were paired with.
 *
 * @param strips - at least one strip with at least one pair of untreated net density above zero
 */
export function pairGroups(strips: readonly StripPairs[]): readonly PairGroup[] {
  return [...new Set(strips.map(({ untreatedKey }) => untreatedKey))].map((key) => {
    const members = strips.flatMap((strip, i) => (strip.untreatedKey === key ? [i] : []));
    return { members, blocks: pairBlocks(strips.filter((strip) => strip.untreatedKey === key)) };
  });
}

/**
 * Fits one law.
 *
 * @param family - the law
 * @param groups - see `pairGroups`
 */
export function fitPairs(family: GainLawFamily, groups: readonly PairGroup[]): PairsFit {
  const [first] = groups;
  if (first !== undefined && groups.length === 1) return fitTogether(family, first);
  return hasExponent(family)
    ? fitWithExponent(family, groups)
    : summary(
        groups,
        groups.map(({ blocks }) => fitBlocks(family, blocks, null)),
        null,
      );
}

/** One group with all its parameters, the exponent among them. */
function fitTogether(family: GainLawFamily, group: PairGroup): PairsFit {
  const fit = fitBlocks(family, group.blocks, null);
  const size = fit.parameters.length;
  return {
    parameters: fit.parameters,
    covariance: fit.covariance ?? new Array<number>(size * size).fill(0),
    residualSumOfSquares: fit.residualSumOfSquares,
    rows: rowsOf([group]),
    free: freeOf([group]) + (hasExponent(family) ? 1 : 0),
    settled: determined(fit),
  };
}

/** Strips that were paired with one untreated strip. */
export interface PairGroup {
  /** Which of all strips. */
  readonly members: readonly number[];
  readonly blocks: PairBlocks;
}

/** @param given - the exponent, with the parameters to start from; null where it is free or none */
function fitBlocks(
  family: GainLawFamily,
  blocks: PairBlocks,
  given: { readonly exponent: number; readonly start: readonly number[] | null } | null,
): LeastSquaresFit {
  const exponent = hasExponent(family);
  const { fixed, stripCount } = blocks;
  const most = family === 'shift' ? 1 : 10;
  const first = blocks.start.map((value, j) => (j < stripCount ? Math.min(most, value) : value));
  const size = first.length + (exponent ? 1 : 0);
  const bound = (gain: number, power: number, fog: number): number[] =>
    Array.from({ length: size }, (_, j) =>
      j < stripCount ? gain : exponent && j === size - 1 ? power : fog,
    );
  const start = given?.start?.slice(0, first.length) ?? first;
  return leastSquares(
    {
      residualCount: blocks.rowCount,
      start: exponent ? [...start, given?.exponent ?? 1] : start,
      lower: bound(0.01, EXPONENTS[0], -1),
      upper: bound(most, EXPONENTS[1], 7),
      fixed: exponent ? [...fixed, given !== null] : fixed,
      evaluate: projectedResiduals(family, blocks, size),
    },
    // The unit covariance: rows are scaled to one reading's error, of which the scale comes later.
    { weightKind: 'absolute', offsetTolerance: OFFSET_TOLERANCE },
  );
}

/** How the squares of a group answer to the exponent at the group's own minimum. */
interface Answer {
  /** r'j. */
  readonly slope: number;
  /** j'j - b' A^-1 b. */
  readonly curvature: number;
  /** A^-1 b. */
  readonly moves: readonly number[];
}

function answerOf(family: GainLawFamily, { blocks }: PairGroup, fit: LeastSquaresFit): Answer {
  const size = fit.parameters.length;
  const residuals = new Float64Array(blocks.rowCount);
  const jacobian = new Float64Array(blocks.rowCount * size);
  projectedResiduals(family, blocks, size)(Float64Array.from(fit.parameters), residuals, jacobian);
  const cross = new Float64Array(size - 1);
  let slope = 0;
  let square = 0;
  residuals.forEach((residual, row) => {
    const own = jacobian[row * size + size - 1] ?? 0;
    slope += residual * own;
    square += own * own;
    for (let j = 0; j < size - 1; j++) {
      cross[j] = (cross[j] ?? 0) + own * (jacobian[row * size + j] ?? 0);
    }
  });
  const moves = Array.from({ length: size - 1 }, (_, i) => {
    let sum = 0;
    cross.forEach((value, j) => {
      sum += (fit.covariance?.[i * size + j] ?? 0) * value;
    });
    return sum;
  });
  const explained = moves.reduce((sum, move, j) => sum + move * (cross[j] ?? 0), 0);
  return { slope, curvature: Math.max(0, square - explained), moves };
}

function fitWithExponent(family: GainLawFamily, groups: readonly PairGroup[]): PairsFit {
  const [least, most] = EXPONENTS;
  const fitAll = (at: number, from: readonly LeastSquaresFit[] | null) =>
    groups.map(({ blocks }, g) =>
      fitBlocks(family, blocks, { exponent: at, start: from?.[g]?.parameters ?? null }),
    );
  let exponent = 1;
  let fits = fitAll(exponent, null);
  let sum = squaresOf(fits);
  let answers: readonly Answer[] = [];
  let curvature = 0;
  let found = false;
  for (let count = 0; count < MOST_STEPS && !found; count++) {
    answers = groups.map((group, g) => {
      const fit = fits[g];
      return fit === undefined ? NO_ANSWER : answerOf(family, group, fit);
    });
    curvature = answers.reduce((total, answer) => total + answer.curvature, 0);
    if (!(curvature > 0)) break;
    const slope = answers.reduce((total, answer) => total + answer.slope, 0);
    const small = (OFFSET_TOLERANCE * errorOf(groups, sum)) / Math.sqrt(curvature);
    let step = Math.min(most, Math.max(least, exponent - slope / curvature)) - exponent;
    found = true;
    for (let halving = 0; Math.abs(step) > small && halving < 12; halving++) {
      const next = fitAll(exponent + step, fits);
      const nextSum = squaresOf(next);
      if (nextSum < sum) {
        exponent += step;
        fits = next;
        sum = nextSum;
        found = false;
        break;
      }
      step /= 2;
    }
  }
  const inside = exponent > least && exponent < most;
  return summary(groups, fits, {
    exponent,
    answers,
    variance: found && inside && curvature > 0 ? 1 / curvature : null,
  });
}

const NO_ANSWER: Answer = { slope: 0, curvature: 0, moves: [] };

const squaresOf = (fits: readonly LeastSquaresFit[]): number =>
  fits.reduce((sum, { residualSumOfSquares }) => sum + residualSumOfSquares, 0);

function errorOf(groups: readonly PairGroup[], sum: number): number {
  const rows = groups.reduce((total, { blocks }) => total + blocks.rowCount, 0);
  return Math.max(LEAST_ERROR, Math.sqrt(sum / rows));
}

const rowsOf = (groups: readonly PairGroup[]): number =>
  groups.reduce((sum, { blocks }) => sum + blocks.rowCount - blocks.latentCount, 0);

const freeOf = (groups: readonly PairGroup[]): number =>
  groups.reduce((sum, { blocks }) => sum + blocks.fixed.filter((fixed) => !fixed).length, 0);

const determined = ({ report, atBound }: LeastSquaresFit): boolean =>
  report.status === 'converged' && !atBound.some(Boolean);

/** The groups' fits as one, in the order of the joint parameters. */
function summary(
  groups: readonly PairGroup[],
  fits: readonly LeastSquaresFit[],
  shared: {
    readonly exponent: number;
    readonly answers: readonly Answer[];
    /** Of the exponent, for readings with an error of 1; null where it is not determined. */
    readonly variance: number | null;
  } | null,
): PairsFit {
  const stripCount = groups.reduce((sum, { members }) => sum + members.length, 0);
  const size = 2 * stripCount + groups.length + (shared === null ? 0 : 1);
  const parameters = new Array<number>(size).fill(0);
  const covariance = new Array<number>(size * size).fill(0);
  /** A^-1 b of all groups; -1 for the exponent itself. */
  const moves = new Float64Array(size);
  groups.forEach(({ members, blocks }, g) => {
    const fit = fits[g];
    const local = blocks.start.length;
    const places = Array.from({ length: local }, (_, j) => {
      const member = members[j % members.length] ?? 0;
      if (j < members.length) return member;
      return j < 2 * members.length ? stripCount + member : 2 * stripCount + g;
    });
    places.forEach((place, i) => {
      parameters[place] = fit?.parameters[i] ?? 0;
      moves[place] = shared?.answers[g]?.moves[i] ?? 0;
      places.forEach((other, j) => {
        const width = fit?.parameters.length ?? local;
        covariance[place * size + other] = fit?.covariance?.[i * width + j] ?? 0;
      });
    });
  });
  if (shared !== null) {
    parameters[size - 1] = shared.exponent;
    moves[size - 1] = -1;
    const { variance } = shared;
    if (variance !== null) {
      for (let i = 0; i < size; i++) {
        for (let j = 0; j < size; j++) {
          const at = i * size + j;
          covariance[at] = (covariance[at] ?? 0) + variance * (moves[i] ?? 0) * (moves[j] ?? 0);
        }
      }
    }
  }
  return {
    parameters,
    covariance,
    residualSumOfSquares: squaresOf(fits),
    rows: rowsOf(groups),
    free: freeOf(groups) + (shared === null ? 0 : 1),
    settled: fits.every(determined) && (shared === null || shared.variance !== null),
  };
}
