/**
 * A parameter that is itself an asymptote of its curve.
 */

/**
 * The value of parameter `j`, its derivatives written to `out`.
 *
 * @param j - place of the parameter
 */
export function parameterItself(j: number) {
  return (parameters: ArrayLike<number>, out: Float64Array): number => {
    out.fill(0);
    out[j] = 1;
    return parameters[j] as number;
  };
}
