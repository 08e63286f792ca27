/** Words of what `treat` says about sureness and the next trial. */
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
