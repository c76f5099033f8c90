import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';

/** A name of a public door: where it is declared, and what is written above it. */
export interface PublicName {
  name: string;
  isType: boolean;
  file: string;
  /** The docstring, without stars; empty where there is none. */
  says: string;
}

/** Every name that a door of the package exports, followed through the doors of rooms to its declaration. */
export function publicNames(file: string): PublicName[] {
  const text = readFileSync(file, 'utf8');
  return [...text.matchAll(/^export (type )?(\{[^}]*\}|\*) from '(\.[^']+)\.js';/gm)].flatMap(
    ([, type, names, path]) => {
      const from = join(dirname(file), `${path}.ts`);
      if (names === '*') throw new Error(`${file} exports * from ${path}: a public name has to be written out`);
      const parts = names!
        .slice(1, -1)
        .split(',')
        .map((part) => part.trim());
      return parts
        .filter((part) => part !== '')
        .map((part) => {
          const [, ownType, inner, , outer] = /^(type )?(\w+)( as (\w+))?$/.exec(part) ?? [];
          const name = outer ?? inner!;
          return { ...declared(inner!, from), name, isType: type !== undefined || ownType !== undefined };
        });
    },
  );
}

/** Where a name is declared, from the file that exports it. */
function declared(name: string, file: string): { file: string; says: string } {
  if (!existsSync(file)) throw new Error(`${file} is not there`);
  const text = readFileSync(file, 'utf8');
  const at = new RegExp(
    `^export (declare |abstract )*(async )?(function|const|interface|type|class) ${name}\\b`,
    'm',
  ).exec(text);
  if (at) {
    const above = /\/\*\*((?:(?!\*\/)[\s\S])*)\*\/\s*$/.exec(text.slice(0, at.index));
    return { file, says: (above?.[1] ?? '').replace(/^\s*\* ?/gm, '').trim() };
  }
  const on = new RegExp(`^export (?:type )?\\{[^}]*\\b${name}\\b[^}]*\\} from '(\\.[^']+)\\.js';`, 'm').exec(text);
  if (!on) throw new Error(`${name} is not declared in ${file}`);
  return declared(name, join(dirname(file), `${on[1]}.ts`));
}
