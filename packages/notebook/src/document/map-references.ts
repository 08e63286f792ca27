/** Every reference of a notebook, in one place: whoever adds a reference adds it here. */
import type { EntryKind } from './command.ts';
import type { NotebookDocument } from './document.ts';
import { changed } from './lists.ts';

/**
 * Says what becomes of a reference.
 *
 * @param kind - what is named
 * @param id - the id that stands there
 * @param path - where it stands, such as `strips.0.filmId`
 */
export type ReferenceMap = (kind: EntryKind, id: string, path: string) => string | null;

/**
 * Puts every reference through `map`. The tablets of strips are left out: an id that is no entry may
 * be a built-in tablet.
 *
 * @returns the document with its references mapped; the same object where none changes
 */
export function mapReferences(document: NotebookDocument, map: ReferenceMap): NotebookDocument {
  const mapped = (kind: EntryKind, id: string | null, path: string) =>
    id === null ? null : map(kind, id, path);
  const { plan, developmentPlan } = document;
  return changed(document, {
    films: document.films.map((film, index) =>
      changed(film, {
        developerId: mapped('developer', film.developerId, `films.${index}.developerId`),
      }),
    ),
    strips: document.strips.map((strip, index) => {
      const at = `strips.${index}`;
      const { treatment } = strip;
      return changed(strip, {
        filmId: mapped('film', strip.filmId, `${at}.filmId`),
        treatment: treatment && {
          ...treatment,
          untreatedStripId: mapped(
            'strip',
            treatment.untreatedStripId,
            `${at}.treatment.untreatedStripId`,
          ),
        },
      });
    }),
    papers: document.papers.map((paper, index) => {
      const { source } = paper;
      const at = `papers.${index}.source`;
      if (source.kind === 'strip') {
        const stripId = mapped('strip', source.stripId, `${at}.stripId`);
        return changed(paper, { source: { ...source, stripId } });
      }
      if (source.kind !== 'strips') return paper;
      const strips = source.strips.map((one, nth) => ({
        ...one,
        stripId: mapped('strip', one.stripId, `${at}.strips.${nth}.stripId`),
      }));
      return changed(paper, { source: { ...source, strips } });
    }),
    negatives: document.negatives.map((negative, index) =>
      changed(negative, {
        filmId: mapped('film', negative.filmId, `negatives.${index}.filmId`),
        stripId: mapped('strip', negative.stripId, `negatives.${index}.stripId`),
      }),
    ),
    prints: document.prints.map((print, index) =>
      changed(print, {
        negativeId: mapped('negative', print.negativeId, `prints.${index}.negativeId`),
        paperId: mapped('paper', print.paperId, `prints.${index}.paperId`),
      }),
    ),
    plan: changed(plan, {
      negativeId: mapped('negative', plan.negativeId, 'plan.negativeId'),
      paperId: mapped('paper', plan.paperId, 'plan.paperId'),
    }),
    developmentPlan: changed(developmentPlan, {
      filmId: mapped('film', developmentPlan.filmId, 'developmentPlan.filmId'),
    }),
  });
}
