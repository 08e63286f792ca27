/**
 * A page that goes before its last write is done leaves a note in the storage that is written at
 * once. The next visit finds out, by revisions and not by clocks, whether the note holds more than
 * the database.
 */
import type { Kept } from './storage.ts';

const PREFIX = 'wedgebook-leaving-note/';

/** A notebook that was on its way; `revision` is that of the kept one it was made from. */
export type LeavingNote = Kept;

/** @returns the notes of all pages that went in haste; none where the storage is barred */
export function leavingNotes(): readonly LeavingNote[] {
  try {
    return Object.keys(localStorage)
      .filter((key) => key.startsWith(PREFIX))
      .flatMap((key) => noteOf(localStorage.getItem(key)) ?? []);
  } catch {
    return [];
  }
}

export function leaveNote(note: LeavingNote): void {
  try {
    localStorage.setItem(PREFIX + note.writer, JSON.stringify(note));
  } catch {
    // Barred or full: the write to the database that follows may still be in time.
  }
}

export function removeNote(writer: string): void {
  try {
    localStorage.removeItem(PREFIX + writer);
  } catch {
    // Barred: there is no note either.
  }
}

/**
 * What a note is worth beside what is kept:
 * `written` - the database holds all of it; `newer` - it goes on from what is kept; `aside` -
 * another page has kept something since, so that it is a notebook of its own.
 */
export function worthOf(note: LeavingNote, kept: Kept | null): 'written' | 'newer' | 'aside' {
  if (kept === null) return 'newer';
  if (note.writer === kept.writer) return note.edit > kept.edit ? 'newer' : 'written';
  return note.revision === kept.revision ? 'newer' : 'aside';
}

function noteOf(text: string | null): LeavingNote | null {
  try {
    const value: unknown = JSON.parse(text ?? 'null');
    const isNote =
      typeof value === 'object' &&
      value !== null &&
      'notebook' in value &&
      'writer' in value &&
      'revision' in value &&
      'edit' in value;
    return isNote ? (value as LeavingNote) : null;
  } catch {
    return null;
  }
}
