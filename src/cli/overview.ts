import { wrap } from '../report/wrap.js';
import type { Listed } from './commands.js';
import { commandLines, twoColumns } from './help-lines.js';

/** The list of commands. */
export function overview(commands: readonly Listed[], version: string): string {
  return [
    ...commandLines('velamen blend --plants phalaenopsis --medium sphagnum --shelf shelf.csv --mix "4 L"'),
    '      the cheapest feed for moth orchids in moss from what stands on your shelf',
    '',
    `velamen ${version} turns what fertilizer labels say into the cheapest proved feed for`,
    'potted epiphytes. Commands:',
    '',
    ...twoColumns(commands.map((command) => [command.name, command.summary])),
    '',
    ...wrap(
      '`velamen COMMAND -h` shows an example and the options of a command. A bench is a folder with bench.yaml (water, kit, feeds) and shelf.csv; --bench names it, the current folder is the default.',
      80,
    ),
    '',
    ...wrap(
      'Exit codes: 0 done; 1 a fault of ours; 2 something given is refused, with what is wrong and how to mend it; 3 what was asked cannot be met, and the result says why.',
      80,
    ),
    '',
  ].join('\n');
}
