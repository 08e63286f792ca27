/**
 * The paired readings of all strips as blocks that share one true net density, and the residuals
 * that remain when those densities are projected out.
 *
 *   r = w^(1/2) (model - reading) for the untreated reading and each treated one of a step
 *   q = dr/du / |dr/du|,  J -> (I - q q') J
 *
 * At the best u of a step r is normal to q, so the projected Jacobian gives the exact gradient.
 *
 * Sources: [GP1973]. Deviations: none.
 */
import { gainDerivatives, REFERENCE_NET_DENSITY, type GainLawFamily } from './gain-law.ts';
import type { BaseFog, PairedReadings } from './pair-strips.ts';

/** One treated strip for the fit. */
export interface StripPairs {
  readonly paired: PairedReadings;
  /** Strips with the same key were paired with the same untreated strip. */
  readonly untreatedKey: string;
}

interface Block {
  /** Index of the untreated strip's base + fog among the parameters. */
  readonly baseFogIndex: number;
  readonly density: number;
  readonly weight: number;
  readonly treated: {
    readonly strip: number;
    readonly density: number;
    readonly weight: number;
  }[];
}

interface BaseFogRow {
  readonly index: number;
  readonly value: number;
  readonly weight: number;
}

/**
 * Blocks, and the layout of the parameters: gains of the strips, base + fogs of the strips, base +
 * fogs of the untreated strips; an exponent may follow.
 */
export interface PairBlocks {
  readonly blocks: readonly Block[];
  readonly baseFogRows: readonly BaseFogRow[];
  readonly stripCount: number;
  readonly start: readonly number[];
  readonly fixed: readonly boolean[];
  readonly rowCount: number;
  /** How many true densities are projected out. */
  readonly latentCount: number;
}

/** Gains by a line through base + fog, for the fit to start from. */
function startingGains(strips: readonly StripPairs[]): readonly number[] {
  return strips.map(({ paired }) => {
    let cross = 0;
    let square = 0;
    for (const { untreated, treated } of paired.pairs) {
      cross += untreated * treated;
      square += untreated * untreated;
    }
    return Math.min(9, Math.max(0.05, cross / square));
  });
}

/**
 * Arranges paired strips for the fit.
 *
 * @param strips - treated strips with their pairs
 */
export function pairBlocks(strips: readonly StripPairs[]): PairBlocks {
  const keys = [...new Set(strips.map(({ untreatedKey }) => untreatedKey))];
  const stripCount = strips.length;
  const blocks = new Map<string, Block>();
  const baseFogs: (BaseFog | undefined)[] = strips.map(({ paired }) => paired.treatedBaseFog);
  strips.forEach(({ paired, untreatedKey }, strip) => {
    const group = keys.indexOf(untreatedKey);
    baseFogs[stripCount + group] = paired.untreatedBaseFog;
    for (const pair of paired.pairs) {
      const key = `${group} ${pair.logExposure.toFixed(4)}`;
      const block = blocks.get(key) ?? {
        baseFogIndex: 2 * stripCount + group,
        density: pair.untreated + paired.untreatedBaseFog.value,
        weight: pair.untreatedCount,
        treated: [],
      };
      blocks.set(key, block);
      block.treated.push({
        strip,
        density: pair.treated + paired.treatedBaseFog.value,
        weight: pair.treatedCount,
      });
    }
  });
  const gains = startingGains(strips);
  const all = [...blocks.values()];
  const baseFogRows = baseFogs.flatMap((baseFog, i) =>
    baseFog !== undefined && Number.isFinite(baseFog.weight)
      ? [{ index: stripCount + i, value: baseFog.value, weight: baseFog.weight }]
      : [],
  );
  return {
    blocks: all,
    baseFogRows,
    stripCount,
    start: [...gains, ...baseFogs.map((baseFog) => baseFog?.value ?? 0)],
    fixed: [...gains.map(() => false), ...baseFogs.map((baseFog) => baseFog?.weight === Infinity)],
    rowCount: all.reduce((sum, { treated }) => sum + 1 + treated.length, 0) + baseFogRows.length,
    latentCount: all.length,
  };
}

