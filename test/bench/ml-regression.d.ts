/** The parts of ml-regression 6 that benchmarks compare with; the package has no types. */
declare module 'ml-regression' {
  export class PolynomialRegression {
    constructor(x: readonly number[], y: readonly number[], degree: number);
    readonly coefficients: number[];
  }
  export class MultivariateLinearRegression {
    constructor(
      x: readonly (readonly number[])[],
      y: readonly (readonly number[])[],
      options: { readonly intercept: boolean },
    );
    readonly weights: number[][];
  }
}
