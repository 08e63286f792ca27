/** Strips and a run of the verb that the tests of `times` share. */
import { expect } from 'vitest';
import { ran } from '../memory-io.ts';

/** Strips whose gamma follows c_inf (1 - exp(-k t)) with the constants of one plate of 1920. */
export const LIMIT = 1.45;
export const RATE = 0.32;
export const softplus = (z: number): number => Math.log1p(Math.exp(z));
export function strips(times: readonly number[], celsius = 20): string {
  const rows = times.flatMap((minutes) =>
    Array.from({ length: 21 }, (_, index) => {
      const x = -3 + 0.15 * index;
      const gamma = LIMIT * (1 - Math.exp(-RATE * minutes));
      const density = 0.1 + gamma * 0.2 * softplus((x + 2) / 0.2);
      return `${minutes} min,${x.toFixed(2)},${density.toFixed(5)},${minutes},${celsius}`;
    }),
  );
  return `strip,log_exposure,density,minutes,celsius\n${rows.join('\n')}\n`;
}

/** The JSON of a run; `T` is what the test reads of it. */
export async function timesOf<T>(text: string, ...words: string[]): Promise<T> {
  const { exitCode, stdout, stderr } = await ran(['times', '-', '--json', ...words], { '-': text });
  expect({ exitCode, stderr }).toEqual({ exitCode: 0, stderr: '' });
  return JSON.parse(stdout) as T;
}
