/** The user's notebook: the document, its changes, its saved form, exchange, and the wording. */
export * from './document/document.ts';
export * from './document/command.ts';
export { applyCommand } from './document/apply-command.ts';
export { DEFAULT_PLAN, emptyDocument } from './document/empty-document.ts';
export { referencesTo, type Referrer } from './document/references.ts';
export { rowLogExposure, stripReadings, type StripReadings } from './document/strip-readings.ts';
export { tabletLookup, type TabletLookup } from './document/tablet-lookup.ts';
export { DocumentStore, type StoreState } from './store/document-store.ts';
