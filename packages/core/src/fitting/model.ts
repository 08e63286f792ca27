/**
 * A fitted function y = f(x; p) with analytic derivatives: the interface between the families of
 * curves and the least-squares solver.
 */

/** A parametric function of one variable. Pure; keeps no state between calls. */
export interface ParametricFunction {
  readonly name: string;
  readonly parameterNames: readonly string[];
  /**
   * Value at `x`. A curve model also takes x = -Infinity, the unexposed film, and returns its
   * lower asymptote there.
   */
  value(x: number, parameters: ArrayLike<number>): number;
  /** Writes d f / d p_j to `out` and returns the value. */
  derivatives(x: number, parameters: ArrayLike<number>, out: Float64Array): number;
}

/** A function with what its fit needs. */
export interface Model extends ParametricFunction {
  /**
   * `derivatives` at every x in one call, for a model that is fitted often: the derivatives row by
   * row, n x P, and the values.
   */
  derivativesAtAll?(
    x: readonly number[],
    parameters: ArrayLike<number>,
    values: Float64Array,
    rows: Float64Array,
  ): void;
  /** Starting values from the data alone. `x` ascending. */
  start(x: readonly number[], y: readonly number[]): number[];
  /** Further starting values, for models with more than one hollow; the best fit of all counts. */
  otherStarts?(x: readonly number[], y: readonly number[]): number[][];
  /** Least x at which the function has a value; it has one everywhere unless given. */
  readonly leastX?: number;
  /** Bounds on parameters, -Infinity and Infinity where free. */
  readonly lower?: readonly number[];
  readonly upper?: readonly number[];
  /** The parameters in which the fit is made, where these are not the natural ones. */
  readonly inner?: InnerParameters;
}

/**
 * A change of parameters that keeps a fit well conditioned (logarithms of widths) or identifiable
 * (distances bounded from below). Parameter j of one set belongs to parameter j of the other.
 */
export interface InnerParameters {
  /** Writes the natural parameters and, row-major, d natural_i / d inner_j. */
  toNatural(inner: ArrayLike<number>, natural: Float64Array, jacobian: Float64Array): void;
  /** Inner parameters of the natural ones, the nearest ones where the bounds exclude them. */
  fromNatural(natural: readonly number[]): number[];
  /** Bounds on the inner parameters for these readings. */
  bounds(x: readonly number[], y: readonly number[]): ParameterBounds;
}

/** Bounds by parameter; -Infinity and Infinity where free. */
export interface ParameterBounds {
  readonly lower: readonly number[];
  readonly upper: readonly number[];
}

/** The function of a characteristic curve: x is log exposure, f is density. */
export interface CurveFunction extends ParametricFunction {
  /** d D / d x at `x`: density per unit of log10 exposure. */
  gradient(x: number, parameters: ArrayLike<number>): number;
  /** Density of the unexposed material, D(-Infinity), with its derivatives written to `out`. */
  baseFog(parameters: ArrayLike<number>, out: Float64Array): number;
  /** Density that the curve tends to at great exposure, or null where it rises without end. */
  upperAsymptote(parameters: ArrayLike<number>, out: Float64Array): number | null;
}

/** A curve that writes its derivatives into the rows of a matrix, for a fit that asks often. */
export interface CurveByRows extends CurveFunction {
  /** Writes the derivatives at `x` to places of `out` from `first` on, and returns the value. */
  row(x: number, parameters: ArrayLike<number>, out: Float64Array, first: number): number;
}

/** A fitted function, and the parameters in which its fit was made. */
export type FittedFunction = ParametricFunction & Pick<Model, 'inner'>;

/** A model of a characteristic curve. */
export interface CurveModel extends Model, CurveFunction {}
