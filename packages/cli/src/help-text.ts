/** The help pages of the command: the other half of its words, beside `text.ts`. */

export const GENERAL_HELP = `wedgebook: from step-wedge readings to a paper grade, a toning bath and the next development

  wedgebook film FILE       speed, contrast and base + fog of film strips
  wedgebook paper FILE      ISO range, speed and grade of paper strips
  wedgebook match           the paper that a negative asks for
  wedgebook treat [FILE]    fit, predict and plan a selenium bath
  wedgebook times FILE      development times from strips with minutes
  wedgebook print           exposure times at the enlarger
  wedgebook fit FILE        fit a model to two columns of any table
  wedgebook plot FILE       the curves as an SVG chart
  wedgebook convert FILE    readings to CSV, CGATS.17 or a notebook

  --json                    one JSON document in full precision, for every verb
  --help                    after a verb: its options and an example
  --version                 of the command

FILE is CSV with a header row, a CGATS.17 file or a saved notebook; - reads standard input. CSV is
separated by commas, or by semicolons or tabs, where decimal commas are read. Its columns, in any
order, with or without capitals:

  strip                            its name
  material                         film or paper
  step                             number on the tablet
  tablet_density or log_exposure   density of that step, or log10 of the exposure in lux-seconds
  density                          as read; left empty where a step was not read
  channel                          visual, blue, green, red or ultraviolet
  minutes, celsius                 of the development
  treatment, parts_water           the bath, such as selenium, and n of its dilution 1+n
  bath_minutes, bath_celsius       of that bath
  processed_on, control            day, YYYY-MM-DD; yes for a control strip of the process
  setting                          grade or filter setting of a paper strip
  soft_seconds, hard_seconds       of soft and of hard light on a paper strip, 0 where one was off

Rows of one strip and step are replicates. A density without tablet_density or log_exposure is
base + fog. Only density and one of those two are needed:

  strip,tablet_density,density
  8 min,0.05,1.52
  8 min,0.20,1.43
  …
  8 min,,0.12

Exit code 0 is success, 1 bad input, 2 wrong usage.
`;

const EXPOSURE_HELP = `  FILE                               readings; wedgebook --help lists the columns
  --log-exposure absolute|relative   log_exposure is log10 lux-seconds (taken so unless given), or
                                     relative: then no speed is given
  --source-log-exposure X            log10 lux-seconds without the tablet: makes tablet
                                     densities absolute
  --tablet ID                        nominal-21, nominal-31, nominal-11 or nominal-41 (its number of
                                     steps), for files that give steps alone
`;

const READING_OPTIONS = `${EXPOSURE_HELP}  --model NAME                       family of the curve, chosen by the readings unless given:
                                     toe-shoulder, logistic-4, logistic-5, hurter-driffield,
                                     monotone-smooth or as-drawn
`;

const NEGATIVE_HELP = `  --range DR                         density range of the negative, or
  --shadow D --highlight D           its thinnest and densest spots with detail
  --light diffuse|condenser          the enlarger's light; diffuse unless given
  --callier Q                        your own Callier factor, 1 to 2, in place of --light
  --callier-error S                  its standard error, counted in every figure it is in
  --stain S                          stain density, as the paper sees it, for 1 of silver density; 0
                                     unless given
  --grade-table ID                   ansi-1966 (unless given), laboratory-diffuse or
                                     memory-condenser (from memory, unverified)
`;

