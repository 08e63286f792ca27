/** What the user asks of the bath: the target, and the parameters that are held. */
import {
  RESPONSE_BOUNDS,
  type GradeTable,
  type HeldResponse,
  type TreatmentTarget,
} from '@wedgebook/core';
import type { HeldParameters, Plan } from '@wedgebook/notebook';
import type { ChosenPaper } from './derive-bath.ts';

/** What the user holds; a senseless figure from elsewhere holds nothing. */
export function heldResponse(parameters: HeldParameters): HeldResponse {
  const entries = Object.entries(parameters).filter(([name, value]) => {
    // A notebook of a newer version may hold parameters that this one does not know.
    const bounds: Readonly<Partial<Record<string, readonly [number, number]>>> = RESPONSE_BOUNDS;
    const [least, most] = bounds[name] ?? [Infinity, -Infinity];
    return value !== null && value >= least && value <= most;
  });
  return Object.fromEntries(entries);
}

/** What the bath is to reach, by the plan's kind of target. */
export function targetOf(
  { targetKind, targetRange }: Plan,
  targetGrade: number,
  { bands }: GradeTable,
  paper: ChosenPaper | null,
): TreatmentTarget | null {
  if (targetKind === 'range') {
    const usable = targetRange !== null && targetRange > 0 && targetRange <= 6;
    return usable ? { densityRange: targetRange } : null;
  }
  if (targetKind === 'paper') {
    if (paper === null || paper.origin === 'target') return null;
    const { value, standardError } = paper.exposureScale;
    return value > 0 && value <= 6 ? { printingRange: value, standardError } : null;
  }
  return bands.some(({ grade }) => grade === targetGrade) ? { grade: targetGrade } : null;
}
