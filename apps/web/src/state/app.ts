/**
 * What every element shares: the document store, the session, and how the notebook is kept.
 */
import { createContext } from '@lit/context';
import type { MeterScale } from '@wedgebook/core';
import type { DocumentStore } from '@wedgebook/notebook';
import type { SaveFault } from '../keeping/found.ts';
import type { Derive } from './derive.ts';
import type { DeriveBath } from './derive-bath.ts';
import type { Observable } from './observable.ts';
import type { WorkCommand, WorkDocument } from './work.ts';

export type ReadingUnit = 'density' | 'transmittance' | 'stops' | MeterScale;

/** A light meter in use: its reading of the open light, null until given, and its least step. */
export interface Meter {
  readonly base: number | null;
  readonly step: number;
}
export type ThemeChoice = 'system' | 'light' | 'dim' | 'darkroom';

/** A sentence for the live region; each is an object of its own, so that one said twice is heard twice. */
export interface Announcement {
  readonly says: string;
}

/** State of this visit: what is selected and shown. Never undone, never part of the document. */
export interface Session {
  readonly stripId: string | null;
  readonly unit: ReadingUnit;
  readonly meters: Readonly<Record<MeterScale, Meter>>;
  readonly showFamilyOfStrips: boolean;
  readonly theme: ThemeChoice;
  readonly announcement: Announcement;
  /** Whether curves are first ones still, or chosen; changes when the choice has been loaded. */
  readonly curves: 'first' | 'chosen';
  /** Whether the search for slips in readings is loaded yet. */
  readonly slipSearch: boolean;
  readonly lastSaved: Date | null;
  readonly lastExported: Date | null;
  /** Whether the browser has kept the app for use without a network; null while it is busy. */
  readonly offline: 'ready' | 'not-here' | null;
  /** Changes to the newer version of the app that has been fetched; null while there is none. */
  readonly update: (() => Promise<void>) | null;
  /** Why the notebook cannot be kept, or null. */
  readonly saveFault: SaveFault | null;
}

export interface App {
  readonly store: DocumentStore<WorkDocument, WorkCommand>;
  readonly session: Observable<Session>;
  readonly derive: Derive;
  readonly bath: DeriveBath;
}

/** What selectors see. */
export interface View {
  readonly document: WorkDocument;
  readonly canUndo: boolean;
  readonly canRedo: boolean;
  readonly session: Session;
}

export const appContext = createContext<App>('wedgebook-app');
