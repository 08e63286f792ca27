/** Words of what `treat` says besides the plan itself. */
export const SURENESS = {
  plausible: (low: string, high: string | null) =>
    high === null
      ? `the time may well lie anywhere from ${low} up: the bath may not get there`
      : `the time may well lie between ${low} and ${high}`,
  sensitivity: (minute: string, degree: string) =>
    `one minute more changes the gain by ${minute}, one degree by ${degree}`,
  nextTrial: 'The scrap that would tell most next',
  trial: (bath: string, now: string, after: string) =>
    `${bath}: the standard error of the gain at this bath would fall from ${now} to ${after}`,
} as const;

export const WAYS = {
  title: (order: string) => `Ways out, ordered by ${order.replaceAll('-', ' ')}`,
  columns: [
    'way',
    'printing range, log10',
    'calls for',
    'highlight separation',
    'shadow separation',
    'exposure, stops',
    'grain, negative / print',
  ],
  loses: 'Lost',
  hazards: 'Hazards',
  assumptions:
    'Separation is print density for a small step of density in the negative as it is now; stops are longer exposure for the same highlight tone on papers of one speed, for split exposure against the same paper without filters; grain takes fluctuations of density to grow with the local gain, 1 being the first way. Papers are generated curves, the variable-contrast one a built-in layer model.',
} as const;

export const BATHS = {
  title: 'Working baths of the notebook',
  taken: (grams: string) => `the films have bound about ${grams} g of selenium`,
  unknown: 'how much is left cannot be told without the selenium in the concentrate',
  left: (usual: string, low: string, high: string) => `${usual} % is left (${low} to ${high} %)`,
  slower: (factor: string) => `the same dose takes ×${factor} the minutes`,
  spent: 'nothing is left',
  senseless: 'a figure of its log is out of range',
  assumptions:
    'Reckoned from area, mean net density and 1.3 g of silver per m² at density 1 (1 to 3 published), all of it turned into silver selenide; carry-over and ageing are not reckoned, so a bath is spent sooner. Signs of a spent bath (common practice, unverified): a trial piece gains less in the same time, a deposit in the bottle, no smell of ammonia where there was one.',
} as const;

export const TOLD = {
  title: 'What your trials tell apart',
} as const;
