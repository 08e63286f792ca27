/**
 * What must hold whatever a file holds: it is read or refused with a reason, within a time, and the
 * notebook that is open loses nothing by it.
 */
import { isDeepStrictEqual } from 'node:util';
import {
  applyCommand,
  documentFromStrips,
  DocumentStore,
  InputError,
  isCgats,
  LIST_OF,
  mergeDocuments,
  notebookFromText,
  notebookToText,
  readCgats,
  readReadings,
  stripsFromDocument,
  writeCgats,
  writeReadings,
  type Command,
  type EntryKind,
  type NotebookDocument,
  type ReadingsStrip,
} from '@wedgebook/notebook';

/** Longer than any sound reading of a small file takes, on a machine that does other work too. */
const HANG_MILLISECONDS = 5000;

/** How it ended: `read`, or the code of the refusal. */
export type Ending = string;

/** @throws where the text was neither read nor refused, or something was lost by it */
export function survives(text: string, open: NotebookDocument): Ending {
  const begun = performance.now();
  let incoming: NotebookDocument;
  try {
    incoming = isNotebook(text) ? notebookFromText(text).document : fromStrips(text);
  } catch (error) {
    if (error instanceof InputError && error.fault !== '' && error.remedy !== '') {
      return error.code;
    }
    throw error;
  }
  requireKeepsOpen(open, incoming);
  requireComesBack(incoming);
  const took = performance.now() - begun;
  if (took > HANG_MILLISECONDS) throw new Error(`it took ${Math.round(took)} ms`);
  if (Object.keys(Object.prototype).length > 0) throw new Error('a prototype was changed');
  return 'read';
}

const isNotebook = (text: string): boolean => /^\uFEFF?\s*[{[]/.test(text);

function fromStrips(text: string): NotebookDocument {
  const cgats = isCgats(text);
  const { strips } = cgats ? readCgats(text) : readReadings(text, { stepsSuffice: true });
  requireSame(
    figuresOf(strips),
    figuresOf(readReadings(writeReadings(strips), { stepsSuffice: true }).strips),
    'CSV does not give back what was written',
  );
  requireSame(
    figuresOf(strips),
    figuresOf(readCgats(writeCgats(strips, { created: '2026-11-26' })).strips),
    'CGATS does not give back what was written',
  );
  let count = 0;
  return documentFromStrips(strips, { makeId: (kind) => `${kind}-${(count += 1)}` }).document;
}

/** Every number that was read, in the order of its strips; neither format holds unread steps alike. */
function figuresOf(strips: readonly ReadingsStrip[]): unknown {
  return {
    readings: strips
      .flatMap(({ readings }) => readings)
      .filter(({ density }) => density !== null)
      .map(({ tabletDensity, logExposure, density }) =>
        [tabletDensity, logExposure, density].join(' '),
      )
      .toSorted(),
    unexposed: strips.flatMap(({ unexposedDensities }) => unexposedDensities).toSorted(),
  };
}

function requireKeepsOpen(open: NotebookDocument, incoming: NotebookDocument): void {
  const store = new DocumentStore<NotebookDocument, Command>(open, applyCommand);
  store.dispatch({ type: 'document/load', document: incoming });
  store.undo();
  if (store.state.document !== open && incoming !== open) throw new Error('undo does not go back');
  let count = 0;
  const { document } = mergeDocuments(open, incoming, {
    makeId: () => `copy-${(count += 1)}`,
    copyName: (name) => `${name} (from the file)`,
  });
  for (const kind of Object.keys(LIST_OF) as EntryKind[]) {
    const merged = new Map(document[LIST_OF[kind]].map((entry) => [entry.id, entry]));
    for (const entry of open[LIST_OF[kind]]) {
      requireSame(entry, merged.get(entry.id), `merging changes ${kind} ${entry.id}`);
    }
  }
  requireComesBack(document);
}

function requireComesBack(document: NotebookDocument): void {
  const again = notebookFromText(notebookToText(document));
  requireSame(document, again.document, 'the notebook does not come back from its own text');
  if (again.mended.length > 0) throw new Error('a reference of the notebook leads nowhere');
  // Unsound figures may be refused; that the strips cannot be written may not be an accident.
  writeReadings(stripsFromDocument(document).strips);
}

function requireSame(expected: unknown, found: unknown, fault: string): void {
  // By way of JSON: -0 and a missing field are not what is lost.
  const plain = (value: unknown): unknown => JSON.parse(JSON.stringify(value ?? null));
  if (!isDeepStrictEqual(plain(expected), plain(found))) throw new Error(fault);
}
