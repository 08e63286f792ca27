/**
 * Starting values for dose-response curves between two plateaus, from the readings alone: the
 * plateaus a little beyond the extreme readings, then a straight line through the transformed
 * readings over ln x.
 *
 * Sources: common practice for such curves (logit or complementary log-log lines). Deviations:
 * none.
 */
import { straightLine } from './straight-line.ts';

/**
 * [b, c, d, e] of y = c + (d - c) F(b (ln x - ln e)), F falling from 1 to 0.
 *
 * @param x - doses, at least 0
 * @param y - responses
 * @param transform - F^-1 of a share in (0, 1)
 * @param lower - the lower plateau c where it is given, null where it is free
 */
export function doseStart(
  x: readonly number[],
  y: readonly number[],
  transform: (share: number) => number,
  lower: number | null,
): [number, number, number, number] {
  const least = Math.min(...y);
  const greatest = Math.max(...y);
  const margin = 0.02 * Math.max(greatest - least, 1e-12);
  const c = lower ?? least - margin;
  const d = greatest + margin;
  const logs: number[] = [];
  const lines: number[] = [];
  x.forEach((dose, i) => {
    if (!(dose > 0)) return;
    const share = ((y[i] ?? 0) - c) / (d - c);
    logs.push(Math.log(dose));
    lines.push(transform(Math.min(0.99, Math.max(0.01, share))));
  });
  const [intercept = 0, slope = 1] = straightLine.start(logs, lines);
  const b = Math.abs(slope) > 1e-6 ? slope : 1;
  const centre = -intercept / b;
  const low = Math.min(...logs) - 3;
  const high = Math.max(...logs) + 3;
  return [b, c, d, Math.exp(Math.min(high, Math.max(low, centre)))];
}
