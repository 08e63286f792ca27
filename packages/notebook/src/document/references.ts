/**
 * Who names whom in a notebook, and what becomes of a name whose bearer is removed.
 */
import type { EntryKind } from './command.ts';
import type { NotebookDocument, PaperSource, Strip } from './document.ts';
import { changed } from './lists.ts';
import { rowLogExposure } from './strip-readings.ts';
import { tabletLookup, type TabletLookup } from './tablet-lookup.ts';

/** An entry that names another, by its own kind and id; the plans have no id. */
export type Referrer =
  | { readonly kind: EntryKind; readonly id: string; readonly field: string }
  | { readonly kind: 'plan' | 'developmentPlan'; readonly field: string };

/**
 * Every place that names the entry: to be shown before it is removed.
 *
 * @returns in the order of the document; empty where nothing does
 */
export function referencesTo(
  document: NotebookDocument,
  kind: EntryKind,
  id: string,
): readonly Referrer[] {
  const found: Referrer[] = [];
  for (const film of document.films) {
    if (kind === 'developer' && film.developerId === id) {
      found.push({ kind: 'film', id: film.id, field: 'developerId' });
    }
  }
  for (const strip of document.strips) {
    if (kind === 'film' && strip.filmId === id) {
      found.push({ kind: 'strip', id: strip.id, field: 'filmId' });
    }
    if (kind === 'tablet' && strip.tabletId === id) {
      found.push({ kind: 'strip', id: strip.id, field: 'tabletId' });
    }
    if (kind === 'strip' && strip.treatment?.untreatedStripId === id) {
      found.push({ kind: 'strip', id: strip.id, field: 'treatment.untreatedStripId' });
    }
  }
  for (const paper of document.papers) {
    if (kind === 'strip' && paper.source.kind === 'strip' && paper.source.stripId === id) {
      found.push({ kind: 'paper', id: paper.id, field: 'source.stripId' });
    }
    if (
      kind === 'strip' &&
      paper.source.kind === 'strips' &&
      paper.source.strips.some(({ stripId }) => stripId === id)
    ) {
      found.push({ kind: 'paper', id: paper.id, field: 'source.strips' });
    }
  }
  for (const negative of document.negatives) {
    if (kind === 'film' && negative.filmId === id) {
      found.push({ kind: 'negative', id: negative.id, field: 'filmId' });
    }
    if (kind === 'strip' && negative.stripId === id) {
      found.push({ kind: 'negative', id: negative.id, field: 'stripId' });
    }
  }
  for (const print of document.prints) {
    if (kind === 'negative' && print.negativeId === id) {
      found.push({ kind: 'print', id: print.id, field: 'negativeId' });
    }
    if (kind === 'paper' && print.paperId === id) {
      found.push({ kind: 'print', id: print.id, field: 'paperId' });
    }
  }
  if (kind === 'negative' && document.plan.negativeId === id) {
    found.push({ kind: 'plan', field: 'negativeId' });
  }
  if (kind === 'paper' && document.plan.paperId === id) {
    found.push({ kind: 'plan', field: 'paperId' });
  }
  if (kind === 'film' && document.developmentPlan.filmId === id) {
    found.push({ kind: 'developmentPlan', field: 'filmId' });
  }
  return found;
}

/**
 * Empties every reference to an entry. A strip that loses its tablet keeps its exposures: they
 * are written into its rows.
 */
export function withoutReferences(
  document: NotebookDocument,
  kind: EntryKind,
  id: string,
): NotebookDocument {
  const referrers = referencesTo(document, kind, id);
  if (referrers.length === 0) return document;
  const named = (which: EntryKind) =>
    new Set(referrers.flatMap((from) => ('id' in from && from.kind === which ? [from.id] : [])));
  const films = named('film');
  const strips = named('strip');
  const papers = named('paper');
  const negatives = named('negative');
  const prints = named('print');
  const tablets = tabletLookup(document);
  return changed(document, {
    films: document.films.map((film) =>
      films.has(film.id) ? { ...film, developerId: null } : film,
    ),
    strips: document.strips.map((strip) =>
      strips.has(strip.id) ? freeStrip(strip, kind, tablets) : strip,
    ),
    papers: document.papers.map((paper) =>
      papers.has(paper.id) ? { ...paper, source: freeSource(paper.source, id) } : paper,
    ),
    negatives: document.negatives.map((negative) => {
      if (!negatives.has(negative.id)) return negative;
      return kind === 'film' ? { ...negative, filmId: null } : { ...negative, stripId: null };
    }),
    prints: document.prints.map((print) => {
      if (!prints.has(print.id)) return print;
      return kind === 'negative' ? { ...print, negativeId: null } : { ...print, paperId: null };
    }),
    plan: changed(document.plan, {
      ...(kind === 'negative' && { negativeId: null }),
      ...(kind === 'paper' && { paperId: null }),
    }),
    developmentPlan: changed(document.developmentPlan, {
      ...(kind === 'film' && { filmId: null }),
    }),
  });
}

/** The other strips of a variable-contrast paper stay; the setting of the removed one too. */
function freeSource(source: PaperSource, removed: string): PaperSource {
  if (source.kind === 'strip') return { ...source, stripId: null };
  if (source.kind !== 'strips') return source;
  const strips = source.strips.map((one) =>
    one.stripId === removed ? { ...one, stripId: null } : one,
  );
  return { ...source, strips };
}

function freeStrip(strip: Strip, kind: EntryKind, tablets: TabletLookup): Strip {
  if (kind === 'film') return { ...strip, filmId: null };
  if (kind === 'tablet') {
    const rows = strip.rows.map((row) => ({
      ...row,
      logExposure: rowLogExposure(row, strip, tablets),
    }));
    return { ...strip, tabletId: null, rows };
  }
  return strip.treatment === null
    ? strip
    : { ...strip, treatment: { ...strip.treatment, untreatedStripId: null } };
}
