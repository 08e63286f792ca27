/** What a plan of a bath is asked for: the negative, the bath, the target. */
import type { GradeTable, NegativeToTreat } from '@wedgebook/core';
import type { Arguments } from '../input/arguments.ts';
import type { GivenNegative } from '../input/negative.ts';
import { fixed } from '../output/figures.ts';
import { TREATMENT, USAGE } from '../text.ts';
import { UsageError } from '../usage-error.ts';

export const TARGETS = ['to-grade', 'to-scale', 'to-range', 'paper', 'minutes'] as const;

/** The negative, with base + fog where it was given. */
export interface NegativeToPlan extends NegativeToTreat {
  readonly baseFog: number | null;
}

/** A shadow that is thinner than the base + fog under it, whose net density is taken as nothing. */
export function shadowBelowFog(negative: GivenNegative | undefined, baseFog: number | null) {
  if (negative === undefined || 'densityRange' in negative || baseFog === null) return [];
  const shadow = Math.min(negative.shadowDensity, negative.highlightDensity);
  if (shadow >= baseFog) return [];
  const message = TREATMENT.shadowBelowFog(fixed(shadow, 2), fixed(baseFog, 2));
  return [{ code: 'shadow-below-base-fog', message }];
}

export interface PlanOrder {
  readonly negative: NegativeToPlan;
  readonly bath: { readonly partsWater: number; readonly celsius: number };
  readonly target:
    | { readonly grade: number }
    | { readonly printingRange: number }
    | { readonly densityRange: number }
    | { readonly paperFile: string }
    | { readonly minutes: number };
}

/** @throws {UsageError} where the negative, the target or the dilution is missing */
export function planOrder(
  given: Arguments,
  negative: GivenNegative | undefined,
  table: GradeTable,
): PlanOrder {
  if (negative === undefined) throw new UsageError(USAGE.rangeNeeded);
  const targets = TARGETS.filter((name) => given.has(name));
  if (targets.length === 0) throw new UsageError(USAGE.targetNeeded);
  if (targets.length > 1) throw new UsageError(USAGE.targetsClash);
  const dilution = given.text('dilution');
  if (dilution === undefined) {
    throw new UsageError(USAGE.needs('dilution', '1+n, such as 1+3'));
  }
  return {
    negative: negativeToPlan(negative, given.number('base-fog', -0.5, 6)),
    bath: {
      partsWater: partsOfDilution(dilution),
      celsius: given.number('celsius', 0, 60) ?? 20,
    },
    target: targetOf(given, table),
  };
}

function targetOf(given: Arguments, table: GradeTable): PlanOrder['target'] {
  const minutes = given.number('minutes', 0, 10_000);
  if (minutes !== undefined) return { minutes };
  const printingRange = given.number('to-scale', 0.01, 6);
  if (printingRange !== undefined) return { printingRange };
  const densityRange = given.number('to-range', 0.01, 6);
  if (densityRange !== undefined) return { densityRange };
  const paperFile = given.text('paper');
  if (paperFile !== undefined) return { paperFile };
  const grades = table.bands.map((band) => band.grade);
  const grade = given.number('to-grade', -10, 10) ?? NaN;
  if (!grades.includes(grade)) throw new UsageError(USAGE.gradeOutside(grade, grades));
  return { grade };
}

function negativeToPlan(negative: GivenNegative, baseFog: number | undefined): NegativeToPlan {
  if ('densityRange' in negative) return { ...negative, baseFog: baseFog ?? null };
  const { shadowDensity, highlightDensity } = negative;
  const thinner = Math.min(shadowDensity, highlightDensity);
  return {
    densityRange: Math.abs(highlightDensity - shadowDensity),
    baseFog: baseFog ?? null,
    ...(baseFog !== undefined && { shadowNetDensity: Math.max(0, thinner - baseFog) }),
  };
}

/** Parts of water of `1+n`. @throws {UsageError} where it is not clear */
export function partsOfDilution(dilution: string): number {
  const parts = /^1\s*\+\s*(\d+(?:\.\d+)?)$/.exec(dilution.trim())?.[1];
  const value = Number(parts ?? NaN);
  if (!(value <= 1000)) throw new UsageError(USAGE.dilution(dilution));
  return value;
}
