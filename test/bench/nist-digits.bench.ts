/**
 * Prints, for every NIST set, the digits that agree with the certified values: `npm run bench --
 * nist-digits`. Credit NIST StRD.
 */
import {
  digits,
  fitNistLinearSet,
  fitNistSet,
  nistLinearSets,
  nistNonlinearSets,
} from '../published/nist-sets.ts';

/** Writes the two tables. */
export function main(): void {
  console.log('Nonlinear sets: least digits over parameters and standard deviations, at most 11\n');
  console.log('| set | start 1 | sd | evaluations | start 2 | sd | evaluations |');
  console.log('|---|---|---|---|---|---|---|');
  const least = { parameters: 11, deviations: 11 };
  for (const set of nistNonlinearSets()) {
    const cells = set.starts.flatMap((start) => {
      const fit = fitNistSet(set, start);
      const parameters = digits(fit.parameters, set.parameters);
      const deviations = digits(fit.standardErrors, set.standardDeviations);
      least.parameters = Math.min(least.parameters, parameters);
      if (set.name !== 'Lanczos1') least.deviations = Math.min(least.deviations, deviations);
      return [parameters.toFixed(1), deviations.toFixed(1), fit.report.iterations];
    });
    console.log(`| ${set.name} | ${cells.join(' | ')} |`);
  }
  console.log(
    `\nLeast: parameters ${least.parameters.toFixed(1)}, standard deviations ` +
      `${least.deviations.toFixed(1)} without Lanczos1, whose sum of squares is below rounding.\n`,
  );
  console.log('Linear sets: least digits, at most 15\n');
  console.log('| set | coefficients | standard deviations |');
  console.log('|---|---|---|');
  for (const set of nistLinearSets()) {
    const fit = fitNistLinearSet(set);
    if (fit.status !== 'ok') throw new Error(`${set.name}: ${fit.reason}`);
    const exact = set.residualStandardDeviation === 0;
    const deviations = exact
      ? 'exact fit'
      : digits(fit.standardErrors ?? [], set.standardDeviations, 15).toFixed(1);
    console.log(
      `| ${set.name} | ${digits(fit.coefficients, set.coefficients, 15).toFixed(1)} | ${deviations} |`,
    );
  }
}
