/**
 * Keeps the notebook: writes it to storage soon after every change, one write at a time, the
 * latest state always last, and tells the session when it was saved or why it could not be.
 *
 * A page that goes before its last write is done leaves a note that is written at once; the next
 * visit finds whichever is newer.
 */
import { openNotebook, savedNotebook } from '@wedgebook/notebook';
import { text } from '../text.ts';
import { whenIdle } from './after-frame.ts';
import type { App } from './app.ts';
import type { Storage } from './storage.ts';
import type { WorkDocument } from './work.ts';

const NOTEBOOK = 'notebook';
const DAMAGED = 'notebook-that-could-not-be-opened';
const EXPORTED = 'last-exported';
const LEAVING_NOTE = 'wedgebook-leaving-note';
/** A pause in typing before the write; leaving the page writes at once. */
const PAUSE_MILLISECONDS = 150;

/** What was found in storage. */
export interface Found {
  readonly document: WorkDocument | null;
  readonly savedAt: Date | null;
  readonly exportedAt: Date | null;
  /** Why a kept notebook could not be opened; it is set aside, not deleted. */
  readonly fault: string | null;
}

interface Kept {
  readonly notebook: unknown;
  readonly savedAt: string;
}

export async function readKept(storage: Storage): Promise<Found> {
  const exportedAt = dateOf(await storage.read(EXPORTED));
  const kept = newer(await storage.read(NOTEBOOK), readNote());
  if (kept === null) return { document: null, savedAt: null, exportedAt, fault: null };
  try {
    const { document } = openNotebook(kept.notebook);
    return { document, savedAt: dateOf(kept.savedAt), exportedAt, fault: null };
  } catch (error) {
    await storage.write(DAMAGED, kept);
    const fault = text.storage.setAside(error instanceof Error ? error.message : String(error));
    return { document: null, savedAt: null, exportedAt, fault };
  }
}

/** Starts keeping; returns a function that notes an export. */
export function keep(app: App, storage: Storage): { noteExport: (date: Date) => void } {
  const { store, session } = app;
  let written: WorkDocument = store.state.document;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let writing = false;

  const write = async () => {
    clearTimeout(timer);
    timer = undefined;
    if (writing) return;
    writing = true;
    try {
      while (written !== store.state.document) {
        const { document } = store.state;
        const kept = keptNow(document);
        await storage.write(NOTEBOOK, kept);
        written = document;
        removeNote();
        session.set({ lastSaved: new Date(kept.savedAt), saveFault: null });
      }
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      session.set({ saveFault: text.storage.cannotSave(why) });
    } finally {
      writing = false;
    }
  };
  const leave = () => {
    if (written === store.state.document) return;
    writeNote(keptNow(store.state.document));
    void write();
  };
  store.subscribe(() => {
    timer ??= setTimeout(() => {
      whenIdle(() => void write());
    }, PAUSE_MILLISECONDS);
  });
  addEventListener('pagehide', leave);
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'hidden') leave();
  });
  return {
    noteExport: (date) => {
      session.set({ lastExported: date });
      void storage.write(EXPORTED, date.toISOString()).catch(() => undefined);
    },
  };
}

function keptNow(document: WorkDocument): Kept {
  return { notebook: savedNotebook(document), savedAt: new Date().toISOString() };
}

/** The newer of what the database holds and the note of a page that left in haste. */
function newer(stored: unknown, note: unknown): Kept | null {
  const both = [stored, note].filter(isKept);
  return both.toSorted((a, b) => b.savedAt.localeCompare(a.savedAt))[0] ?? null;
}

function isKept(value: unknown): value is Kept {
  if (typeof value !== 'object' || value === null) return false;
  return 'notebook' in value && 'savedAt' in value && typeof value.savedAt === 'string';
}

function readNote(): unknown {
  try {
    return JSON.parse(localStorage.getItem(LEAVING_NOTE) ?? 'null');
  } catch {
    return null; // barred, or cut off: the database's own copy holds
  }
}

function writeNote(kept: Kept): void {
  try {
    localStorage.setItem(LEAVING_NOTE, JSON.stringify(kept));
  } catch {
    // Barred or full: the write to the database that follows may still be in time.
  }
}

function removeNote(): void {
  try {
    localStorage.removeItem(LEAVING_NOTE);
  } catch {
    // Barred: there is no note either.
  }
}

function dateOf(value: unknown): Date | null {
  if (typeof value !== 'string') return null;
  const date = new Date(value);
  return Number.isNaN(date.getTime()) ? null : date;
}
