/**
 * Keeps the notebook: writes it soon after every change, one write at a time, the latest state
 * always last, and tells the session when it was kept or why it could not be.
 *
 * Several tabs share one notebook. A tab that has nothing to write follows the others; one that has
 * merges what they kept with its own, from the last state that both knew, and then writes. Of what
 * was merged a snapshot is taken first.
 */
import {
  mergeDocuments,
  openNotebook,
  savedNotebook,
  type OpenedNotebook,
} from '@wedgebook/notebook';
import { whenIdle } from '../state/after-frame.ts';
import type { App } from '../state/app.ts';
import { firstStripId } from '../state/start.ts';
import type { WorkDocument } from '../state/work.ts';
import { text } from '../text.ts';
import { newId } from '../worksheet/new-entries.ts';
import { EXPORTED, faultOf, type Found } from './found.ts';
import { leaveNote, removeNote } from './leaving-notes.ts';
import { factsOf } from './snapshot-facts.ts';
import type { Kept, Storage } from './storage.ts';
import type { SnapshotFacts, SnapshotReason } from './thinned.ts';

/** A pause in typing before the write; leaving the page writes at once. */
const PAUSE_MILLISECONDS = 150;
/** A snapshot is taken after changes that reach over so long. */
const SNAPSHOT_MILLISECONDS = 600_000;
const CHANNEL = 'wedgebook-notebook';

export class Keeper {
  readonly #app: App;
  readonly #storage: Storage;
  readonly #writer = newId();
  readonly #channel = 'BroadcastChannel' in globalThis ? new BroadcastChannel(CHANNEL) : null;
  /** The document that the database holds, as far as this tab knows. */
  #known: WorkDocument | null;
  #revision: number;
  #edit = 0;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #busy = false;
  #mustLook = false;
  /** What another version keeps must not be overwritten. */
  #mayWrite: boolean;
  /** The writer of the note that this visit began with, until it is written. */
  #leftNote: string | null;
  #snapshotAt = -Infinity;
  /** The notebook as this visit found it, until a snapshot of it is taken. */
  #opened: unknown;

