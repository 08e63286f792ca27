/**
 * One sentence for every warning of core, with what the user can do about it. The app and the
 * command both show these words.
 */
import type { Warning, WarningCode, WarningDetails } from '@wedgebook/core';

/** A figure from the details, or nothing: every sentence reads without its figures too. */
function clause(
  details: WarningDetails,
  key: string,
  words: (figure: string) => string,
  decimals = 2,
): string {
  const figure = details[key];
  if (figure === undefined) return '';
  return words(typeof figure === 'number' ? numberText(figure, decimals) : figure);
}

const numberText = (value: number, decimals: number): string =>
  Number.isInteger(value) && decimals === 0 ? String(value) : value.toFixed(decimals);

/** The rows of a file, or the steps of a strip, that a warning speaks of. */
function placeClause(details: WarningDetails): string {
  const named = (key: string, one: string, more: string) =>
    clause(details, key, (places) => `, ${places.includes(',') ? more : one} ${places}`);
  return named('rows', 'row', 'rows') || named('steps', 'step', 'steps');
}

const millions = (count: number): string => (count / 1e6).toFixed(0);

const measure = (details: WarningDetails) =>
  clause(details, 'measure', (name) => `The ${name}`) || 'A measure';

/** A probability that rounds to nothing is told as a bound. */
function probabilityClause(details: WarningDetails): string {
  const p = details['pValue'];
  if (typeof p !== 'number') return '';
  return p < 0.0001 ? ' (p < 0.0001)' : ` (p = ${p.toFixed(4)})`;
}

/** How a value is known that nobody has verified, by the word of its provenance. */
const UNVERIFIED: Readonly<Record<string, string>> = {
  published: 'is published, but was not checked against its source',
  derived: 'is derived, and not verified',
  practice: 'is common practice, and not verified',
  memory: 'is from memory, and not verified',
};

/** What may have happened to a reading, in words. */
const SLIP_TEXT: Readonly<Record<string, string>> = {
  'decimal-point': 'the decimal point may be lost',
  'digits-swapped': 'two digits may be swapped',
  'digit-mistaken': 'one digit may be wrong',
  'neighbouring-step': 'it may be the reading of a neighbouring step',
};

/** Why a picture with a strip and a tablet could not be read. */
const SCAN_FAULT_TEXT: Readonly<Record<string, string>> = {
  'strip-not-found':
    'The steps of the strip are too small to read, or lie outside the picture. Mark its ends again, check the number of steps, or scan at a higher resolution.',
  'tablet-not-found':
    'The steps of the tablet are too small to read, or lie outside the picture. Mark its ends again, choose the right tablet, or scan at a higher resolution.',
  'too-few-tablet-steps':
    'Fewer than five steps of the tablet can be used: the others are at the limit of black or white. Scan again with another exposure.',
  'tablet-turned':
    'The tablet grows lighter where it should grow denser. Exchange its two ends, or say that the tones of the file are turned.',
  'tablet-does-not-fit':
    'The tablet in the picture does not go with the densities of the one that is named. Check which tablet it is, its number of steps and its marked ends.',
};

function slipClause(details: WarningDetails): string {
  const words = SLIP_TEXT[details['slip'] ?? ''];
  return words === undefined ? '' : `; ${words}${clause(details, 'meant', (x) => ` (${x}?)`)}`;
}

/** What drifts, and how it shows. */
const DRIFT_TEXT: Readonly<Record<string, string>> = {
  speedPoint: 'the speed point',
  contrast: 'the contrast',
  baseFog: 'base + fog',
};
const SIGNAL_TEXT: Readonly<Record<string, string>> = {
  'beyond-limits': 'lies beyond the limits',
  'two-of-three': 'is the second of three near a limit',
  'one-side': 'is the eighth in a row on one side of the centre',
  trend: 'is the sixth in a row in one direction',
};

