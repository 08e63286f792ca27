/**
 * Keeps the notebook: writes it to storage soon after every change, one write at a time, the
 * latest state always last, and tells the session when it was saved or why it could not be.
 */
import { openNotebook, savedNotebook } from '@wedgebook/notebook';
import { text } from '../text.ts';
import type { App } from './app.ts';
import type { Storage } from './storage.ts';
import type { WorkDocument } from './work.ts';

const NOTEBOOK = 'notebook';
const DAMAGED = 'notebook-that-could-not-be-opened';
const EXPORTED = 'last-exported';
/** A pause in typing before the write; leaving the page writes at once. */
const PAUSE_MILLISECONDS = 250;

/** What was found in storage. */
export interface Found {
  readonly document: WorkDocument | null;
  readonly savedAt: Date | null;
  readonly exportedAt: Date | null;
  /** Why a kept notebook could not be opened; it is set aside, not deleted. */
  readonly fault: string | null;
}

export async function readKept(storage: Storage): Promise<Found> {
  const exportedAt = dateOf(await storage.read(EXPORTED));
  const kept = await storage.read(NOTEBOOK);
  if (!isKept(kept)) return { document: null, savedAt: null, exportedAt, fault: null };
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
  let written: WorkDocument = app.store.state.document;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let writing = false;

  const write = async () => {
    clearTimeout(timer);
    timer = undefined;
    if (writing) return;
    writing = true;
    try {
      while (written !== app.store.state.document) {
        const { document } = app.store.state;
        const savedAt = new Date();
        await storage.write(NOTEBOOK, {
          notebook: savedNotebook(document),
          savedAt: savedAt.toISOString(),
        });
        written = document;
        app.session.set({ lastSaved: savedAt, saveFault: null });
      }
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      app.session.set({ saveFault: text.storage.cannotSave(why) });
    } finally {
      writing = false;
    }
  };
  const soon = () => {
    timer ??= setTimeout(() => void write(), PAUSE_MILLISECONDS);
  };
  app.store.subscribe(soon);
  // The last chance before the page goes: pagehide and a hidden tab.
  addEventListener('pagehide', () => void write());
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'hidden') void write();
  });
  return {
    noteExport: (date) => {
      app.session.set({ lastExported: date });
      void storage.write(EXPORTED, date.toISOString()).catch(() => undefined);
    },
  };
}

function isKept(value: unknown): value is { notebook: unknown; savedAt: unknown } {
  return typeof value === 'object' && value !== null && 'notebook' in value;
}

function dateOf(value: unknown): Date | null {
  if (typeof value !== 'string') return null;
  const date = new Date(value);
  return Number.isNaN(date.getTime()) ? null : date;
}