/** Help of each verb, with an example that works. */
export const HELP = {
  film: `wedgebook film FILE... [options]

Fits the characteristic curve of each film strip and tells base + fog, speed and contrast, each
with its definition and standard error. Takes many files, and directories of them; paper among
them is passed over and told.

${READING_OPTIONS}  --compare                          every family of curves beside the one in use
  --iso-tolerance T                  density by which the rise over +1.30 may miss the 0.80 that an
                                     ISO speed asks for; 0.05 unless given
  --json                             one document; of many files, each strip names its file
  --jsonl                            one line of JSON a strip, each as soon as it is read
  --csv                              one row a strip, each measure with its standard error
  --keep-going                       with --jsonl or --csv: a bad file is told and passed over;
                                     the exit code is 1 all the same

A file sorted by strip may have any length. One whose strips lie scattered is held in memory, up to
200 million characters, and cannot be read with --jsonl or --csv.

Example: wedgebook film data/demo/film-strips.csv
`,
  paper: `wedgebook paper FILE [options]

Measures each paper strip by ISO 6846: exposure scale, ISO range, speed, and the paper grade.

Strips that name their setting (column "setting") make a map of the paper, and answers for
fractions of a setting; strips that tell soft_seconds and hard_seconds (0 where a light was off)
are fitted together as layers, with each strip predicted from the others.

${READING_OPTIONS}  --density-basis net|gross          90 % of the net (default) or gross maximum density
  --grade-table ID                   ansi-1966 (unless given), laboratory-diffuse or
                                     memory-condenser (from memory, unverified)
  --setting S                        the paper at a setting, such as 2½ or 2.5
  --scale X                          the setting that has exposure scale X, a log exposure range
  --json

Example: wedgebook paper data/demo/paper.csv
`,
  match: `wedgebook match --range DR | --shadow D --highlight D [options]

The exposure scale, ISO range and grade that a negative asks for, and how a paper of your own
serves it.

${NEGATIVE_HELP}  --paper FILE                       paper strips of your own to compare with
  --density-basis net|gross          90 % of their net (default) or gross maximum density
  --json

How the strips of --paper are read:

${READING_OPTIONS}
Example: wedgebook match --shadow 0.31 --highlight 1.18 --paper data/demo/paper.csv
`,
  treat: `wedgebook treat [FILE] [negative and target] [options]

Fits a bath to treated strips (FILE), or takes the built-in selenium bath; with a negative and a
target it plans the bath, with --minutes it predicts. Cautions are always shown.

Trial pieces, frames read at the same spots before and after, need no exposures: number the spots
in the column "step" and give each piece its name, base + fog as a row without a step.

${NEGATIVE_HELP}  --base-fog D                       base + fog under the spots
  --to-grade G                       what the negative should reach: a grade,
  --to-scale S | --paper FILE        the exposure scale (log) of a paper, typed or of its strip,
  --to-range R                       or a density range
  --density-basis net|gross          for --paper, as with the verb paper
  --minutes M                        predict what so many minutes do
  --dilution 1+n                     of the bath: one part of concentrate and n of water
  --celsius T                        temperature of the bath in °C; 20 unless given
  --stain-kept F                     share of --stain that the bath leaves, 0 to 1; 1 unless given
  --clear-base D                     density of the base without fog, where the bath tones fog too
  --ways                             the ways out side by side: print harder, split exposure,
                                     selenium, chromium, both, reducers, the next roll
  --order WISH                       least-interference, nearest-to-aim, highlight-separation,
                                     shadow-separation, least-grain or shortest-exposure
  --separate-shadow D --separate-highlight D
                                     densities at which tones should part
  --development FILE                 strips of this film with minutes, for the next roll
  --split-paper FILE                 your paper under soft and hard light, for the split exposure
  --developed-for M                  minutes for which this negative was developed
  --law NAME                         automatic, proportional, power, intensifier-safe or shift
  --maximum-gain K --half-dose E --steepness H
  --concentration-exponent N --temperature-coefficient Q
                                     hold a parameter instead of fitting or assuming it: factor of
                                     net densities in the complete bath; minutes in undiluted
                                     concentrate at 20 °C for half of the change; steepness of the
                                     response; n of dose = c^n t; factor of speed for 10 °C
  --response NAME                    automatic, first-order, hill, weibull or parabolic
${READING_OPTIONS}  --json

Example: wedgebook treat data/demo/treatment.csv --range 0.74 --to-grade 3 --dilution 1+3
Example: wedgebook treat --range 0.74 --dilution 1+1 --minutes 6.5
Example: wedgebook treat --range 0.74 --to-grade 3 --dilution 1+1 --ways --order least-grain
`,
  fit: `wedgebook fit FILE --model MODEL --x COLUMN --y COLUMN [options]

Least squares of a built-in model to two columns of any table with a header.

  --model NAME       one of these; y of x, parameters in the order of --start:
    straight-line    intercept + slope x
    exponential-rise b1 (1 - exp(-b2 x))
    michaelis-menten maximum x / (half + x)
    log-logistic-4   c + (d - c) / (1 + exp(b (ln x - ln e))); parameters b, c, d, e
    log-logistic-3   the same with c = 0; parameters b, d, e
    weibull-4        c + (d - c) exp(-exp(b (ln x - ln e))); parameters b, c, d, e
    toe-only, toe-shoulder, logistic-4, logistic-5, hurter-driffield
                     density (y) by log exposure (x)
  --x, --y COLUMN    by their names in the header
  --start a,b,c      starting values; found from the numbers unless given
  --weights COLUMN   weights, such as 1 / variance (not standard deviations)
  --robust           Huber loss: readings far off count less
  --covariance       show the covariance of the parameters, which --json always has
  --predict x,x      values of the model with standard errors and 95 % intervals
  --json

Example: wedgebook fit data/demo/gain-by-dose.csv --model exponential-rise --x dose --y gain_less_one
`,
  plot: `wedgebook plot FILE -o chart.svg [options]

Draws the curves of a file with their readings, black on white.

  -o FILE                            the chart; - writes it to standard output; a file that is no
                                     chart is not replaced
  --title TEXT                       above the chart
  --width W --height H               in pixels, 900 x 600 unless given
${READING_OPTIONS}  --json

Example: wedgebook plot data/demo/film-strips.csv -o family.svg
`,
  times: `wedgebook times FILE [options]

Contrast against development time from strips with minutes, and the times for N-2 to N+2, each with
its exposure index; how well each strip is predicted from the others; which time to test next.

  --measure NAME                     contrast-index (default), gamma, or a chord by its end points:
                                     gradient-L from net 0.10 over L log exposure, such as
                                     gradient-1.30; gradient-L-from-N from net N; or
                                     gradient-net-A-to-B between net densities, such as
                                     gradient-net-0.10-to-1.20
  --target C | --normal MINUTES      contrast of N, or the time that is N; unless given, from
                                     the paper, or else a published aim
  --scale S                          exposure scale (log) of your paper: N fits the subject to it
  --paper FILE                       or the paper strip in FILE; of a notebook the paper that it
                                     plans for is taken unasked. --paper-strip NAME where FILE
                                     holds several, --density-basis net or gross
  --callier Q                        Callier factor of your enlarger, 1 to 2
  --callier-error S                  its standard error, counted in contrast and minutes
  --subject-range S                  stops from textured shadow to highlight; 7 unless given
  --flare F                          stops by which camera flare shortens the subject
  --shadow-density D                 net density of the exposure index; 0.10 unless given
  --span n                           plans N-n to N+n, n up to 3; 2 unless given
  --celsius T,T                      temperature of the plan in °C; 20 unless given; more than one
                                     repeats the plan
  --temperature-coefficient Q        factor of speed for 10 °C, where the strips do not tell it
  --family NAME                      automatic, first-order or log-linear
  --zones                            what each zone becomes at each plan, and on the paper its
                                     print density and lightness
  --bath, --bath-gain G              N+1 by development beside N and a bath: selenium, or one that
                                     reaches the gain G
  --dilution 1+n, --bath-celsius T   of the selenium bath; 1+1 and 20 °C unless given. Toned strips
                                     in FILE tell its gain and pace, else built-in numbers
  --drift                            control chart of repeated strips: those whose column
                                     "control" says yes, else those of the commonest time, in the
                                     order of "processed_on" (YYYY-MM-DD)
  --film NAME                        which film, where a notebook holds several
${READING_OPTIONS}  --json

Example: wedgebook times data/demo/film-strips.csv --target 0.58
Example: wedgebook times data/demo/film-strips.csv --scale 1.05 --zones --celsius 20,24
Example: wedgebook times data/demo/film-strips.csv --paper data/demo/paper.csv --bath --dilution 1+3
`,
  print: `wedgebook print --seconds T [options]

Exposure times at the enlarger. Changes are made in the order of this list; a number may be a
fraction, such as 1/3.

  --seconds T                        the time that serves now, or the first of a test strip
  --from-density D --to-density D    the same print tone where the negative is denser or thinner
  --from-magnification M --to-magnification M
                                     another size of print, same aperture
  --stops S                          more light (or less: -1/2)
  --burn S                           time to add for a part that needs S stops more
  --dodge S                          time to hold back for a part that needs S stops less
  --test-strip N --step S            times of N patches, S stops apart (1/3 unless given)
  --flash F --scale S                exposure scale S of a paper after a pre-flash of F, a part of
                                     the exposure that just darkens it
  --from-aperture N --to-aperture N  another f-number
  --dry-down P                       P % less for a print that dries darker (about 10, published)

With strips of your own paper: setting, seconds, split exposure, burning in.

  --paper FILE                       strips with their setting, or with soft_seconds, hard_seconds
  --shadow D --highlight D           densities of the negative at the two spots
  --print-shadow D --print-highlight D
                                     print densities wanted there; 90 % of the paper's black and
                                     just darker than its white unless given
  --light, --callier, --callier-error, --stain
                                     how the enlarger sees the negative, as with match;
  --base-fog D                       the factor acts above base + fog
  --reading-error S                  standard error of the two densities, for the intervals
  --setting S                        the setting to use; the nearest strip's unless given
  --strip-seconds T                  seconds that every strip was exposed for at its setting
  --middle N:D                       a third tone for a split: densities of negative and print
  --burn-soft S --burn-hard S        what S stops more (or less) of a light make of an area
  --areas sky:hard:1/2,pier:soft:-1/3
                                     areas burnt in or dodged, for the table
  --timer S                          what the timer can be set to; 0.1 s unless given
  --test-strip N --step S            with a split: a strip for soft light, then one for hard
  --density-basis net|gross          90 % of the net (default) or gross maximum density

With strips of your film: every zone of the subject through camera, film, bath, enlarger and paper
to the print, with densities, lightness and gradient. Give --paper too, or

  --film FILE, --film-strip NAME     the film; the strip, where the file holds several
  --shadow D --highlight D           densities of the negative; the highlight prints as
                                     --print-highlight D says
  --grade G | --paper-scale S        a paper of that grade (2 unless given) or exposure scale
  --shadow-zone Z                    zone of the negative's shadow; 3 unless given
  --subject-range S                  stops of the subject; 7 unless given
  --camera-flare F                   luminance ratio without flare over that with it; 1 for none
  --enlarger-flare P                 stray light, % of the light through clear film; 0 unless given
  --minutes M --dilution 1+n         the negative after a bath beside it as it is; also --celsius T,
                                     --stain-kept F (1 unless given), --treated FILE with strips to
                                     fit the bath to, --law, --response, as with treat
${NEGATIVE_HELP}${READING_OPTIONS}  --json

Example: wedgebook print --film data/demo/film-strips.csv --film-strip "8 min" --shadow 0.3 --highlight 1.1
Example: wedgebook print --seconds 12 --from-density 1.5 --to-density 1.9 --burn 1/2
Example: wedgebook print --seconds 4 --test-strip 10
`,
  convert: `wedgebook convert FILE --to csv|cgats|json [options]

Readings from CSV, CGATS.17 (ISO 28178) or a saved notebook to one of the three. Only a notebook
holds papers, negatives and a plan.

  --to csv|cgats|json
  -o FILE                            where to; standard output unless given; a file of another
                                     format is not replaced
  --separator comma|semicolon|tab    of CSV; comma unless given
  --decimal-comma                    in CSV with semicolons or tabs
  --title TEXT                       of the notebook
${EXPOSURE_HELP}  --json

Example: wedgebook convert data/demo/treatment.csv --to cgats
Example: wedgebook convert data/demo/notebook.json --to csv --separator semicolon --decimal-comma
`,
} as const;
