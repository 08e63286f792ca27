/** Computes of a notebook what the screen shows of it, station by station. */
import * as lastWord from '@wedgebook/core/last-word';
import { soundFigures, type NotebookDocument } from '@wedgebook/notebook';
import { Derive } from '../apps/web/src/state/derive.ts';
import { DeriveBath } from '../apps/web/src/state/derive-bath.ts';
import { chainView } from '../apps/web/src/state/derive-chain.ts';
import { DeriveDevelopment } from '../apps/web/src/state/derive-development.ts';
import { printingView } from '../apps/web/src/state/derive-printing.ts';
import { splitView } from '../apps/web/src/state/derive-split.ts';
import { waysView } from '../apps/web/src/state/derive-ways.ts';

const NOTHING_KNOWN = { model: null, minutes: null, celsius: 20 };

/** @returns a function that works a notebook through, doing only what has changed since the last */
export function worker(): (written: NotebookDocument) => void {
  const derive = new Derive(lastWord);
  const bath = new DeriveBath(derive);
  const development = new DeriveDevelopment(derive, bath);
  return (written) => {
    const { document } = soundFigures(written);
    const { plan, printing, strips } = document;
    const view = bath.view(document, plan.curveFamily, plan.targetGrade);
    for (const strip of strips) {
      const fit = derive.fit(document, strip, plan.curveFamily);
      derive.drawn(strip, fit);
      derive.suspectCells(document, strip, fit);
      if (strip.material === 'film') derive.film(strip, fit);
      else derive.paper(strip, fit, view.gradeTable);
      bath.treatedLine(fit, view.model, plan);
    }
    bath.completion(view.model, plan);
    const { settings } = development.view(document);
    development.drift(document);
    waysView(view, plan, null, null, NOTHING_KNOWN);
    const printed = printingView(document, view, derive);
    if ('missing' in printed) return;
    splitView(document, derive, printed, printing);
    const film = derive.stripOf(document, view.negative?.stripId ?? null);
    const curve = film === null ? null : derive.fit(document, film, plan.curveFamily).curve;
    if (curve !== null) chainView(printed, curve, { ...settings, shadowZone: 3 });
  };
}
