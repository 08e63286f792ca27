/**
 * The curves with a toe and a straight part, with a shoulder or without.
 *
 *   D = Dmin + g wt ln(1 + exp((x - xt) / wt)) - g ws ln(1 + exp((x - xs) / ws))
 *   dD/dx = g [s((x - xt) / wt) - s((x - xs) / ws)],  s(z) = 1 / (1 + exp(-z))
 *
 * the second term being the shoulder's.
 *
 * Sources: difference of two softplus functions, derived here. Deviations: none.
 */
import type { CurveByRows } from '../model.ts';
import { parameterItself } from './parameter-itself.ts';
import { logOnePlus, sigmoid, softplus } from './softplus.ts';

function toeCurve(name: string, parameterNames: readonly string[]): CurveByRows {
  const hasShoulder = parameterNames.length > 4;
  const row: CurveByRows['row'] = (x, p, out, first) => {
    const minimum = p[0] as number;
    out[first] = 1;
    if (x === -Infinity) {
      out.fill(0, first + 1, first + parameterNames.length);
      return minimum;
    }
    const slope = p[1] as number;
    const wt = p[3] as number;
    const zt = (x - (p[2] as number)) / wt;
    const et = Math.exp(-Math.abs(zt));
    const toe = (zt > 0 ? zt : 0) + logOnePlus(et);
    const st = (zt > 0 ? 1 : et) / (1 + et);
    out[first + 2] = -slope * st;
    out[first + 3] = slope * (toe - zt * st);
    let rise = wt * toe;
    if (hasShoulder) {
      const ws = p[5] as number;
      const zs = (x - (p[4] as number)) / ws;
      const es = Math.exp(-Math.abs(zs));
      const shoulder = (zs > 0 ? zs : 0) + logOnePlus(es);
      const ss = (zs > 0 ? 1 : es) / (1 + es);
      out[first + 4] = slope * ss;
      out[first + 5] = -slope * (shoulder - zs * ss);
      rise -= ws * shoulder;
    }
    out[first + 1] = rise;
    return minimum + slope * rise;
  };
  return {
    name,
    parameterNames,
    row,
    value(x, p) {
      const wt = p[3] as number;
      const ws = p[5] as number;
      let rise = wt * softplus((x - (p[2] as number)) / wt);
      if (hasShoulder) rise -= ws * softplus((x - (p[4] as number)) / ws);
      return (p[0] as number) + (p[1] as number) * rise;
    },
    derivatives: (x, p, out) => row(x, p, out, 0),
    gradient(x, p) {
      const toe = sigmoid((x - (p[2] as number)) / (p[3] as number));
      const shoulder = hasShoulder ? sigmoid((x - (p[4] as number)) / (p[5] as number)) : 0;
      return (p[1] as number) * (toe - shoulder);
    },
    baseFog: parameterItself(0),
    upperAsymptote(p, out) {
      if (!hasShoulder) return null;
      const slope = p[1] as number;
      const rise = (p[4] as number) - (p[2] as number);
      out.set([1, rise, -slope, 0, slope, 0]);
      return (p[0] as number) + slope * rise;
    },
  };
}

const TOE = ['minimumDensity', 'slope', 'toeCentre', 'toeWidth'];

/**
 * Toe and straight part: minimumDensity, slope (density per log exposure), toeCentre (log
 * exposure), toeWidth (log exposure).
 */
export const toeOnlyCurve = /* @__PURE__ */ toeCurve('toe-only', TOE);

/**
 * Toe, straight part and shoulder: minimumDensity, slope (density per log exposure), toeCentre,
 * toeWidth, shoulderCentre, shoulderWidth (log exposure).
 */
export const toeShoulderCurve = /* @__PURE__ */ toeCurve('toe-shoulder', [
  ...TOE,
  'shoulderCentre',
  'shoulderWidth',
]);
