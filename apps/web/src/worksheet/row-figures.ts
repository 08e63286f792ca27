/** What stands beside the readings of a row: the exposure that follows, and the distance to the curve. */
import { densityAt } from '@wedgebook/core';
import { formatSigned } from '@wedgebook/charts';
import { rowLogExposure, tabletLookup, type Strip } from '@wedgebook/notebook';
import type { StripFit } from '../state/derive.ts';
import type { WorkDocument } from '../state/work.ts';
import { text } from '../text.ts';
import { shortest } from './parse-cell.ts';

/** Log exposure that follows from the tablet, shown where the row has none of its own. */
export function followingExposure(document: WorkDocument, strip: Strip, row: number): string {
  const at = strip.rows[row];
  if (at === undefined) return '';
  const logExposure = rowLogExposure({ ...at, logExposure: null }, strip, tabletLookup(document));
  return logExposure === null ? text.none : shortest(logExposure, 3, 3);
}

/** Mean reading less the curve, both of the same moment. */
export function offCurve(
  document: WorkDocument,
  { strip, fit: { curve } }: { readonly strip: Strip; readonly fit: StripFit },
  row: number,
): string {
  const at = strip.rows[row];
  const read = (at?.densities ?? []).filter((density) => density !== null);
  if (curve === null || at === undefined || read.length === 0) return '';
  const logExposure = rowLogExposure(at, strip, tabletLookup(document));
  if (logExposure === null) return '';
  const mean = read.reduce((sum, density) => sum + density, 0) / read.length;
  return formatSigned(mean - densityAt(curve, logExposure), 3);
}
