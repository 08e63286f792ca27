/**
 * Step readings in one flat list of numbers: a file of a million readings is held in forty megabytes,
 * where a million objects would take three times as much.
 */
import type { StepReading } from './readings-strip.ts';

const WIDTH = 5;

export class PackedReadings {
  /** Step, tablet density, log exposure, density and row, reading by reading; NaN for null. */
  readonly #numbers: number[] = [];

  push({ step, tabletDensity, logExposure, density, row }: StepReading): void {
    this.#numbers.push(step ?? NaN, tabletDensity ?? NaN, logExposure ?? NaN, density ?? NaN, row);
  }

  /** @returns the readings as objects, made anew at every call */
  unpacked(): StepReading[] {
    const numbers = this.#numbers;
    const readings: StepReading[] = [];
    for (let at = 0; at < numbers.length; at += WIDTH) {
      readings.push({
        step: orNull(numbers[at]),
        tabletDensity: orNull(numbers[at + 1]),
        logExposure: orNull(numbers[at + 2]),
        density: orNull(numbers[at + 3]),
        row: numbers[at + 4] ?? 0,
      });
    }
    return readings;
  }
}

const orNull = (value = NaN): number | null => (Number.isNaN(value) ? null : value);
