/**
 * How often the 95 % intervals of planned minutes and exposure indexes hold the truth, where nobody
 * knows the law: contrasts and speed points of generated strips whose true law is the first-order one
 * with delay, the log-linear one, or neither. The model chooses for itself.
 *
 * `npm run bench -- planned-minutes [runs]`
 */
import { developmentPlan, fitContrastModel, fitSpeedModel } from '@wedgebook/core';
import { deviates } from '../deviates.ts';

interface Truth {
  readonly name: string;
  readonly contrast: (minutes: number) => number;
}

/** Laws whose contrast is 0.58 at about 8 minutes. */
const TRUTHS: readonly Truth[] = [
  { name: 'first-order, delay 0.8', contrast: (t) => 1.0 * -Math.expm1(-0.12 * (t - 0.8)) },
  {
    name: 'first-order, N+1 near its limit',
    contrast: (t) => 0.75 * -Math.expm1(-0.2 * (t - 0.5)),
  },
  { name: 'log-linear', contrast: (t) => 0.06 + 0.25 * Math.log(t) },
  { name: 'neither: power of time', contrast: (t) => 0.205 * t ** 0.5 },
  { name: 'neither: hyperbola with delay', contrast: (t) => (1.25 * (t - 0.5)) / (t + 8) },
  {
    name: 'neither: two emulsions',
    contrast: (t) => 0.3 * -Math.expm1(-0.4 * (t - 0.4)) + 0.6 * -Math.expm1(-0.08 * (t - 0.6)),
  },
];

const DESIGNS: readonly (readonly number[])[] = [
  [5, 8, 12],
  [4, 7, 12],
  [4, 6, 9, 13],
  [4, 5.5, 8, 11, 15],
];
const CHANGES = [-1, 0, 1];
/** Speed point, log10 lx·s, by the line over ln t that the model has. */
const speedPoint = (t: number): number => -2.2 - 0.12 * Math.log(t / 8);

export interface CoverageRow {
  readonly truth: string;
  /** Shares of intervals that hold the truth. */
  readonly minutes: number;
  readonly index: number;
  /** Middle half-width of the minutes' interval over the minutes. */
  readonly width: number;
  readonly unreachable: number;
  readonly planned: number;
}

/** Errors of a strip's contrast and of its speed point, as a 21-step wedge read to 0.01 has them. */
const ERRORS = { contrast: 0.008, speedPoint: 0.02 };
const NORMAL_95 = 1.959964;

/**
 * Runs the study on one law.
 *
 * @param truth - the law
 * @param timing - deviation of ln time by which strips are really developed too long or too short
 * @param runs - repeats of every design
 * @param seed - of the deviates
 */
export function studyLaw(truth: Truth, timing: number, runs: number, seed: number): CoverageRow {
  const normal = deviates(seed);
  let [minutesHeld, indexHeld, unreachable, planned] = [0, 0, 0, 0];
  const widths: number[] = [];
  for (let run = 0; run < runs; run++) {
    for (const times of DESIGNS) {
      const strips = times.map((minutes) => {
        const real = minutes * Math.exp(timing * normal());
        const noisy = (value: number, error: number) => ({
          value: value + error * normal(),
          standardError: error,
        });
        return {
          minutes,
          contrast: noisy(truth.contrast(real), ERRORS.contrast),
          logExposure: noisy(speedPoint(real), ERRORS.speedPoint),
        };
      });
      const temperatureCoefficient = 2.5;
      const fit = fitContrastModel(strips, { temperatureCoefficient });
      if (fit.status !== 'ok') throw new Error(fit.reason);
      const speed = fitSpeedModel(strips, { temperatureCoefficient });
      const plan = developmentPlan(fit.model, {
        normalContrast: truth.contrast(8),
        changes: CHANGES,
        speed,
      });
      for (const { contrast, minutes, exposureIndex } of plan) {
        if (minutes === null || minutes.standardError === null || exposureIndex === null) {
          unreachable++;
          continue;
        }
        const real = timeOf(truth, contrast);
        planned++;
        widths.push((NORMAL_95 * minutes.standardError) / minutes.value);
        if (Math.abs(minutes.value - real) <= NORMAL_95 * minutes.standardError) minutesHeld++;
        const { value, standardError } = exposureIndex.exact;
        const index = 0.8 / 10 ** speedPoint(real);
        if (Math.abs(value - index) <= NORMAL_95 * (standardError ?? 0)) indexHeld++;
      }
    }
  }
  widths.sort((a, b) => a - b);
  return {
    truth: truth.name,
    minutes: minutesHeld / planned,
    index: indexHeld / planned,
    width: widths[Math.floor(widths.length / 2)] ?? NaN,
    unreachable,
    planned,
  };
}

/** Time at which a law reaches a contrast, by bisection; no law here takes an hour. */
function timeOf({ contrast }: Truth, wanted: number): number {
  let [low, high] = [1, 60];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (contrast(middle) < wanted) low = middle;
    else high = middle;
  }
  return high;
}

export { TRUTHS as LAW_TRUTHS };

/** Prints the table of the study. */
export function main(args: readonly string[]): void {
  const runs = Number(args[0] ?? 200);
  const heads = ['law', 'timing', 'minutes', 'index', 'width', 'none'];
  console.log(heads.map((head, i) => (i === 0 ? head.padEnd(32) : head.padStart(10))).join(''));
  for (const timing of [0, 0.02]) {
    for (const [i, truth] of TRUTHS.entries()) {
      const row = studyLaw(truth, timing, runs, 1920 + i);
      const cells = [
        `${100 * timing} %`,
        `${(100 * row.minutes).toFixed(1)} %`,
        `${(100 * row.index).toFixed(1)} %`,
        `± ${(100 * row.width).toFixed(1)} %`,
        String(row.unreachable),
      ];
      console.log(row.truth.padEnd(32) + cells.map((cell) => cell.padStart(10)).join(''));
    }
  }
}
