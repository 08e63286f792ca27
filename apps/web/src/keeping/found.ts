/** What a visit finds: the kept notebook, or the note of a page that left in haste. */
import { InputError, openNotebook } from '@wedgebook/notebook';
import { text } from '../text.ts';
import type { WorkDocument } from '../state/work.ts';
import { leavingNotes, removeNote, worthOf } from './leaving-notes.ts';
import { factsOf } from './snapshot-facts.ts';
import type { Kept, Storage } from './storage.ts';
import type { SnapshotReason } from './thinned.ts';

export const EXPORTED = 'last-exported';

/** Why the notebook cannot be kept, and what can be done. */
export interface SaveFault {
  /**
   * `full` - no room; `barred` - the browser does not let the page keep anything; `newer` - what is
   * kept was written by a newer version, which must not be overwritten; `lost` - the database was
   * taken away; `set-aside` - what was kept could not be opened, and is safe.
   */
  readonly kind: 'full' | 'barred' | 'newer' | 'lost' | 'set-aside';
  readonly sentence: string;
}

export interface Found {
  readonly document: WorkDocument | null;
  /** What the database holds; a write goes on from its revision. */
  readonly kept: Kept | null;
  /** The document of `kept`, where it is not the one found. */
  readonly keptDocument: WorkDocument | null;
  /** The writer of the note that the document comes from: it is yet to be written. */
  readonly fromNoteOf: string | null;
  readonly exportedAt: Date | null;
  readonly fault: SaveFault | null;
}

const NOTHING: Found = {
  document: null,
  kept: null,
  keptDocument: null,
  fromNoteOf: null,
  exportedAt: null,
  fault: null,
};

/** @returns what was found; faults are told in it, never thrown */
export async function findKept(storage: Storage): Promise<Found> {
  let kept: Kept | null = null;
  let exportedAt: Date | null = null;
  try {
    kept = await storage.notebook();
    exportedAt = dateOf(await storage.read(EXPORTED));
  } catch (error) {
    return { ...NOTHING, fault: faultOf(error) };
  }
  const note = await newestNote(storage, kept);
  const found = { ...NOTHING, kept, exportedAt };
  for (const candidate of [note, kept]) {
    if (candidate === null) continue;
    try {
      const { document } = openNotebook(candidate.notebook);
      if (candidate === kept) return { ...found, document };
      const keptDocument = kept === null ? null : documentOf(kept);
      return { ...found, document, keptDocument, fromNoteOf: candidate.writer };
    } catch (error) {
      const fault = await setAside(storage, candidate, error);
      if (candidate === kept) return { ...found, fault };
      removeNote(candidate.writer);
    }
  }
  return found;
}

function documentOf(kept: Kept): WorkDocument | null {
  try {
    return openNotebook(kept.notebook).document;
  } catch {
    return null;
  }
}

/** The note that goes on from what is kept; others become snapshots, so that nothing is lost. */
async function newestNote(storage: Storage, kept: Kept | null): Promise<Kept | null> {
  const notes = leavingNotes().toSorted((a, b) => b.revision - a.revision || b.edit - a.edit);
  const newest = notes.find((note) => worthOf(note, kept) === 'newer') ?? null;
  for (const note of notes) {
    if (note === newest) continue;
    const lost = worthOf(note, kept) !== 'written';
    if (!lost || (await isAside(storage, note, 'left-in-haste'))) removeNote(note.writer);
  }
  return newest;
}

async function setAside(storage: Storage, candidate: Kept, error: unknown): Promise<SaveFault> {
  const why = error instanceof Error ? error.message : String(error);
  if (error instanceof InputError && error.code === 'notebook-newer') {
    return { kind: 'newer', sentence: text.keeping.newer };
  }
  return (await isAside(storage, candidate, 'unreadable'))
    ? { kind: 'set-aside', sentence: text.keeping.setAside(why) }
    : { kind: 'newer', sentence: text.keeping.cannotSetAside(why) };
}

async function isAside(storage: Storage, kept: Kept, reason: SnapshotReason): Promise<boolean> {
  try {
    await storage.addSnapshot(factsOf(kept.notebook, reason, kept.savedAt), kept.notebook);
    return true;
  } catch {
    return false;
  }
}

/** What stands behind a refusal of the browser's database. */
export function faultOf(error: unknown): SaveFault {
  const why = error instanceof Error && error.message !== '' ? error.message : String(error);
  const name = error instanceof Error ? error.name : '';
  if (name === 'QuotaExceededError') return { kind: 'full', sentence: text.keeping.full };
  if (name === 'VersionError') return { kind: 'newer', sentence: text.keeping.newer };
  if (name === 'InvalidStateError') return { kind: 'lost', sentence: text.keeping.lost };
  return { kind: 'barred', sentence: text.keeping.cannotSave(why) };
}

export function dateOf(value: unknown): Date | null {
  if (typeof value !== 'string') return null;
  const date = new Date(value);
  return Number.isNaN(date.getTime()) ? null : date;
}
