/**
 * Starting values of a development surface from the curve of each strip by itself.
 *
 * Sources: none; straight lines over ln time. Deviations: none.
 */
import { leastSeparation } from './surface-model.ts';

/** A strip's own toe-shoulder parameters at its time. */
export interface CutOfStrip {
  /** Minutes at the reference temperature. */
  readonly time: number;
  /** Four parameters, or six where the strip shows its shoulder. */
  readonly parameters: readonly number[];
}

/**
 * Parameters of the log-linear surface.
 *
 * @param cuts - one per strip, at least two different times
 * @param centreMinutes - τ0
 * @param q - temperature coefficient
 */
export function startOfSurface(
  cuts: readonly CutOfStrip[],
  centreMinutes: number,
  q: number,
): number[] {
  const logCentre = Math.log(centreMinutes);
  const of = (j: number) => cuts.map(({ parameters }) => parameters[j] ?? 0);
  const logs = cuts.map(({ time }) => Math.log(time) - logCentre);
  const ratios = cuts.map(({ time }) => time / centreMinutes - 1);
  const fog = lineOver(ratios, of(0));
  const [level, growth] = lineOver(logs, of(1));
  const slopeLaw = [level, Math.max(0.05 * level, growth), 0];
  const toe = lineOver(logs, of(2));
  const width = mean(of(3).map((w) => Math.log(Math.max(w, 0.01))));
  const shouldered = cuts.filter(({ parameters }) => parameters.length > 4);
  const distance = mean(
    shouldered.map(({ parameters: [, , centre = 0, own = 1, shoulder = 0, ownShoulder = 1] }) =>
      Math.max(0, shoulder - centre - leastSeparation(own, ownShoulder)),
    ),
  );
  const shoulderWidth = mean(
    shouldered.map(({ parameters: p }) => Math.log(Math.max(p[5] ?? 0, 0.01))),
  );
  return [...fog, ...slopeLaw, ...toe, width, 0, distance, 0, shoulderWidth, q];
}

/**
 * The first-order law of the same slope at τ0, straight there over ln τ, in place of the log-linear one.
 *
 * @param parameters - of a log-linear surface
 * @param centreMinutes - τ0
 */
export function bentLaw(parameters: readonly number[], centreMinutes: number): number[] {
  const delay = Math.min(0.5, 0.1 * centreMinutes);
  const rate = 1 / centreMinutes;
  const limit = (parameters[2] ?? 0) / -Math.expm1(-rate * (centreMinutes - delay));
  return parameters.map((value, j) => (j === 2 ? limit : j === 3 ? rate : j === 4 ? delay : value));
}

function mean(values: readonly number[]): number {
  return values.length === 0 ? 0 : values.reduce((sum, value) => sum + value, 0) / values.length;
}

/** Level at 0 and slope of the least-squares line. */
function lineOver(x: readonly number[], y: readonly number[]): [number, number] {
  const [mx, my] = [mean(x), mean(y)];
  const square = x.reduce((sum, value) => sum + (value - mx) ** 2, 0);
  const cross = x.reduce((sum, value, i) => sum + (value - mx) * ((y[i] ?? 0) - my), 0);
  const slope = square > 0 ? cross / square : 0;
  return [my - slope * mx, slope];
}
