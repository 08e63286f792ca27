/** Words of keeping the notebook: faults, tabs, snapshots, and what comes in from a file. */
import type { EntryKind, Setting } from '@wedgebook/notebook';
import type { SnapshotFacts, SnapshotReason } from '../keeping/thinned.ts';
import { plural } from './phrases.ts';

const LISTS: Readonly<Record<EntryKind, string>> = {
  tablet: 'tablets',
  developer: 'developers',
  film: 'films',
  strip: 'strips',
  paper: 'papers',
  negative: 'negatives',
  bath: 'baths',
  print: 'prints',
  note: 'diary entries',
};
const SETTINGS: Readonly<Record<Setting, string>> = {
  title: 'the title',
  note: 'the note of the notebook',
  plan: 'the plan of the bath',
  developmentPlan: 'the plan of development',
  printing: 'the plan of the print',
};
const REASONS: Readonly<Record<SnapshotReason, string>> = {
  'in-passing': 'taken in passing',
  'by-hand': 'taken by hand',
  'before-replacing': 'before another notebook took its place',
  'before-merging': 'before a file was merged',
  'before-going-back': 'before going back',
  'other-tab': 'what another tab kept, before both were merged',
  'left-in-haste': 'from a page that was closed before it could write',
  unreadable: 'could not be opened; export it as it is',
};

