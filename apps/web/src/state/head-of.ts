/** What the page's head, notices and foot follow. */
import { soundFigures } from '@wedgebook/notebook';
import type { View } from './app.ts';

/** What the page itself shows; the stations follow the rest on their own. */
export function headOf({ document, canUndo, canRedo, session }: View) {
  const { title, invented } = document;
  const { theme, announcement, lastSaved, lastExported, offline, update, saveFault } = session;
  return {
    title,
    invented,
    impossible: soundFigures(document)
      .replaced.map(({ path }) => path)
      .join(' '),
    canUndo,
    canRedo,
    theme,
    announcement,
    lastSaved,
    lastExported,
    offline,
    update,
    saveFault,
  };
}
