import { shippedCatalog } from '../desk/shipped-catalog.js';
import { nextQuestion } from '../desk/start/questions.js';
import type { Wishes } from '../desk/wishes.js';
import { problem, Refusal } from '../problem.js';
import { labelBlocks } from '../report/start.js';
import { renderText } from '../report/text.js';
import { wrap } from '../report/wrap.js';
import { type Io, textOptions } from './io.js';
import { problemText } from './refuse.js';

/**
 * Asks the person at the terminal what was not said, one question after the other; what an answer is refused for is told, and it is asked
 * again. @returns what is known then, and the texts of the labels that were shown
 * @throws Refusal where the person leaves
 */
export async function asked(
  given: Wishes,
  io: Io,
  ask: NonNullable<Io['ask']>,
): Promise<{ wishes: Wishes; told: Set<string> }> {
  const catalog = shippedCatalog();
  const answered = new Set(given.label === undefined ? [] : ['labels']);
  const told = new Set<string>();
  let wishes = given;
  for (
    let next = nextQuestion(wishes, answered, catalog);
    next !== null;
    next = nextQuestion(wishes, answered, catalog)
  ) {
    const { columns } = textOptions(io);
    const answer = await ask(`\n${wrap(next.says, columns).join('\n')}\n`, next.block === true);
    if (answer === null) throw new Refusal([LEFT]);
    const read = await next.take(answer);
    // what was answered stands right above: no option has to be named
    io.stderr(problemText((read.ok ? read.warnings : read.problems).map((found) => ({ ...found, where: {} }))));
    if (!read.ok) continue;
    answered.add(next.key);
    wishes = read.value.wishes;
    const { label } = read.value;
    if (label === undefined) continue;
    told.add(wishes.label!.at(-1)!);
    io.stderr(
      `\n${renderText({ title: 'As it was understood', blocks: labelBlocks(label) }, { ...textOptions(io), full: false })}\n`,
    );
  }
  return { wishes, told };
}

const LEFT = problem(
  'left',
  {},
  'the end of the answers',
  'an answer to each question',
  'Nothing was written. Begin again, or say it with options: velamen start -h.',
);
