/** `times`: development times from strips of one film developed for different times. */
import { inputFault } from '@wedgebook/notebook';
import { onlyFile } from '../input/only-file.ts';
import { fileName, readReadingsFile } from '../input/read-file.ts';
import { requireSource, STRIP_OPTIONS, stripOptions } from '../input/strip-options.ts';
import { timesJson } from '../output/times-json.ts';
import { timesText } from '../output/times-text.ts';
import { shownWarnings, type ShownWarning } from '../output/warnings.ts';
import { stripsOf } from '../strips/strips-of.ts';
import { measureWords } from '../times/times-words.ts';
import { driftOf, type Drift } from '../times/drift.ts';
import { laddersOf, type Ladder } from '../times/ladders.ts';
import { orderOf, TIMES_OPTIONS, type Order } from '../times/order.ts';
import { plannedTimes, type PlannedTimes } from '../times/planned-times.ts';
import { stripsOfFilm, timedStrips, type TimedStrip } from '../times/timed-strips.ts';
import type { Verb } from './verb.ts';

export interface Times {
  readonly order: Order;
  readonly strips: readonly TimedStrip[];
  readonly planned: PlannedTimes;
  readonly ladders: readonly Ladder[];
  readonly drift: Drift | null;
  readonly warnings: readonly ShownWarning[];
}

export const times: Verb = {
  options: { ...STRIP_OPTIONS, ...TIMES_OPTIONS },
  run: async (given, io) => {
    const file = onlyFile(given);
    const options = stripOptions(given, file);
    const order = orderOf(given);
    const readings = await readReadingsFile(file, io, options);
    requireSource(readings, options);
    const film = stripsOf('film', readings, fileName(file));
    const chosen = stripsOfFilm(film.strips, given.text('film'));
    const timed = timedStrips(chosen, options, order, file);
    if (timed.strips.length === 0) {
      throw inputFault.noTimes({ file: fileName(file) }, measureWords(order.measure));
    }
    const planned = plannedTimes(timed.strips, order);
    const zones = order.zones ? laddersOf(planned, order) : { ladders: [], warnings: [] };
    const drift = order.drift ? driftOf(timed.strips) : null;
    const result: Times = {
      order,
      strips: timed.strips,
      planned,
      ladders: zones.ladders,
      drift,
      warnings: shownWarnings(
        film.warnings,
        timed.warnings,
        planned.warnings,
        zones.warnings,
        drift?.warnings ?? [],
      ),
    };
    return { json: timesJson(result), text: () => timesText(result) };
  },
};