  constructor(app: App, storage: Storage, found: Found) {
    this.#app = app;
    this.#storage = storage;
    this.#leftNote = found.fromNoteOf;
    this.#known = this.#leftNote === null ? app.store.state.document : found.keptDocument;
    this.#revision = found.kept?.revision ?? 0;
    this.#opened = found.kept?.notebook ?? null;
    this.#mayWrite = found.fault?.kind !== 'newer';
    app.store.subscribe(() => {
      this.#edit += 1;
      this.#timer ??= setTimeout(() => {
        whenIdle(() => void this.#work());
      }, PAUSE_MILLISECONDS);
    });
    addEventListener('pagehide', this.#leave);
    document.addEventListener('visibilitychange', () => {
      if (document.visibilityState === 'hidden') this.#leave();
      else this.#lookSoon();
    });
    this.#channel?.addEventListener('message', this.#lookSoon);
    if (this.#leftNote !== null) void this.#work();
  }

  /** Writes what could not be written before. */
  async retry(): Promise<void> {
    await this.#work();
  }

  noteExport(date: Date): void {
    this.#app.session.set({ lastExported: date });
    void this.#storage.write(EXPORTED, date.toISOString()).catch(() => undefined);
  }

  /** @returns true once a snapshot of the notebook is on disk */
  async takeSnapshot(reason: SnapshotReason): Promise<boolean> {
    return this.#snapshotOf(savedNotebook(this.#app.store.state.document), reason);
  }

  snapshots(): Promise<readonly SnapshotFacts[]> {
    return this.#storage.snapshots();
  }

  /** @returns the envelope as it was kept, not checked */
  snapshot(number: number): Promise<unknown> {
    return this.#storage.snapshot(number);
  }

  /** @throws {InputError} where the snapshot cannot be opened */
  async openSnapshot(number: number): Promise<OpenedNotebook> {
    return openNotebook(await this.#storage.snapshot(number));
  }

  async removeSnapshots(numbers: readonly number[]): Promise<void> {
    await this.#storage.removeSnapshots(numbers);
  }

  /** The database was taken away by a newer page, or by the browser. */
  lost(): void {
    this.#mayWrite = false;
    this.#app.session.set({ saveFault: { kind: 'lost', sentence: text.keeping.lost } });
  }

  /** Writes and looks until there is nothing left to do; one at a time. */
  async #work(): Promise<void> {
    clearTimeout(this.#timer);
    this.#timer = undefined;
    if (this.#busy || !this.#mayWrite) return;
    this.#busy = true;
    try {
      while (this.#hasWork()) {
        if (this.#mustLook) await this.#look();
        else await this.#writeOnce();
      }
    } catch (error) {
      this.#app.session.set({ saveFault: faultOf(error) });
    } finally {
      this.#busy = false;
    }
  }

  #hasWork(): boolean {
    return this.#mayWrite && (this.#mustLook || this.#known !== this.#app.store.state.document);
  }

  async #writeOnce(): Promise<void> {
    const { store, session } = this.#app;
    const { document } = store.state;
    const kept = this.#keptNow(document, this.#revision + 1);
    const result = await this.#storage.keepNotebook(kept, this.#revision);
    if (result.status === 'overtaken') {
      await this.#meet(result.kept);
      return;
    }
    this.#revision = kept.revision;
    this.#known = document;
    if (this.#leftNote !== null) removeNote(this.#leftNote);
    this.#leftNote = null;
    removeNote(this.#writer);
    session.set({ lastSaved: new Date(kept.savedAt), saveFault: null });
    this.#channel?.postMessage(kept.revision);
    await this.#snapshotInPassing(kept.notebook);
  }

  /** Follows another tab, if one has kept something. */
  async #look(): Promise<void> {
    this.#mustLook = false;
    const kept = await this.#storage.notebook();
    if (kept !== null && kept.revision !== this.#revision) await this.#meet(kept);
  }

  /** Another tab has kept something: it becomes part of this one. */
  async #meet(kept: Kept): Promise<void> {
    const { store, session } = this.#app;
    let theirs: WorkDocument;
    try {
      theirs = openNotebook(kept.notebook).document;
    } catch {
      this.#mayWrite = false;
      session.set({ saveFault: { kind: 'newer', sentence: text.keeping.newer } });
      return;
    }
    if (this.#known !== store.state.document) await this.#snapshotOf(kept.notebook, 'other-tab');
    // From here on without a pause: nothing typed meanwhile may be lost.
    const mine = store.state.document;
    const clean = mine === this.#known;
    const { document, keptBoth } = mergeDocuments(mine, theirs, {
      ...(this.#known !== null && { base: this.#known }),
      makeId: newId,
      copyName: text.keeping.otherTabName,
    });
    this.#revision = kept.revision;
    store.dispatch({ type: 'document/load', document, mergeKey: 'another tab' });
    const merged = store.state.document;
    this.#known = clean ? merged : theirs;
    if (!merged.strips.some(({ id }) => id === session.value.stripId)) {
      session.set({ stripId: firstStripId(merged) });
    }
    const says = clean ? text.keeping.followed : text.keeping.merged(keptBoth.length);
    const { announcement: last } = session.value;
    session.set({
      // The other tab tells of each key there: once is enough.
      announcement: last.says === says ? last : { says },
      ...(clean && { lastSaved: new Date(kept.savedAt) }),
    });
  }

  async #snapshotInPassing(notebook: unknown): Promise<void> {
    const opened = this.#opened;
    this.#opened = null;
    const now = performance.now();
    if (opened !== null) await this.#snapshotOf(opened, 'in-passing');
    else if (now - this.#snapshotAt > SNAPSHOT_MILLISECONDS) {
      await this.#snapshotOf(notebook, 'in-passing');
    } else return;
    this.#snapshotAt = now;
  }

  /** A snapshot that fails is no reason to stop keeping the notebook itself. */
  async #snapshotOf(notebook: unknown, reason: SnapshotReason): Promise<boolean> {
    try {
      const facts = factsOf(notebook, reason, new Date().toISOString());
      await this.#storage.addSnapshot(facts, notebook);
      return true;
    } catch (error) {
      const fault = faultOf(error);
      const sentence = fault.kind === 'full' ? text.keeping.snapshotsFull : fault.sentence;
      this.#app.session.set({ saveFault: { ...fault, sentence } });
      return false;
    }
  }

  readonly #leave = (): void => {
    const { document } = this.#app.store.state;
    if (this.#known === document || !this.#mayWrite) return;
    leaveNote(this.#keptNow(document, this.#revision));
    void this.#work();
  };

  readonly #lookSoon = (): void => {
    this.#mustLook = true;
    void this.#work();
  };

  #keptNow(document: WorkDocument, revision: number): Kept {
    return {
      notebook: savedNotebook(document),
      savedAt: new Date().toISOString(),
      revision,
      writer: this.#writer,
      edit: this.#edit,
    };
  }
}
