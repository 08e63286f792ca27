/** The chosen paper as one to print on: a strip of the user's own, or the generated paper of its scale. */
import { generatedPaper, type CharacteristicCurve, type PrintPaper } from '@wedgebook/core';
import type { ChosenPaper } from './derive-bath.ts';

/** @returns null where the paper has no scale */
export function printPaperOf(
  { origin, exposureScale }: ChosenPaper,
  curve: CharacteristicCurve | null,
): PrintPaper | null {
  const { value } = exposureScale;
  if (!(value > 0)) return null;
  return origin === 'strip' && curve !== null
    ? { kind: 'strip', exposureScale: value, curve }
    : generatedPaper(value);
}
