/** `times`: development times from strips of one film developed for different times. */
import type { Caution } from '@wedgebook/data';
import { inputFault, type ReadingsFile } from '@wedgebook/notebook';
import type { Arguments } from '../input/arguments.ts';
import { onlyFile } from '../input/only-file.ts';
import {
  fileName,
  readingsOf,
  readReadingsFile,
  readSource,
  type Source,
} from '../input/read-file.ts';
import { requireSource, STRIP_OPTIONS, stripOptions } from '../input/strip-options.ts';
import { timesJson } from '../output/times-json.ts';
import { timesText } from '../output/times-text.ts';
import { shownWarnings, type ShownWarning } from '../output/warnings.ts';
import { stripsOf } from '../strips/strips-of.ts';
import { bathCautions, seleniumModel } from '../times/bath-beside.ts';
import { measureWords } from '../times/times-words.ts';
import { driftOf, type Drift } from '../times/drift.ts';
import { laddersOf, type Ladder } from '../times/ladders.ts';
import { orderOf, TIMES_OPTIONS, type Order } from '../times/order.ts';
import { paperOfNotebook, paperOfReadings, type PaperForTimes } from '../times/paper-for-times.ts';
import { plannedTimes, type PlannedTimes } from '../times/planned-times.ts';
import { stripsOfFilm, timedStrips, type TimedStrip } from '../times/timed-strips.ts';
import type { CommandIo } from '../io.ts';
import { USAGE } from '../text.ts';
import { UNUSED } from '../unused-text.ts';
import { unusedOptions } from '../input/unused-options.ts';
import { UsageError } from '../usage-error.ts';
import type { Verb } from './verb.ts';

export interface Times {
  readonly order: Order;
  readonly strips: readonly TimedStrip[];
  /** Control strips, which take no part in the law. */
  readonly controlStrips: number;
  readonly planned: PlannedTimes;
  readonly ladders: readonly Ladder[];
  readonly drift: Drift | null;
  /** Of the bath beside development, where one is asked for. */
  readonly cautions: readonly Caution[];
  readonly warnings: readonly ShownWarning[];
}

/** Options of the selenium bath, and of the paper and how it is seen. */
const BATH_ONLY = ['dilution', 'bath-celsius'];
const PAPER_ONLY = ['callier', 'callier-error', 'density-basis'];

export const times: Verb = {
  options: { ...STRIP_OPTIONS, ...TIMES_OPTIONS },
  run: async (given, io) => {
    const file = onlyFile(given);
    const options = stripOptions(given, file);
    // Usage is judged before any file is read.
    const first = orderOf(given);
    const paperFile = given.text('paper');
    if (file === '-' && paperFile === '-') throw new UsageError(USAGE.stdinTwice);
    const source = await readSource(file, io, options);
    const readings = readingsOf(source, file);
    requireSource(readings, options);
    const paper = await paperOf(source, readings, file, given, io);
    const order = paper === null ? first : orderOf(given, paper);
    const film = stripsOf('film', readings, fileName(file));
    const chosen = stripsOfFilm(film.strips, given.text('film'));
    const timed = timedStrips(chosen, options, order, file);
    if (timed.strips.length === 0) {
      throw inputFault.noTimes({ file: fileName(file) }, measureWords(order.measure));
    }
    // Control strips watch the process; a law takes them only where there is nothing else.
    const own = timed.strips.filter(({ strip }) => strip.control !== true);
    const strips = own.length > 0 ? own : timed.strips;
    // Treated strips are looked at where a bath is asked for, and only there.
    const asksBath = order.bath !== null && order.bath.ownGain === null;
    const bathFile = asksBath ? readings : { ...readings, strips: [] };
    const planned = plannedTimes(strips, order, seleniumModel(bathFile, options));
    const zones = order.zones ? laddersOf(planned, order) : { ladders: [], warnings: [] };
    const drift = order.drift ? driftOf(timed.strips) : null;
    const result: Times = {
      order,
      strips,
      controlStrips: timed.strips.length - strips.length,
      planned,
      ladders: zones.ladders,
      drift,
      cautions: bathCautions(order),
      warnings: [
        ...shownWarnings(
          film.warnings,
          order.paper?.warnings ?? [],
          timed.warnings,
          planned.warnings,
          zones.warnings,
          drift?.warnings ?? [],
        ),
        ...unusedOptions(given, [
          { names: BATH_ONLY, used: asksBath, remedy: UNUSED.bath },
          { names: PAPER_ONLY, used: order.paper !== null, remedy: UNUSED.anyPaper },
        ]),
      ],
    };
    return { json: timesJson(result), text: () => timesText(result) };
  },
};

/** The paper of `--paper`, or the one that a notebook plans for where nothing else says what N is. */
async function paperOf(
  source: Source,
  readings: ReadingsFile,
  file: string,
  given: Arguments,
  io: CommandIo,
): Promise<PaperForTimes | null> {
  const paperFile = given.text('paper');
  if (paperFile !== undefined) {
    const own = await readReadingsFile(paperFile, io, stripOptions(given, paperFile));
    return paperOfReadings(own, paperFile, given.text('paper-strip'), given);
  }
  const says = ['scale', 'target', 'normal'].some((name) => given.has(name));
  if (says || source.kind !== 'notebook') return null;
  return paperOfNotebook(source.document, readings, file, given);
}
