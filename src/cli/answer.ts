import { type Problem, problem, Refusal } from '../problem.js';
import type { Given, Outcome } from './command.js';
import { IN_A_FILE, type Io, textOptions } from './io.js';
import { problemText } from './refuse.js';

/** Prints what was found, and writes the files that were asked for: all of them, or none. */
export async function answer(
  { exit, warnings, forms, afterwards }: Outcome,
  { outputs, words }: Given,
  io: Io,
): Promise<Outcome['exit']> {
  const notes: Problem[] = [...warnings];
  const full = words.full === true;
  if (outputs.files.length > 0) {
    const { isGrowers, targetProblems } = await import('./targets.js');
    const { marked } = await import('./our-mark.js');
    const { writeFiles } = await import('../files/index.js');
    const files = [];
    for (const { path, form } of outputs.files) {
      const content = await forms[form]?.({ ...IN_A_FILE, full });
      if (content === undefined) notes.push(notMade(path));
      else files.push({ path, form, content: marked(content, form) });
    }
    const unable = targetProblems(outputs, io);
    if (unable.length > 0) throw new Refusal(unable);
    writeFiles(
      files.map(({ path, form, content }) => ({ path, content, keep: isGrowers(path, form, io) })),
      io.cwd,
    );
  }
  io.stderr(problemText(notes));
  // a form that cannot be had of what was found is answered with the reason, in words
  const text = await (forms[outputs.print] ?? forms.txt!)({ ...textOptions(io), full });
  io.stdout(String(text));
  if (afterwards) io.stderr(problemText(await afterwards()));
  return exit;
}

const notMade = (path: string): Problem => ({
  ...problem('not-written', { file: path }, 'nothing to write into it', 'an answer of that form', 'See below why.'),
  severity: 'warning',
});
