/**
 * Starting values of a development surface from the curve of each strip by itself.
 *
 * Sources: none; straight lines over ln time. Deviations: none.
 */
import type { ContrastFamily } from '../contrast-model.ts';
import { startOfContrast } from '../start-of-contrast.ts';
import { leastSeparation } from './surface-model.ts';

/** A strip's own toe-shoulder parameters at its time. */
export interface CutOfStrip {
  /** Minutes at the reference temperature. */
  readonly time: number;
  /** Four parameters, or six where the strip shows its shoulder. */
  readonly parameters: readonly number[];
}

/**
 * @param law - how the slope grows with time
 * @param cuts - one per strip, at least two different times
 * @param centreMinutes - τ0
 * @param delay - the delay where it is given, null where it is free
 * @param q - temperature coefficient
 * @returns parameters of the surface in their order, or null where the law cannot follow the slopes
 */
export function startOfSurface(
  law: ContrastFamily,
  cuts: readonly CutOfStrip[],
  centreMinutes: number,
  delay: number | null,
  q: number,
): number[] | null {
  const contrast = startOfContrast(
    law,
    cuts.map(({ time, parameters }) => ({
      time,
      contrast: { value: parameters[1] ?? 0, standardError: null },
    })),
    delay,
  );
  if (contrast === null) return null;
  const [first = 0, second = 0, third = 0] = contrast;
  const logCentre = Math.log(centreMinutes);
  const slopeLaw =
    law === 'first-order' ? [first, second, third] : [first + second * logCentre, second, 0];
  const of = (j: number) => cuts.map(({ parameters }) => parameters[j] ?? 0);
  const logs = cuts.map(({ time }) => Math.log(time) - logCentre);
  const ratios = cuts.map(({ time }) => time / centreMinutes - 1);
  const fog = lineOver(ratios, of(0));
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