/** The sentence of every warning code. */
export const WARNING_TEXT: Readonly<Record<WarningCode, (details: WarningDetails) => string>> = {
  // readings
  'readings-reversed': () =>
    'The rows run from the last step to the first; the order was accepted. Check that each density stands beside its own step.',
  'density-falls-with-exposure': (d) =>
    d['kind'] === 'reversed'
      ? 'Density falls as exposure rises over the whole strip, so the steps were probably read from the other end. Turn the readings round, or check the tablet.'
      : `Density falls with exposure${clause(d, 'peakLogExposure', (x) => ` beyond log exposure ${x}`)}: the material is solarised there, or a reading is wrong. Read those steps again, or leave them out.`,
  'density-slightly-negative': (d) =>
    `${clause(d, 'count', (n) => (n === '1' ? 'One density is' : `${n} densities are`), 0) || 'A density is'} slightly below zero${clause(d, 'lowest', (x) => ` (lowest ${x})`, 3)}${placeClause(d)}; used as read. Zero the densitometer and read again.`,
  'replicates-disagree': (d) =>
    `${clause(d, 'count', (n) => (n === '1' ? 'One step was' : `${n} steps were`), 0) || 'A step was'} read more than once with densities that do not agree${clause(d, 'lowest', (x) => ` (${x}`)}${clause(d, 'highest', (x) => ` and ${x}`)}${d['highest'] === undefined ? '' : `${clause(d, 'logExposure', (x) => ` at log exposure ${x}`) || ' of the unexposed film'})`}. Read again; if two strips bear one name, give the second another.`,
  'steps-unread': (d) =>
    `${clause(d, 'count', (n) => (n === '1' ? 'One cell' : `${n} cells`), 0) || 'Some cells'}${clause(d, 'strip', (name) => ` of strip ${name}`)} ${d['count'] === 1 ? 'was' : 'were'} left without a reading${placeClause(d)}. Read more if the curve lacks points there.`,
  'readings-impossible': (d) =>
    `${clause(d, 'count', (n) => (n === '1' ? 'One reading' : `${n} readings`), 0) || 'A reading'}${clause(d, 'strip', (name) => ` of strip ${name}`)} took no part: no film or paper has such a density, or no light gives such an exposure. Correct the figure.`,
  'figures-impossible': (d) =>
    `${clause(d, 'count', (n) => (n === '1' ? 'One figure' : `${n} figures`), 0) || 'Some figures'} of the notebook cannot be and took no part${clause(d, 'figures', (names) => `: ${names}`)}. Correct them, or choose an undamaged copy.`,
  'step-sets-conflict': (d) =>
    `${clause(d, 'strip', (name) => `Strip ${name} is`) || 'A strip is'} listed more than once with different steps; all rows were taken as one strip. Give the second one another name if they are two strips.`,
  'unexposed-step': (d) =>
    `${clause(d, 'row', (row) => `Row ${row}`, 0) || 'A row'} has ${clause(d, 'step', (step) => `step ${step}`, 0) || 'a step'} but neither log exposure nor tablet density, and was taken as base + fog. If the tablet has that step, give its density; if the row is base + fog, leave the step empty.`,
  'unexposed-denser': (d) =>
    `An unexposed reading${clause(d, 'density', (x) => ` of ${x}`)} is denser than the least exposed step${clause(d, 'lowest', (x) => ` (${x})`)}. If that row was exposed, give it its log exposure or tablet density.`,
  'columns-ignored': (d) =>
    `Columns that are not known were left out${clause(d, 'columns', (names) => `: ${names}`)}. Correct the name if one of them was meant to be read.`,
  'strips-left-out': (d) =>
    `${clause(d, 'count', (n) => (n === '1' ? 'One strip' : `${n} strips`), 0) || 'Some strips'} of another material${clause(d, 'material', (name) => ` (${name})`)} took no part. Correct the material if that is wrong.`,
  'exposure-assumed-absolute': () =>
    'The log exposures were taken as absolute (log10 of lux-seconds). If the light was not calibrated, say relative, and no speed is given.',
  'exposure-relative': () =>
    'The exposure is relative, so no speed can be stated. Give the log exposure of the light without the tablet to get one.',
  // curve
  'shoulder-not-determined': () =>
    'The readings do not reach the shoulder, so the greatest density is not determined. Expose a strip longer if you need it.',
  'no-straight-part': (d) =>
    `The readings show no straight part: the curve is steepest at their end${clause(d, 'gamma', (g) => ` (slope ${g})`)}. Gamma and inertia belong to that slope only; expose the strip longer to reach the straight part.`,
  'base-fog-extrapolated': () =>
    'Base + fog was not read but follows from the fitted curve. Read an unexposed part of the strip and add it.',
  'lack-of-fit': (d) =>
    d['family'] === 'monotone-smooth'
      ? `A curve with toe and shoulder misses the readings by more than their scatter${probabilityClause(d)}, so that a smooth curve stands in its place. Look for two emulsions or a mistaken step.`
      : `The curve misses the readings by more than their scatter${probabilityClause(d)}. Use the smooth curve, or look for two emulsions or a mistaken step.`,
  'suspect-reading': (d) =>
    `The reading${clause(d, 'density', (x) => ` ${x}`)}${clause(d, 'logExposure', (x) => ` at log exposure ${x}`)} lies far from the curve${clause(d, 'residual', (x) => ` (by ${x})`)}${clause(d, 'expected', (x) => `, where about ${x} would fit`)}${slipClause(d)}. It was kept; read it again.`,
  'step-slip': (d) =>
    `From the reading${clause(d, 'density', (x) => ` ${x}`)}${clause(d, 'logExposure', (x) => ` at log exposure ${x}`)} on, the densities fit one step ${d['kind'] === 'step-doubled' ? 'back' : 'further on'} far better${clause(d, 'moved', (x) => ` (they scatter by ${x}`, 3)}${clause(d, 'written', (x) => `, as written by ${x})`, 3)}: ${d['kind'] === 'step-doubled' ? 'a step may have been read twice' : 'a step may have been skipped'} there. Nothing was moved; read the steps from there again.`,
  'curve-not-determined': (d) =>
    d['reason'] === 'no-density-rise'
      ? 'The densities are all but alike, so there is no curve. Check that the strip was exposed behind the tablet.'
      : 'No curve could be fitted to these readings. Read more steps, or choose another curve.',
  'curve-preliminary': () =>
    'This is a first curve with toe and shoulder, whether or not the readings ask for it: the part of the app that judges curves could not be loaded. Load the page again.',
  'fit-not-converged': () =>
    'The fit did not settle, so its figures are uncertain. Add readings, or choose a simpler curve.',
  'curve-not-monotone': () =>
    'The curve falls somewhere between the readings, so a density there belongs to more than one exposure. Check the readings.',
  // film
  'speed-point-extrapolated': (d) =>
    `The speed point lies outside the readings${clause(d, 'beyond', (x) => ` by ${x} log`)}. Add steps with less exposure to read it.`,
  'speed-point-not-reached': (d) =>
    `The readings do not come near net density ${clause(d, 'netDensity', (x) => x) || '0.10'}, so there is no speed point. Add steps on the side that is missing.`,
  'iso-triangle-not-met': (d) =>
    `The contrast condition of ISO 6 is not met: density must rise by 0.80${clause(d, 'tolerance', (t) => ` ± ${t}`)} over +1.30${clause(d, 'rise', (x) => ` and rises by ${x}`)}. A speed from this strip is an exposure index; change the development to state an ISO speed.`,
  'slope-from-drawn-curve': () =>
    'The slope comes from a curve drawn through every reading, which repeats their errors. Choose a fitted curve for contrast.',
  'measure-extrapolated': (d) =>
    `${measure(d)} uses the curve beyond the readings${clause(d, 'beyond', (x) => ` by ${x} log`)}. Add steps there to make it sure.`,
  'measure-not-reached': (d) =>
    `${measure(d)} is not given: the readings end too early${clause(d, 'beyond', (x) => `, by ${x} log`)}. Expose a longer range.`,
  'contrast-index-ambiguous': (d) =>
    `The long toe allows more than one contrast index${clause(d, 'others', (o) => ` (also ${o})`)}; the one whose centre lies below net density 0.2 was taken. Compare it with an average gradient.`,
  'contrast-index-not-determined': () =>
    'The contrast index is not given: its outer point, 2.2 from the centre, lies beyond the readings. Expose a longer range, or use an average gradient.',
  // paper
  'paper-maximum-not-reached': () =>
    'The paper strip does not reach its greatest density, so the exposure scale may be too short. Expose the strip longer.',
  'paper-minimum-not-reached': () =>
    'The paper strip does not reach paper white, so the exposure scale may be too short. Add steps with less exposure.',
  'range-outside-grades': (d) =>
    `The range${clause(d, 'range', (r) => ` ${r}`)} lies outside the grades of this table. A softer or harder paper, or another development, is needed.`,
  'grade-tables-disagree': () =>
    'The two built-in grade tables differ for this range. The figure follows the table that is named; print a test strip.',
  'value-unverified': (d) =>
    `${clause(d, 'what', (what) => `The ${what}`) || 'A built-in value'} ${clause(d, 'source', (source) => UNVERIFIED[source] ?? '') || 'is unverified'}. Replace it with your own readings.`,
  'setting-left-out': (d) =>
    `The strip of setting${clause(d, 'setting', (name) => ` ${name}`)} has no exposure scale and is left out of the map. It needs steps from paper white to full black.`,
  'settings-without-numbers': () =>
    'The settings have no numbers, so they are ordered by contrast and counted from the softest. Fractions between them are places in that order.',
  'settings-alike': (d) =>
    `The settings${clause(d, 'first', (name) => ` ${name}`)}${clause(d, 'second', (name) => ` and ${name}`)} differ by less than their errors. Which of the two is harder is not settled.`,
  'paper-from-published-table': (d) =>
    `The paper follows a published table${clause(d, 'table', (name) => `, ${name}`)}, not your own strips. Print a wedge at each setting to replace it.`,
  // match and treatment
  'highlight-thinner-than-shadow': () =>
    'The highlight reads thinner than the shadow. On a negative the highlight is the denser spot; exchange the two.',
  'grade-from-published-bands': () =>
    'The grade comes from published bands, not from your paper. A strip on your paper settles it.',
  'gain-above-bound': (d) =>
    `The gain${clause(d, 'gain', (g) => ` ${g}`)} is above ${clause(d, 'bound', (b) => b) || '1.45'}, more than whole conversion to silver selenide is thought to give. Check the pairs of strips, or whether stain was read as silver.`,
  'gain-below-one': (d) =>
    `The gain${clause(d, 'gain', (g) => ` ${g}`)} is below 1: the bath seems to have lowered the densities. Check which strip was treated and that both had the same exposure.`,
  'dose-response-default': () =>
    'The effect of dilution, time and temperature is the built-in one, which is common practice without a published source. Treat trial pieces and enter them.',
  'dose-response-not-determined': () =>
    'The treated strips do not settle how the gain grows with dose; the built-in form was kept for that. Treat strips at other times or dilutions.',
  'dose-extrapolated': () =>
    'This bath is stronger or weaker than any that was tried. Treat a trial piece first.',
  'law-lowers-densities': (d) =>
    `The power law${clause(d, 'exponent', (m) => ` with exponent ${m}`)} would lower thin densities, which no intensifier does; they were left as they are. Use the proportional law, or read the shadows again.`,
  'stain-may-be-lost': () =>
    'The bath may take image stain away, and with it the contrast that the stain gave: the net gain can be nothing. Try a frame that you can spare.',
  'target-not-reachable': (d) =>
    d['reason'] === 'needs-reduction'
      ? `The bath cannot do this: the range would have to shrink${clause(d, 'gainNeeded', (g) => ` (a gain of ${g})`)}, and this bath only raises it. Choose a softer paper grade, or a reducer.`
      : `The bath cannot do this${clause(d, 'gainNeeded', (g) => `: a gain of ${g} is needed`)}${clause(d, 'maximumGain', (g) => `, at most ${g} can be had`)}. Choose a harder paper grade, or another treatment.`,
  'strips-unpaired': (d) =>
    `${clause(d, 'strip', (name) => `Strip ${name} has`) || 'A treated strip has'} no untreated strip of the same exposure and was left out. Add the untreated one.`,
  'steps-unpaired': (d) =>
    `${clause(d, 'count', (n) => (n === '1' ? 'One step' : `${n} steps`), 0) || 'Some steps'}${clause(d, 'strip', (name) => ` of strip ${name}`)} had no untreated reading at the same exposure and took no part. Read the untreated strip at those steps.`,
  'shadow-density-assumed': (d) =>
    `The gain depends on density, and the shadow was taken as net ${clause(d, 'shadow', (x) => x) || '0.10'} because only a range was given. Give shadow and highlight densities.`,
  'reading-error-assumed': (d) =>
    `Too few readings tell their own error; ${clause(d, 'error', (x) => x, 3) || '0.01'} was assumed for one reading. Read more spots before and after.`,
  'bath-temperature-assumed': (d) =>
    `The temperature of the bath is not given${clause(d, 'strip', (name) => ` for strip ${name}`)}; ${clause(d, 'celsius', (t) => `${t} °C`, 0) || '20 °C'} was taken. Write it down with the strip.`,
  'untreated-pooled': (d) =>
    `${clause(d, 'count', (n) => `${n} untreated strips match`, 0) || 'Several untreated strips match'}${clause(d, 'strip', (name) => ` strip ${name}`)}; they were taken together. Begin the name of a treated strip with the name of its untreated one to say which belongs to it.`,
  'process-unknown': (d) =>
    `What the trials do not settle is taken from the built-in selenium bath${clause(d, 'process', (name) => `, though the treatment is called "${name}"`)}. Treat more strips to rely on your own figures alone.`,
  'rows-incomplete': (d) =>
    `${clause(d, 'count', (n) => (n === '1' ? 'One row has' : `${n} rows have`), 0) || 'Some rows have'} an empty cell and took no part. Fill it in if the value is known.`,
  // development
  'development-scaled-guess': () =>
    'Only one development time was tried, so the times are a guess that the film stands at half of what it can do. Develop a second strip for another time.',
  'delay-assumed': (d) =>
    `Two development times do not tell how long the film takes to start; a delay of ${clause(d, 'delay', (x) => x, 1) || '0'} min was assumed. Develop a third strip.`,
  'temperature-coefficient-assumed': (d) =>
    `Times at another temperature rest on a coefficient of ${clause(d, 'coefficient', (x) => x, 1) || '2.5'} for 10 °C, which differs by film and developer. Give your own, or develop strips at two temperatures.`,
  'contrast-falls-with-time': () =>
    'Contrast does not rise with development time, so no times can be planned. Check which strip had which time.',
  'contrast-not-reachable': (d) =>
    `${clause(d, 'development', (n) => n) || 'This development'} asks for a contrast${clause(d, 'contrast', (c) => ` of ${c}`)} beyond what the film tends to${clause(d, 'limit', (l) => ` (${l})`)}. Use a harder paper grade, another developer, or the toning bath.`,
  'near-contrast-limit': (d) =>
    `${clause(d, 'development', (n) => n) || 'This development'} comes near the film's limit${clause(d, 'limit', (l) => ` of ${l}`)}, where minutes add little but fog. Try it on a spare frame.`,
  'short-development': (d) =>
    `${clause(d, 'development', (n) => n) || 'This development'} takes under ${clause(d, 'shortest', (m) => m, 0) || '5'} min, which may come out uneven. Dilute the developer or lower the temperature.`,
  'time-extrapolated': (d) =>
    `The time for ${clause(d, 'development', (n) => n) || 'this development'} lies outside the times that were tried${clause(d, 'first', (a) => ` (${a}`, 1)}${clause(d, 'last', (b) => ` to ${b} min)`, 1)}. Develop a strip there to make it sure.`,
  'development-time-missing': (d) =>
    `${clause(d, 'strip', (name) => `Strip ${name} has`) || 'A strip has'} no development time and took no part. Give its minutes.`,
  'contrast-not-measured': (d) =>
    `${clause(d, 'strip', (name) => `Strip ${name} gives`) || 'A strip gives'} no ${clause(d, 'measure', (name) => name) || 'contrast'} and took no part. Expose a longer range, or choose another measure.`,
  'treated-left-out': (d) =>
    `${clause(d, 'count', (n) => (n === '1' ? 'One treated strip' : `${n} treated strips`), 0) || 'Treated strips'} took no part: development is judged before any bath. Leave "treatment" empty if that is wrong.`,
  'contrast-law-impossible': () =>
    'Contrast rises faster with time than the law that was asked for allows, so no times can be planned. Let the law be chosen, or check which strip had which time.',
  'contrast-not-begun': (d) =>
    `After ${clause(d, 'minutes', (m) => m, 1) || 'so few'} min the film has no contrast yet by its own law. Name a longer time as normal.`,
  'channels-mixed': (d) =>
    `The strips were read in different channels${clause(d, 'channels', (names) => ` (${names})`)}, which do not compare. Keep to one channel.`,
  'surface-not-determined': () =>
    'The curve at an untested time is not known: strips at two or more development times are needed. Develop another strip.',
  'zones-not-placed': (d) =>
    `The zones at ${clause(d, 'development', (n) => n) || 'this development'} cannot be placed: the strips do not reach the density of the shadow. Expose a longer range.`,
  'zones-extrapolated': (d) =>
    `At ${clause(d, 'development', (n) => n) || 'this development'} the zones ${clause(d, 'zones', (n) => n) || 'at the ends'} lie outside the exposures that were read. Expose a longer range to make them sure.`,
  'process-drifts': (d) =>
    `The process may drift: ${DRIFT_TEXT[d['measure'] ?? ''] ?? 'a measure'} of strip ${clause(d, 'strip', (n) => n) || '?'} ${SIGNAL_TEXT[d['signal'] ?? ''] ?? 'is out of its limits'}. Check thermometer, timing and the age of the developer.`,
  'too-few-control-strips': (d) =>
    `Limits for the drift of a process need three control strips at least${clause(d, 'count', (n) => `; there are ${n}`, 0)}. Develop more of them alike.`,
  // exchange
  'development-temperature-assumed': (d) =>
    `The temperature of the developer is not given${clause(d, 'strip', (name) => ` for strip ${name}`)}; ${clause(d, 'celsius', (t) => `${t} °C`, 0) || '20 °C'} was taken. Correct it in the notebook.`,
  'treatment-not-modelled': (d) =>
    `Only the selenium bath is modelled${clause(d, 'strip', (name) => `; the readings of strip ${name}`) || '; the readings'}${clause(d, 'process', (name) => `, treated with "${name}",`)} are kept and drawn, and no gain is predicted from them. Write "selenium" if that is what it was.`,
  'bath-incomplete': (d) =>
    `The dilution or the minutes of the bath${clause(d, 'strip', (name) => ` of strip ${name}`)} are not given, so it takes no part in the gain. Type them in the notebook.`,
  'strips-alone-exchanged': () =>
    'A file of readings holds strips alone: films, papers, negatives, notes and the plan stay in the notebook. Keep the notebook itself.',
  'notebook-too-long': (d) =>
    `The notebook is longer than can be opened again${typeof d['length'] === 'number' && typeof d['most'] === 'number' ? ` (${millions(d['length'])} of at most ${millions(d['most'])} million characters)` : ''}. Split the readings by strips, into several notebooks.`,
  'steps-without-exposure': (d) =>
    `${clause(d, 'count', (n) => (n === '1' ? 'One step' : `${n} steps`), 0) || 'Some steps'}${clause(d, 'strip', (name) => ` of strip ${name}`)} had readings but no exposure and took no part. Choose a tablet that has them, or give their log exposure.`,
  'rows-miscounted': (d) =>
    `The file says that it has ${clause(d, 'declared', (n) => n, 0) || 'another number of'} rows${clause(d, 'found', (n) => `, it holds ${n}`, 0)}; all that are there were read. Check that none is missing.`,
  'reference-mended': (d) =>
    `The notebook names an entry that it does not hold${clause(d, 'path', (path) => ` (${path})`)}; the name was emptied. Choose the right one again.`,
  'strip-renamed': (d) =>
    `Two strips have the same name${clause(d, 'strip', (name) => `; one is written as ${name}`)}. Give it a name of its own in the notebook.`,
  // scans
  'scan-not-read': (d) =>
    SCAN_FAULT_TEXT[String(d['reason'])] ??
    'The picture could not be read. Mark the ends of both strips again.',
  'scan-clipped': (d) =>
    `Step ${clause(d, 'steps', (s) => s) || 'of the strip'}: the file is at its limit of black or white there, so no density is given. Scan again with another exposure, or with 16 bits.`,
  'scan-tablet-clipped': (d) =>
    `Tablet step ${clause(d, 'steps', (s) => s) || 'of some number'} is at the limit of black or white of the file and took no part. Scan again with another exposure.`,
  'scan-beyond-tablet': (d) =>
    `Step ${clause(d, 'steps', (s) => s) || 'of the strip'} is ${d['side'] === 'thinner' ? 'thinner' : 'denser'} than ${d['side'] === 'thinner' ? 'the thinnest' : 'the densest'} step of the tablet that could be used${clause(d, 'limit', (x) => ` (${x})`)}; no density is given, as nothing is known there. Use a tablet that reaches farther.`,
  'scan-flare': (d) =>
    `Light from elsewhere${clause(d, 'percent', (x) => `, ${x} % of the open light,`, 2)} lies over the picture and flattens the dense steps${clause(d, 'lost', (x) => ` (${x} % of the contrast is gone`, 0)}${clause(d, 'highest', (x) => ` at density ${x})`)}. The tablet corrects for it, with larger errors there; mask the light round the strips.`,
  'scan-response-encoded': (d) =>
    `The values of the file are not proportional to light${clause(d, 'exponent', (x) => ` (they go as its power of ${x})`)}; the tablet corrects for it. A linear file without sharpening or automatic tones is better.`,
  'scan-response-irregular': () =>
    'The tones of the file follow no simple law, as after automatic tone correction; a smooth curve through the tablet was used. Scan again with every correction off.',
  'scan-tablet-scatters': (d) =>
    `The steps of the tablet lie${clause(d, 'scatter', (x) => ` about ${x}`, 3) || ' far'} off any smooth response, and the errors given count that in. Check which tablet it is, its marked ends, and whether the light is even.`,
  'scan-few-levels': (d) =>
    `Step ${clause(d, 'steps', (s) => s) || 'of some number'} has fewer than 16 levels of the file's ${clause(d, 'bits', (b) => b, 0) || 'few'} bits, so the density is coarse. Scan with 16 bits.`,
  'scan-step-uneven': (d) =>
    `Step ${clause(d, 'steps', (s) => s) || 'of some number'} is uneven inside: dust, a scratch, a mark, or an end marked wrongly. Look at the picture before you use it.`,
  'scan-light-assumed-even': () =>
    'How evenly the light lies could not be told, as too little bare light shows round the strips (or it is at the limit of white). Light that falls off to one side goes into the densities. Leave bare light round both strips, not at full white.',
};

/** @returns the sentence of a warning */
export function warningText({ code, details }: Warning): string {
  return WARNING_TEXT[code](details);
}
