/** Words of taking readings from an instrument. */
import type { LeftOut } from '../instrument/read-port.ts';
import type { Entered } from '../worksheet/entered.ts';

type Put = Extract<Entered, { status: 'entered' }>;

const ORDINALS = ['1st', '2nd', '3rd'];
const ordinal = (index: number): string => ORDINALS[index] ?? `${index + 1}th`;
const goesTo = (next: string | null): string =>
  next === null ? 'The sheet is full.' : `Next: ${next}.`;

export const instrument = {
  intro:
    'For a densitometer that sends a line of text for each reading over a serial cable or its adapter. Each reading goes into the next cell of the sheet, and undo takes it back.',
  typing:
    'An instrument that types like a keyboard needs nothing of this: click the first cell of the sheet and read. The Enter that it sends leads to the next step, and after the last step to the top of the next column.',
  missing:
    'This browser gives pages no serial ports, or its owner barred them. Use a current desktop browser built on Chromium, set the instrument to type like a keyboard, or type the readings.',
  connect: 'Connect the instrument',
  reconnect: 'Connect it again',
  disconnect: 'Disconnect',
  phases: {
    closed: 'Not connected.',
    opening: 'Choose the port in the browser’s list …',
    open: 'Connected: take a reading.',
    lost: 'The instrument is gone.',
  },
  settings: 'How it sends',
  settingsHint:
    'As the instrument’s manual or its own menu says. Kept in this browser. What is changed here counts from the next connection.',
  fields: {
    baudRate: 'Rate, baud',
    dataBits: 'Data bits',
    parity: 'Parity',
    stopBits: 'Stop bits',
    flowControl: 'Handshake',
  },
  parities: { none: 'none', even: 'even', odd: 'odd' },
  flowControls: { none: 'none', hardware: 'by wires (RTS, CTS)' },
  sound: 'A sound for each reading; two for one to look at',
  unit: (unit: string) => `Readings are taken in ${unit}, as chosen above the sheet.`,
  next: (place: string | null) =>
    place === null
      ? 'No cell is left for a reading: click one, or add a step or a column.'
      : `The next reading goes to ${place}. Click another cell to change it.`,
  lines: 'Lines received, the newest first',
  line: 'sent',
  became: 'became',
  pending: (half: string) =>
    `So far without a line end: “${half}”. If it stays, the rate is another, or the instrument must be set to end its lines.`,
  leftOut: {
    'begun-before': 'A line that began before the connection was left out. Read again.',
    damaged:
      'Characters came damaged and their line was left out. Read again; if it stays, rate or parity is another.',
    overlong: 'A line without an end was left out. The rate is another, or lines must be ended.',
  } satisfies Record<LeftOut, string>,
  cannotOpen: (why: string) =>
    `The port cannot be opened: ${why}. Close other programs that use it, and connect again.`,
  cannotAsk: (why: string) => `The browser did not give its ports: ${why}.`,
  lost: (half: string) =>
    `The instrument is gone: its plug, its power or its adapter.${half === '' ? '' : ` It was in the middle of a line (“${half}”); nothing of that was entered.`} Plug it in and it is connected again, or press “Connect it again”.`,
  closed: 'Disconnected.',
  connected: 'Connected. Take a reading.',
  teach: 'Which number is the reading?',
  teachLine: (line: string) => `The instrument sent “${line}”.`,
  shown: 'Number that the instrument shows',
  find: 'Find it in the line',
  found: (index: number) =>
    `Found: the ${ordinal(index)} number of such lines is the reading. Lines of another kind are asked about. Now take the first reading.`,
  ambiguous:
    'The number stands in the line more than once. Choose the place, or read a patch of another density and type what is shown.',
  place: (index: number, value: string) => `the ${ordinal(index)} number (${value})`,
  notFound: (typed: string) =>
    `“${typed}” is not in the line. Type the number just as the instrument shows it, or read again.`,
  contradicted: (typed: string) =>
    `“${typed}” is not where the number stood in the line before. Check both, or forget what was learnt.`,
  forget: 'Forget what was learnt of its lines',
  forgotten: 'Forgotten: the next line is asked about.',
  learnt: (count: number) =>
    `${count === 1 ? 'One kind of line is' : `${count} kinds of line are`} known.`,
  unknown: 'not entered: which number is the reading is not known',
  full: 'not entered: no cell is left',
  noStrip: 'not entered: there is no strip; add one',
  entered: ({ place, shown, before }: Put) =>
    `${shown} in ${place}${before === null ? '' : ` (${before} before)`}`,
  said: ({ place, shown, before, next, suspect }: Put) =>
    `${place}: ${shown}${before === null ? '' : `, in place of ${before}`}. ${suspect === null ? '' : `${suspect} `}${goesTo(next)}`,
};
