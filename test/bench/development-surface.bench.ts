/**
 * How well a curve is predicted at a development time that nobody tested: the development surface
 * against interpolation between the curves of the neighbouring strips, over time and over ln time.
 * Generated strips of invented films: 21 steps, noise 0.01, densities rounded to 0.01; then the
 * same with each strip developed 2 and 4 % too long or too short (standard deviation). The error is the
 * root mean square against the true density over the steps.
 *
 * `npm run bench -- development-surface [runs]`
 */
import { densityAt, densityBand, fitCurve, fitSurface, surfaceCurve } from '@wedgebook/core';
import { deviates } from '../deviates.ts';
import { FILM_TRUTHS, type FilmTruth } from './surface-truths.ts';

const STEPS = Array.from({ length: 21 }, (_, i) => -3 + 0.15 * i);
const NOISE = 0.01;
/** Times tried, and the time between them that is asked for. */
const DESIGNS: readonly { readonly times: readonly number[]; readonly wanted: number }[] = [
  { times: [4, 6, 11, 15], wanted: 8 },
  { times: [4, 8, 11, 15], wanted: 6 },
  { times: [5, 8, 13], wanted: 10 },
  { times: [4, 7, 12], wanted: 5.5 },
];

export interface StudyRow {
  readonly truth: string;
  readonly timing: number;
  /** Root mean square errors, density. */
  readonly surface: number;
  readonly overTime: number;
  readonly overLogTime: number;
  /** Share of true densities inside the surface's 95 % band. */
  readonly covered: number;
  /** Runs in which the surface was the nearest of the three. */
  readonly wins: number;
  readonly runs: number;
  readonly failures: number;
}

/** Runs the study on one film. */
export function studyFilm(truth: FilmTruth, timing: number, runs: number, seed: number): StudyRow {
  const normal = deviates(seed);
  const squares = { surface: 0, overTime: 0, overLogTime: 0 };
  let [covered, points, wins, done, failures] = [0, 0, 0, 0, 0];
  for (let run = 0; run < runs; run++) {
    for (const { times, wanted } of DESIGNS) {
      const strips = times.map((minutes) => {
        const real = minutes * Math.exp(timing * normal());
        const read = (x: number) =>
          Math.round(100 * (truth.density(x, real) + NOISE * normal())) / 100;
        const readings = {
          logExposures: STEPS,
          densities: STEPS.map(read),
          unexposedDensities: [read(-Infinity), read(-Infinity)],
        };
        return { minutes, readings };
      });
      const fit = fitSurface(strips, { temperatureCoefficient: 2.5 });
      const cut = fit.status === 'ok' ? surfaceCurve(fit.surface, wanted) : null;
      if (cut === null) {
        failures++;
        continue;
      }
      const band = densityBand(cut.curve, STEPS);
      const truths = STEPS.map((x) => truth.density(x, wanted));
      const own = (predicted: readonly number[]) =>
        predicted.reduce((sum, d, i) => sum + (d - (truths[i] ?? 0)) ** 2, 0) / STEPS.length;
      const later = times.findIndex((minutes) => minutes > wanted);
      const [before, after] = [later - 1, later].map((i) => {
        const one = strips[i];
        const alone = one === undefined ? null : fitCurve(one.readings);
        if (one === undefined || alone?.status !== 'ok') throw new Error('no curve');
        return { minutes: one.minutes, densities: STEPS.map((x) => densityAt(alone.curve, x)) };
      });
      if (before === undefined || after === undefined) throw new Error('no neighbours');
      const between = (scale: (t: number) => number) => {
        const share =
          (scale(wanted) - scale(before.minutes)) / (scale(after.minutes) - scale(before.minutes));
        return before.densities.map((d, i) => d + share * ((after.densities[i] ?? 0) - d));
      };
      const errors = {
        surface: own(band.map(({ density }) => density)),
        overTime: own(between((t) => t)),
        overLogTime: own(between(Math.log)),
      };
      squares.surface += errors.surface;
      squares.overTime += errors.overTime;
      squares.overLogTime += errors.overLogTime;
      if (errors.surface < Math.min(errors.overTime, errors.overLogTime)) wins++;
      band.forEach(({ lower, upper }, i) => {
        const density = truths[i] ?? 0;
        if (density >= lower && density <= upper) covered++;
        points++;
      });
      done++;
    }
  }
  const root = (sum: number) => Math.sqrt(sum / done);
  return {
    truth: truth.name,
    timing,
    surface: root(squares.surface),
    overTime: root(squares.overTime),
    overLogTime: root(squares.overLogTime),
    covered: covered / points,
    wins,
    runs: done,
    failures,
  };
}

/** Processor time of one fit, milliseconds: the middle one of many after a few to warm up. */
function fitMilliseconds(truth: FilmTruth): number {
  const normal = deviates(1);
  const times = Array.from({ length: 25 }, () => {
    const strips = [4, 6, 8, 11, 15].map((minutes) => {
      const real = minutes * Math.exp(0.02 * normal());
      const densities = STEPS.map((x) => truth.density(x, real) + NOISE * normal());
      return { minutes, readings: { logExposures: STEPS, densities } };
    });
    const before = process.cpuUsage().user;
    fitSurface(strips, { temperatureCoefficient: 2.5 });
    return (process.cpuUsage().user - before) / 1000;
  });
  return times.slice(5).sort((a, b) => a - b)[10] ?? 0;
}

/** Prints the table of the study. */
export function main(args: readonly string[]): void {
  const runs = Number(args[0] ?? 50);
  const heads = ['film', 'timing', 'surface', 'over ln t', 'over t', 'nearest', 'in band', 'none'];
  console.log(heads.map((head, i) => (i === 0 ? head.padEnd(36) : head.padStart(10))).join(''));
  for (const timing of [0, 0.02, 0.04]) {
    for (const [i, truth] of FILM_TRUTHS.entries()) {
      const row = studyFilm(truth, timing, runs, 1907 + i);
      const cells = [
        `${100 * timing} %`,
        ...[row.surface, row.overLogTime, row.overTime].map((error) => error.toFixed(4)),
        `${((100 * row.wins) / row.runs).toFixed(0)} %`,
        `${(100 * row.covered).toFixed(0)} %`,
        String(row.failures),
      ];
      console.log(row.truth.padEnd(36) + cells.map((cell) => cell.padStart(10)).join(''));
    }
  }
  console.log('\nOne fit of 5 strips of 21 steps with its left-out strips, ms of processor time:');
  for (const truth of FILM_TRUTHS) {
    console.log(truth.name.padEnd(36) + fitMilliseconds(truth).toFixed(0).padStart(10));
  }
}
