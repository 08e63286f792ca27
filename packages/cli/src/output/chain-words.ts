/** Words of the tone chain: the rest of the command's stand in `text.ts`. */

/** The tone chain, from subject to print. */
export const CHAIN_WORDS = {
  film: ['film strip', (zone: string) => `the negative's shadow placed on zone ${zone}`],
  subject: ['subject range', 'stops'],
  cameraFlare: ['camera flare', 'luminance ratio without it over that with it'],
  light: ['Callier factor', 'of the enlarger'],
  enlargerFlare: ['stray light', 'of the enlarger, against the light through clear film'],
  paper: ['paper', (scale: string) => `exposure scale ${scale} log10`],
  held: ['held', 'print density of the highlight'],
  untreated: 'Zones in the print',
  treated: 'Zones in the print, after the bath',
  columns: ['zone', 'negative', 'as printed', 'print', 'L*', 'gradient'],
  useful: (stops: string) => `${stops} stops of the subject part in the print`,
  extrapolated: '* outside the readings of the film strip',
  errors:
    'Errors are those of both curves, with the shadow of the negative and the highlight of the print held; those of the bath are not counted. The gradient is print density by log luminance, of the whole chain.',
} as const;
