/** Changes to the spot readings of one negative. */
import { InvalidArgumentError } from '@wedgebook/core';
import type { SpotCommand } from './command.ts';
import type { Negative } from './document.ts';
import { changed, indexOfId, insertedAt, removedAt, replacedAt } from './lists.ts';

/**
 * @returns the negative with the command carried out; the same object where nothing changes
 * @throws {InvalidArgumentError} if the spot is not there, or already is
 */
export function applySpotCommand(negative: Negative, command: SpotCommand): Negative {
  const { spots } = negative;
  switch (command.type) {
    case 'spot/add': {
      if (spots.some(({ id }) => id === command.spot.id)) {
        throw new InvalidArgumentError('applyCommand', 'spot.id', command.spot.id, 'a new id');
      }
      const index = command.index ?? spots.length;
      return changed(negative, { spots: insertedAt(spots, index, [command.spot]) });
    }
    case 'spot/change': {
      const at = indexOfId(spots, command.id, 'id');
      const changes = { ...command.changes, id: command.id };
      return changed(negative, { spots: replacedAt(spots, at, (spot) => changed(spot, changes)) });
    }
    case 'spot/remove':
      return changed(negative, { spots: removedAt(spots, indexOfId(spots, command.id, 'id'), 1) });
  }
}
