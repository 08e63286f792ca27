/** The strips of one material in a file. */
import { warning, type Warning } from '@wedgebook/core';
import { inputFault, type ReadingsFile, type ReadingsStrip } from '@wedgebook/notebook';

/**
 * Strips that are of the material, or do not say.
 *
 * @returns them, and a warning where others were left out
 * @throws {InputError} where there is none
 */
export function stripsOf(
  material: 'film' | 'paper',
  { strips, warnings }: ReadingsFile,
  file: string,
): { readonly strips: readonly ReadingsStrip[]; readonly warnings: readonly Warning[] } {
  const wanted = strips.filter((strip) => (strip.material ?? material) === material);
  if (wanted.length === 0) throw inputFault.noStrips({ file }, material);
  const left = strips.length - wanted.length;
  if (left === 0) return { strips: wanted, warnings };
  const other = material === 'film' ? 'paper' : 'film';
  return {
    strips: wanted,
    warnings: [...warnings, warning('strips-left-out', { count: left, material: other })],
  };
}
