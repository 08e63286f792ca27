/** The user's notebook: the document, its changes, its saved form, exchange, and the wording. */
export * from './document/document.ts';
export * from './document/command.ts';
export { applyCommand, LIST_OF } from './document/apply-command.ts';
export {
  DEFAULT_DEVELOPMENT_PLAN,
  DEFAULT_PLAN,
  DEFAULT_PRINTING,
  emptyDocument,
} from './document/empty-document.ts';
export { modelledTreatment, type ModelledTreatment } from './document/modelled-treatment.ts';
export { referencesTo, type Referrer } from './document/references.ts';
export {
  figuresWarning,
  soundFigures,
  type ReplacedFigure,
  type SoundFigures,
} from './document/sound-figures.ts';
export { rowLogExposure, stripReadings, type StripReadings } from './document/strip-readings.ts';
export { builtInTablets, tabletLookup, type TabletLookup } from './document/tablet-lookup.ts';
export { DocumentStore, type StoreState } from './store/document-store.ts';
export { InputError, type Place } from './notebook-error.ts';
export {
  NOTEBOOK_FORMAT,
  notebookFromText,
  notebookAround,
  stripText,
  notebookToText,
  openNotebook,
  savedNotebook,
  type OpenedNotebook,
  type SavedNotebook,
} from './saving/save-notebook.ts';
export {
  compareDocuments,
  type DocumentComparison,
  type ListComparison,
  type Setting,
} from './merging/compare-documents.ts';
export { mergeDocuments, type Merged, type MergeOptions } from './merging/merge-documents.ts';
export type { Mended } from './saving/mend-references.ts';
export { SCHEMA_VERSION } from './saving/migrations.ts';
export { WARNING_TEXT, warningText } from './wording/warning-text.ts';
export {
  fogChangeText,
  LAW_NAMES,
  RESPONSE_NAMES,
  stainLossText,
  untoldText,
} from './wording/treatment-words.ts';
export { WAY_NAMES, wayDetail, wayHazards, wayLoses } from './wording/way-words.ts';
export { inputFault } from './wording/input-fault.ts';
export { remedyForUnit, remedyForWords } from './wording/number-remedies.ts';
export {
  readReadings,
  readingsReader,
  type ReadOptions,
  type StreamOptions,
} from './exchange/read-readings.ts';
export {
  COLUMN_ROLES,
  guessRoles,
  readMatched,
  rolesFault,
  type ColumnRole,
  type RawTable,
  type RolesFault,
} from './exchange/match-columns.ts';
export {
  columnsFor,
  readingsWriter,
  writeReadings,
  type WriteOptions,
} from './exchange/write-readings.ts';
export type { ReadingsFile, ReadingsStrip, StepReading } from './exchange/readings-strip.ts';
export { READINGS_COLUMNS, type ReadingsColumn } from './exchange/readings-columns.ts';
export {
  curveReadingsOf,
  FEWEST_POINTS,
  type ExposureOptions,
  type StripCurveReadings,
} from './exchange/curve-readings-of.ts';
export { placesOf } from './wording/places-of.ts';
export { numberFromCell } from './exchange/number-from-cell.ts';
export {
  recordReader,
  type Delimiter,
  type RecordReader,
  type RecordSink,
} from './exchange/record-reader.ts';
export {
  documentDraft,
  documentFromStrips,
  type DocumentFromStripsOptions,
} from './exchange/document-from-strips.ts';
export { stripsFromDocument } from './exchange/strips-from-document.ts';
export { untreatedPartners, type ExposedStrip } from './exchange/untreated-partners.ts';
export { cgatsWriter, writeCgats, type CgatsOptions } from './exchange/cgats/write-cgats.ts';
export { cgatsReader, isCgats, readCgats } from './exchange/cgats/read-cgats.ts';
export { MOST_NOTEBOOK_CHARACTERS } from './saving/guard-json.ts';
