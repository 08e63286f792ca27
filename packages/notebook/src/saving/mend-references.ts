/**
 * A document read from outside may name what it does not hold. Such names are emptied and told,
 * rather than the notebook refused: the readings are worth more than the link.
 */
import type { NotebookDocument } from '../document/document.ts';
import { changed } from '../document/lists.ts';
import { LIST_OF } from '../document/apply-command.ts';

/** What was changed while reading: the path of the reference and the id that it held. */
export interface Mended {
  readonly path: string;
  readonly id: string;
}

/**
 * Empties references to entries that are not there. A tablet may be a built-in one, so its name
 * stays; the strip then says that its steps have no exposure.
 */
export function mendReferences(document: NotebookDocument): {
  readonly document: NotebookDocument;
  readonly mended: readonly Mended[];
} {
  const mended: Mended[] = [];
  const idsOf = (list: readonly { readonly id: string }[]) => new Set(list.map(({ id }) => id));
  const developers = idsOf(document.developers);
  const films = idsOf(document.films);
  const strips = idsOf(document.strips);
  const papers = idsOf(document.papers);
  const negatives = idsOf(document.negatives);
  const kept = (id: string | null, known: ReadonlySet<string>, path: string): string | null => {
    if (id === null || known.has(id)) return id;
    mended.push({ path, id });
    return null;
  };
  const { plan, developmentPlan } = document;
  const next = changed(document, {
    films: document.films.map((film, index) =>
      changed(film, {
        developerId: kept(film.developerId, developers, `films.${index}.developerId`),
      }),
    ),
    strips: document.strips.map((strip, index) => {
      const at = `strips.${index}`;
      const { treatment } = strip;
      return changed(strip, {
        filmId: kept(strip.filmId, films, `${at}.filmId`),
        treatment: treatment && {
          ...treatment,
          untreatedStripId: kept(
            treatment.untreatedStripId,
            strips,
            `${at}.treatment.untreatedStripId`,
          ),
        },
      });
    }),
    papers: document.papers.map((paper, index) => {
      const { source } = paper;
      const at = `papers.${index}.source`;
      if (source.kind === 'strip') {
        const stripId = kept(source.stripId, strips, `${at}.stripId`);
        return changed(paper, { source: { ...source, stripId } });
      }
      if (source.kind !== 'strips') return paper;
      const settings = source.strips.map((one, nth) => ({
        ...one,
        stripId: kept(one.stripId, strips, `${at}.strips.${nth}.stripId`),
      }));
      return changed(paper, { source: { ...source, strips: settings } });
    }),
    negatives: document.negatives.map((negative, index) =>
      changed(negative, {
        filmId: kept(negative.filmId, films, `negatives.${index}.filmId`),
        stripId: kept(negative.stripId, strips, `negatives.${index}.stripId`),
      }),
    ),
    prints: document.prints.map((print, index) =>
      changed(print, {
        negativeId: kept(print.negativeId, negatives, `prints.${index}.negativeId`),
        paperId: kept(print.paperId, papers, `prints.${index}.paperId`),
      }),
    ),
    plan: changed(plan, {
      negativeId: kept(plan.negativeId, negatives, 'plan.negativeId'),
      paperId: kept(plan.paperId, papers, 'plan.paperId'),
    }),
    developmentPlan: changed(developmentPlan, {
      filmId: kept(developmentPlan.filmId, films, 'developmentPlan.filmId'),
    }),
  });
  return { document: next, mended };
}

/** @returns the path of the first id that its list holds twice, or null */
export function firstDoubleId(document: NotebookDocument): string | null {
  const lists: [string, readonly { readonly id: string }[]][] = [
    ...Object.values(LIST_OF).map((key): [string, readonly { readonly id: string }[]] => [
      key,
      document[key],
    ]),
    ...document.baths.map(
      ({ films: toned }, index): [string, readonly { readonly id: string }[]] => [
        `baths.${index}.films`,
        toned,
      ],
    ),
    ...document.negatives.map(({ spots }, index): [string, readonly { readonly id: string }[]] => [
      `negatives.${index}.spots`,
      spots,
    ]),
  ];
  for (const [path, list] of lists) {
    const seen = new Set<string>();
    for (const [index, { id }] of list.entries()) {
      if (seen.has(id)) return `${path}.${index}.id`;
      seen.add(id);
    }
  }
  return null;
}
