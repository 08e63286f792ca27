/** The strip of the notebook that a scan gives: its readings, and how they were come by. */
import type { Channel, Strip } from '@wedgebook/notebook';
import type { PictureChannel } from './decode/decoded-picture.ts';
import type { StepAnswer } from './scan-messages.ts';

const CHANNELS: Readonly<Record<PictureChannel, Channel>> = {
  mean: 'visual',
  red: 'red',
  green: 'green',
  blue: 'blue',
};

export interface StripOfScan {
  /** An unread strip with film, development and exposure set; see `newStrip`. */
  readonly unread: Strip;
  readonly name: string;
  readonly tabletId: string;
  readonly steps: readonly StepAnswer[];
  readonly channel: PictureChannel;
  readonly note: string;
}

/** A strip whose rows hold the densities read; a step without one stays unread. */
export function stripOfScan(input: StripOfScan): Strip {
  const { unread, name, tabletId, steps, channel, note } = input;
  return {
    ...unread,
    name,
    tabletId,
    channel: CHANNELS[channel],
    rows: steps.map(({ step, density }) => ({
      step,
      logExposure: null,
      // A ten-thousandth: finer than any scan, and what the worksheet shows.
      densities: [density === null ? null : Math.round(density * 1e4) / 1e4],
    })),
    note,
  };
}