export const keeping = {
  setAside: (why: string) =>
    `The notebook kept in this browser could not be opened (${why}). It was set aside under “Kept here”, not deleted, and the demonstration notebook is shown.`,
  cannotSetAside: (why: string) =>
    `The notebook kept in this browser could not be opened (${why}), and there is no room to set it aside. It is left as it is: nothing that you change here is kept. Export what you need.`,
  cannotSave: (why: string) =>
    `The notebook cannot be kept in this browser (${why}). Export it to a file now, so that nothing is lost.`,
  full: 'There is no room left in this browser: the last changes are on this page alone. Export the notebook now; then delete snapshots, or free space on the disk, and try again.',
  snapshotsFull:
    'There is no room left in this browser for another snapshot; the notebook itself is kept. Delete snapshots, or free space on the disk.',
  newer:
    'This browser keeps a notebook that a newer version of this page has written. It is left as it is: nothing that you change here is kept. Reload the page to get the newer version.',
  lost: 'A newer version of this page was opened in another tab and keeps the notebook now. Nothing that you change here is kept: export it, or reload.',
  exportNow: 'Export now',
  retry: 'Try again',
  reload: 'Reload',
  deleteSnapshots: 'Delete the snapshots',
  snapshotsDeleted: (count: number) => `${plural(count, 'snapshot')} deleted.`,
  followed: 'Another tab changed this notebook; its changes are here.',
  merged: (twice: number) =>
    `Another tab changed this notebook too; both are here now.${twice === 0 ? '' : ` ${plural(twice, 'entry', 'entries')} that both had changed ${twice === 1 ? 'is' : 'are'} kept twice.`}`,
  otherTabName: (name: string) => `${name} (other tab)`,
  fileName: (name: string) => `${name} (from the file)`,

  button: 'Kept here',
  title: 'How this notebook is kept',
  says: 'It is written to this browser within a second of every change. A browser may clear what it keeps, by itself or with its history: only an exported file is yours for good.',
  exported: (at: Date | null, days: number | null) => {
    if (at === null) return 'It was never exported.';
    const ago = days === null || days < 1 ? 'today' : `${plural(Math.floor(days), 'day')} ago`;
    return `Last exported ${moment(at)}, ${ago}.`;
  },
  export: 'Export the notebook',
  persisted: 'This browser has promised to keep it until you clear it yourself.',
  notPersisted: 'This browser may clear it when it runs out of room.',
  persistUnknown: 'This browser does not say whether it may clear what it keeps.',
  askPersist: 'Ask the browser to keep it',
  persistGranted: 'The browser promised to keep it until you clear it yourself.',
  persistDenied:
    'The browser made no promise. It may do so once this page is bookmarked or installed. Export now and then.',
  usage: (used: number, quota: number) =>
    `It uses ${megabytes(used)} of about ${megabytes(quota)} that the browser allows.`,
  snapshots: 'Snapshots',
  snapshotsSay:
    'States of the notebook to go back to: the last ten, then one an hour, a day, a month. Going back is one step of undo.',
  noSnapshots: 'None yet: the first is taken with the first change.',
  snapshotsBarred: 'They cannot be read in this browser.',
  take: 'Take one now',
  taken: 'Snapshot taken.',
  when: 'Taken',
  holds: 'Holds',
  facts: ({ strips, negatives, papers, prints, characters }: SnapshotFacts) =>
    `${plural(strips, 'strip')}, ${plural(negatives, 'negative')}, ${plural(papers, 'paper')}, ${plural(prints, 'print')}; ${megabytes(characters)}`,
  reason: (reason: SnapshotReason) => REASONS[reason],
  goBack: 'Go back to it',
  wentBack: (title: string, at: string) =>
    `Back to “${title}” of ${moment(new Date(at))}. Undo returns to where you were.`,
  exportOne: 'Export',
  deleteOne: 'Delete',
  snapshotName: (title: string, at: string) => `“${title || 'untitled'}”, ${moment(new Date(at))}`,
  cannotOpen: (why: string) => `This snapshot cannot be opened. ${why} Export it as it is.`,
  cannotDo: (why: string) => `That could not be done: ${why}`,
  close: 'Close',
  moment: (at: string) => moment(new Date(at)),

  incoming: (title: string) => `Open “${title || 'untitled'}”`,
  incomingAlike: 'It is the same as the notebook that is open; nothing would change.',
  list: 'Entries',
  added: 'new',
  changed: 'differ',
  same: 'the same',
  missing: 'only here',
  lists: LISTS,
  differs: (settings: readonly Setting[]) =>
    `Also different: ${settings.map((setting) => SETTINGS[setting]).join(', ')}.`,
  differing: (kind: EntryKind, names: readonly string[]) =>
    `${LISTS[kind]} that differ: ${names.map((name) => `“${name}”`).join(', ')}`,
  newOnes: (kind: EntryKind, names: readonly string[]) =>
    `new ${LISTS[kind]}: ${names.map((name) => `“${name}”`).join(', ')}`,
  untitled: 'without a name',
  more: (count: number) => `and ${count} more`,
  names: 'Which they are',
  merge: 'Merge',
  mergeSays: (twice: number) =>
    `Merge adds what is new${twice === 0 ? '' : `, and keeps ${twice === 1 ? 'the one that differs' : `the ${twice} that differ`} beside yours, marked “(from the file)”`}. Nothing of yours is changed.`,
  replace: 'Replace',
  replaceSays: (missing: number) =>
    `Replace puts the file in the place of the notebook that is open${missing === 0 ? '' : `; ${plural(missing, 'entry', 'entries')} that ${missing === 1 ? 'is' : 'are'} only here would go`}.`,
  undoSays: 'A snapshot is taken first, and Undo takes either back.',
  keepPresent: 'Keep the present one',
  mended: (count: number) =>
    `${plural(count, 'reference')} in the file ${count === 1 ? 'leads' : 'lead'} nowhere and will be emptied.`,
  replaced: (title: string) => `“${title}” opened. Undo brings the notebook before it back.`,
  mergedFile: (title: string, taken: number, twice: number) =>
    `${plural(taken, 'entry', 'entries')} taken from “${title}”${twice === 0 ? '' : `, ${twice} of them beside yours`}. Undo takes them out again.`,
};

function moment(date: Date): string {
  if (Number.isNaN(date.getTime())) return 'at a time not known';
  return date.toLocaleString([], {
    year: 'numeric',
    month: 'short',
    day: 'numeric',
    hour: '2-digit',
    minute: '2-digit',
  });
}

function megabytes(bytes: number): string {
  if (bytes < 1e5) return `${Math.max(1, Math.round(bytes / 1e3))} kB`;
  return bytes < 1e9 ? `${(bytes / 1e6).toFixed(1)} MB` : `${(bytes / 1e9).toFixed(1)} GB`;
}
