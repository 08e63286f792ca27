/** The families of curves in words. */
import type { CurveFamily } from '@wedgebook/core';

export const families: Readonly<Record<CurveFamily, { name: string; about: string }>> = {
  'toe-shoulder': {
    name: 'toe and shoulder',
    about:
      'A toe, a straight part and, where the readings reach it, a shoulder. In simulated strips with known truth it gave the steadiest speed points and gradients, so it is used unless you choose another. Where a test says that the readings miss it, a smooth curve takes its place.',
  },
  'logistic-4': {
    name: 'logistic, 4 parameters',
    about:
      'A symmetrical S. It has no straight part of its own and bends where a film is still straight, so speed points come out poorly; kept as a second opinion.',
  },
  'logistic-5': {
    name: 'logistic, 5 parameters',
    about:
      'An S whose toe and shoulder may differ. Close to toe and shoulder on full-length strips.',
  },
  'hurter-driffield': {
    name: 'Hurter and Driffield, 1890',
    about:
      'The first formula of a plate, from the idea of one silver grain after another being struck.',
  },
  'monotone-smooth': {
    name: 'smooth curve',
    about:
      'A rising curve of no formula, as smooth as the readings allow. For two emulsions, masks and whatever else fits no family.',
  },
  'as-drawn': {
    name: 'as drawn through the readings',
    about:
      'Passes through every reading and repeats its error. Use it to draw a trusted table, not to measure contrast.',
  },
};
