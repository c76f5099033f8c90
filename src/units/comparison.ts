import { nearest } from '../problem.js';
import type { Form } from './linear.js';
import { NotLinear } from './not-linear.js';

/** Two neighbouring sides of a comparison and the sign between them, as written. */
export interface Compared {
  left: Form;
  sign: string;
  right: Form;
}

/**
 * Reads `Ca / Mg >= 3` or the chain `2 <= Ca/Mg <= 5`: numbers, allowed names, + − * / %, brackets, and a product without a sign (`3Mg`), which
 * binds closer than * and / but for a fraction of two numbers (`1/2 N`). That is how mathjs reads them too, which the tests hold this
 * against; it is too slow to load for a few rules.
 * @throws NotLinear at the first place that is none of these
 */
export function readComparison(text: string, allowed: ReadonlySet<string>): Compared[] {
  const reader = new Reader(text, allowed);
  const top = reader.sides();
  reader.end();
  if (top.signs.length === 0) throw noComparison(text);
  return top.signs.map((sign, i) => ({ left: top.forms[i]!, sign, right: top.forms[i + 1]! }));
}

/** What is compared, and the signs between; of a bare sum, no signs. */
interface Sides {
  forms: Form[];
  signs: string[];
}

/** A form as it was written: what a number or a bracket is decides what may stand beside it. */
interface Written {
  form: Form;
  as: 'number' | 'signed number' | 'worked out' | 'other';
  percent?: true;
}

interface Token {
  kind: 'number' | 'name' | 'sign' | 'end';
  text: string;
  at: number;
}

