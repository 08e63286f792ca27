/** The panes as they are shown: names, details and colours of the four prints, and a difference. */
import type { HistogramPrint } from '@wedgebook/charts';
import { picture as t } from '../text/picture.ts';
import type { Print, PrintId } from './four-prints.ts';
import type { PictureFacts } from './picture-messages.ts';
import { BIN_WIDTH, partsByDensity } from './print-shares.ts';
import type { Pane } from './prints-view.ts';
import { differenceTable, screenTable, type ScreenInk } from './screen-table.ts';

export function panesOf(
  prints: readonly Print[],
  [first, second]: readonly [PrintId, PrintId],
  difference: boolean,
  ink: ScreenInk,
  paper: string,
  minutes: number,
): readonly Pane[] {
  const panes = prints.map((print): Pane => {
    const { id, exposureScale, surplus, exposureChange } = print;
    const on =
      exposureChange === null ? t.matchedPaper(exposureScale) : t.paperOf(paper, exposureScale);
    const treated = id.startsWith('treated');
    const parts = [
      on,
      ...(treated ? [t.bath(minutes)] : []),
      ...(exposureChange === null ? [] : [t.fits(surplus)]),
      ...(exposureChange === null || t.exposure(exposureChange) === ''
        ? []
        : [t.exposure(exposureChange)]),
    ];
    return {
      id,
      title: t.names[id],
      detail: parts.join('; '),
      table: screenTable(print.netDensities, ink),
    };
  });
  const of = (id: PrintId): Float32Array | undefined =>
    prints.find((print) => print.id === id)?.netDensities;
  const [a, b] = [of(first), of(second)];
  return [
    ...panes,
    {
      id: 'difference',
      title: t.differenceTitle(t.names[first], t.names[second]),
      detail: t.differenceDetail,
      table: difference && a !== undefined && b !== undefined ? differenceTable(a, b, ink) : null,
    },
  ];
}

/** Histograms of the prints, up to the densest paper's black. */
export function histogramPrints(
  prints: readonly Print[],
  { counts }: PictureFacts,
): readonly HistogramPrint[] {
  const highest = Math.max(0.5, ...prints.map(({ netMaximum }) => netMaximum));
  const bins = Math.ceil(highest / BIN_WIDTH) + 1;
  return prints.map((print) => ({
    id: print.id,
    label: t.names[print.id],
    parts: partsByDensity(print, counts, bins),
  }));
}
