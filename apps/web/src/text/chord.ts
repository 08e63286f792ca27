/** Words of an average gradient by end points of the user's own. */
export const chord = {
  over: 'average gradient over a log exposure of my own',
  between: 'average gradient between two densities of my own',
  from: 'From net',
  to: 'To net',
  length: 'Over log exposure',
};