/**
 * The residual function of a law for the solver.
 *
 * @param family - the law
 * @param data - blocks
 * @param size - number of parameters, one more than the blocks' own where there is an exponent
 */
export function projectedResiduals(
  family: GainLawFamily,
  data: PairBlocks,
  size: number,
): (parameters: Float64Array, residuals: Float64Array, jacobian: Float64Array) => void {
  const exponentIndex = size > data.start.length ? size - 1 : -1;
  return (parameters, residuals, jacobian) => {
    jacobian.fill(0);
    const exponent = exponentIndex < 0 ? 1 : (parameters[exponentIndex] ?? 1);
    const law = { family, exponent, referenceDensity: REFERENCE_NET_DENSITY };
    let row = 0;
    for (const block of data.blocks) {
      const rows = block.treated.length + 1;
      const slopes = new Float64Array(rows);
      const root = Math.sqrt(block.weight);
      const baseFog = parameters[block.baseFogIndex] ?? 0;

      /** Residuals and slopes by u of this block; the sum of squares. */
      const fill = (u: number): number => {
        residuals[row] = root * (baseFog + u - block.density);
        slopes[0] = root;
        let sum = (residuals[row] ?? 0) ** 2;
        block.treated.forEach(({ strip, density, weight }, i) => {
          const gain = parameters[strip] ?? 1;
          const f = gainDerivatives(u, gain, law);
          const own = parameters[data.stripCount + strip] ?? 0;
          const residual = Math.sqrt(weight) * (own + f.value - density);
          residuals[row + 1 + i] = residual;
          slopes[1 + i] = Math.sqrt(weight) * f.byDensity;
          sum += residual * residual;
        });
        return sum;
      };
      const u = bestDensity(block.density - baseFog, fill, residuals, slopes, row);
      fill(u);

      jacobian[row * size + block.baseFogIndex] = root;
      block.treated.forEach(({ strip, weight }, i) => {
        const w = Math.sqrt(weight);
        const f = gainDerivatives(u, parameters[strip] ?? 1, law);
        const at = (row + 1 + i) * size;
        jacobian[at + strip] = w * f.byGain;
        jacobian[at + data.stripCount + strip] = w;
        if (exponentIndex >= 0) jacobian[at + exponentIndex] = w * f.byExponent;
      });
      project(jacobian, row, rows, size, slopes);
      row += rows;
    }
    for (const { index, value, weight } of data.baseFogRows) {
      const root = Math.sqrt(weight);
      residuals[row] = root * ((parameters[index] ?? 0) - value);
      jacobian[row * size + index] = root;
      row++;
    }
  };
}

/** The u that makes a block's squares least, by Gauss-Newton with halved steps. */
function bestDensity(
  first: number,
  fill: (u: number) => number,
  residuals: Float64Array,
  slopes: Float64Array,
  row: number,
): number {
  let u = first;
  let sum = fill(u);
  for (let iteration = 0; iteration < 12; iteration++) {
    let along = 0;
    let square = 0;
    slopes.forEach((slope, i) => {
      along += slope * (residuals[row + i] ?? 0);
      square += slope * slope;
    });
    let step = -along / square;
    if (Math.abs(step) < 1e-13) return u;
    let next = fill(u + step);
    for (let halving = 0; next > sum && halving < 8; halving++) {
      step /= 2;
      next = fill(u + step);
    }
    if (next > sum) return u;
    u += step;
    if (sum - next <= 1e-16 * sum) return u;
    sum = next;
  }
  return u;
}

/** J -> (I - q q') J on the rows of a block. */
function project(
  jacobian: Float64Array,
  row: number,
  rows: number,
  size: number,
  slopes: Float64Array,
): void {
  let square = 0;
  for (const slope of slopes) square += slope * slope;
  for (let j = 0; j < size; j++) {
    let along = 0;
    for (let i = 0; i < rows; i++)
      along += (slopes[i] ?? 0) * (jacobian[(row + i) * size + j] ?? 0);
    if (along === 0) continue;
    for (let i = 0; i < rows; i++) {
      const at = (row + i) * size + j;
      jacobian[at] = (jacobian[at] ?? 0) - (along / square) * (slopes[i] ?? 0);
    }
  }
}
