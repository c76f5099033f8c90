import { endsOf } from '../files/index.js';
import type { Form } from './forms.js';

/**
 * An answer as it stands in a file: with a last line, in the manner of its form, by which velamen knows it again as its own. JSON and
 * calendars need none: their first lines name velamen.
 */
export function marked(content: string | Uint8Array, form: Form): string | Uint8Array {
  const mark = MARKS[form];
  if (mark === '') return content;
  return typeof content === 'string' ? `${content}${mark}` : Buffer.concat([content, Buffer.from(mark)]);
}

const SAID = 'written by velamen';

/** The last line of a file of ours. Readers of HTML, SVG and PDF skip it; in CSV it is a line like those that name the tables. */
const MARKS: Readonly<Record<Form, string>> = {
  txt: `\n(${SAID})\n`,
  csv: `\r\n# ${SAID}\r\n`,
  html: `<!-- ${SAID} -->\n`,
  svg: `<!-- ${SAID} -->\n`,
  pdf: `\n% ${SAID}\n`,
  json: '',
  ics: '',
};

/** True where the file carries the mark of its form. */
export function isOurs(path: string, form: Form, cwd: string): boolean {
  const { head, tail } = endsOf(path, cwd);
  const named = NAMED[form];
  return named ? named.test(head) : tail.endsWith(MARKS[form].trimStart());
}

/** How the first lines of such a file name velamen. */
const NAMED: Readonly<Partial<Record<Form, RegExp>>> = {
  json: /^\{\s*"(schema|\$id)": "velamen\./,
  ics: /^BEGIN:VCALENDAR\r?\nVERSION:2\.0\r?\nPRODID:-\/\/velamen\/\//,
};
