/** Entry of the command on Node. */
import { nodeIo } from './node-io.ts';
import { run } from './run.ts';

// A reader that has seen enough, such as `head`, closes the pipe: that is no failure.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
});

process.exitCode = await run(process.argv.slice(2), nodeIo());