const TOKEN =
  /[ \t\u00A0]*(?:((?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)|([a-zA-Z_$À-ʯͰ-Ͽ℀-⅏][\w$À-ʯͰ-Ͽ℀-⅏]*)|([<>=!]=|.)|$)/suy;
const COMPARING: ReadonlySet<string> = new Set(['<', '<=', '>', '>=', '==', '!=']);

class Reader {
  private readonly tokens: Token[];
  private next = 0;
  constructor(
    private readonly text: string,
    private readonly allowed: ReadonlySet<string>,
  ) {
    this.tokens = tokensOf(text);
  }

  sides(): Sides {
    const first = this.sum();
    const read: Sides = 'signs' in first ? first : { forms: [first.form], signs: [] };
    while (COMPARING.has(this.token.text)) {
      if ('signs' in first) throw this.notLinear();
      read.signs.push(this.take().text);
      read.forms.push(this.plain(this.sum()));
    }
    return read;
  }

  /** @throws NotLinear where anything is left */
  end(): void {
    if (this.token.kind !== 'end') throw this.stuck();
  }

  private sum(): Written | Sides {
    let left = this.product();
    while (this.is('+') || this.is('-')) {
      const kind = this.take().text === '+' ? 'plus' : 'minus';
      const whole = this.plain(left);
      const right = this.product();
      const part = this.plain(right);
      // N + 10% is N and a tenth of it
      const more: Form = 'percent' in right ? { kind: 'times', left: whole, right: part } : part;
      left = { form: { kind, left: whole, right: more }, as: 'worked out' };
    }
    return left;
  }

  private product(): Written | Sides {
    let left = this.unsigned();
    while (this.is('*') || this.is('/')) {
      const kind = this.take().text === '*' ? 'times' : 'over';
      left = this.worked(kind, left, this.unsigned());
    }
    return left;
  }

  /** A product without a sign. */
  private unsigned(): Written | Sides {
    let left = this.fraction();
    for (let last = left; this.mayFollow(last); ) {
      last = this.fraction();
      left = this.worked('times', left, last);
    }
    return left;
  }

  private mayFollow(last: Written | Sides): boolean {
    if (this.token.kind === 'number') return 'signs' in last || last.as === 'other';
    return this.token.kind === 'name' || this.is('(');
  }

  /** A number over a number before a name or a bracket is one factor: 1/2 N. */
  private fraction(): Written | Sides {
    let left = this.percentage();
    for (let last = left; 'as' in last && /number/.test(last.as) && this.is('/'); ) {
      const [over, after] = [this.tokens[this.next + 1]!, this.tokens[this.next + 2]];
      if (over.kind !== 'number' || !(after?.kind === 'name' || after?.text === '(')) break;
      this.take();
      last = this.percentage();
      left = this.worked('over', left, last);
    }
    return left;
  }

  private percentage(): Written | Sides {
    const whole = this.signed();
    if (!this.is('%')) return whole;
    const after = this.tokens[this.next + 1]!;
    // between two amounts it would be the remainder of a division
    if (after.kind === 'number' || after.kind === 'name' || /^[(+-]$/.test(after.text)) throw this.notLinear();
    this.take();
    return { ...this.worked('over', whole, { form: { kind: 'number', value: 100 }, as: 'number' }), percent: true };
  }

  private signed(): Written | Sides {
    if (!this.is('-') && !this.is('+')) return this.single();
    const minus = this.take().text === '-';
    const inner = this.signed();
    const form = this.plain(inner);
    const as = 'as' in inner && inner.as === 'number' ? 'signed number' : 'worked out';
    return { form: minus ? { kind: 'times', left: { kind: 'number', value: -1 }, right: form } : form, as };
  }

  private single(): Written | Sides {
    const { kind, text } = this.token;
    if (kind === 'number') {
      this.take();
      return { form: { kind: 'number', value: finite(Number(text)) }, as: 'number' };
    }
    if (kind === 'name') return { form: this.named(), as: 'other' };
    if (!this.is('(')) throw this.stuck();
    this.take();
    const inner = this.sides();
    if (!this.is(')')) throw this.stuck();
    this.take();
    return inner.signs.length > 0 ? inner : { form: inner.forms[0]!, as: 'other' };
  }

  private named(): Form {
    const { text: name } = this.take();
    if (this.is('(') || this.is('.')) throw notUnderstood(name + this.token.text);
    if (WORDS.has(name)) throw noComparison(this.text);
    if (name === 'Infinity' || name === 'NaN') finite(Number(name));
    return { kind: 'name', name: known(name, this.allowed) };
  }

  private worked(kind: 'times' | 'over', left: Written | Sides, right: Written | Sides): Written {
    return { form: { kind, left: this.plain(left), right: this.plain(right) }, as: 'worked out' };
  }

  /** A comparison within a sum is none that is linear. */
  private plain(read: Written | Sides): Form {
    if ('form' in read) return read.form;
    throw this.notLinear();
  }

  private get token(): Token {
    return this.tokens[this.next]!;
  }

  private is(sign: string): boolean {
    return this.token.kind === 'sign' && this.token.text === sign;
  }

  private take(): Token {
    const taken = this.token;
    this.next += 1;
    return taken;
  }

  private notLinear(): NotLinear {
    const fix = 'Use + - * / with numbers only; powers and logic are not linear.';
    return new NotLinear(`"${this.text}"`, 'a linear limit', fix);
  }

  /** What stands here cannot stand here. */
  private stuck(): NotLinear {
    const { text, at } = this.token;
    if (at > 0 && /^[\^!%&|~]$/.test(text)) return this.notLinear();
    if (at > 0 && /^[:?.,]$/.test(text)) return notUnderstood(this.text.slice(0, 60));
    const rest = this.text.slice(at, at + 12).trim();
    return new NotLinear(
      rest === '' ? `"${this.text}"` : `"${rest}" at character ${at + 1}`,
      'plain maths',
      'Write names, numbers, + - * / and one of <= >= =, such as NH4 <= 0.1 * N.',
    );
  }
}

/** Words that join limits. */
const WORDS: ReadonlySet<string> = new Set(['and', 'or', 'xor', 'not']);

function tokensOf(text: string): Token[] {
  const tokens: Token[] = [];
  const kinds = ['number', 'name', 'sign'] as const;
  for (TOKEN.lastIndex = 0; ; ) {
    const found = TOKEN.exec(text)!;
    const kind = kinds.find((_, i) => found[i + 1] !== undefined) ?? 'end';
    const written = found[kinds.indexOf(kind as 'sign') + 1] ?? '';
    tokens.push({
      kind,
      text: kind === 'end' ? '' : written,
      at: TOKEN.lastIndex - (kind === 'end' ? 0 : written.length),
    });
    if (kind === 'end') return tokens;
  }
}

const noComparison = (text: string): NotLinear =>
  new NotLinear(`"${text}"`, 'a comparison', 'Add <=, >= or = and what to compare with, such as NH4 <= 0.1 * N.');

const notUnderstood = (text: string): NotLinear =>
  new NotLinear(
    `"${text}"`,
    'names, numbers and + - * /',
    'Functions, lists and conditions are not understood in a rule.',
  );

function known(name: string, allowed: ReadonlySet<string>): string {
  if (allowed.has(name)) return name;
  const guesses = nearest(name, allowed);
  throw new NotLinear(
    `"${name}"`,
    'a name that rules know',
    guesses.length > 0 ? `Did you mean ${guesses.join(' or ')}?` : `Known names: ${[...allowed].join(' ')}.`,
  );
}

function finite(value: number): number {
  if (Number.isFinite(value)) return value;
  throw new NotLinear(`"${String(value)}"`, 'a finite number', 'Write a plain number.');
}
