import { useState } from 'preact/hooks';
import { withDid, withoutDid } from '../batch.js';
import type { BatchProps } from './sink-batch.js';

/** What may have gone otherwise with a product: the words of the choice, and the clause that `meter --did` reads. */
const WAYS: readonly [word: string, clause: (id: string) => string][] = [
  ['forgotten', (id) => `${id} forgotten`],
  ['taken twice', (id) => `${id} twice`],
  ['only half of it', (id) => `half of ${id}`],
  ['not sure whether it went in', (id) => `not sure whether ${id} went in`],
];
const OTHER = 'another amount';
const WATER = 'the water';
const WATER_WAYS = ['not topped up', 'filled to another mark'] as const;

/** "What happened?": told by choices or in words; each is judged at once, with the readings there are. */
export function Happened({ batch, change }: BatchProps) {
  const { products } = batch.sheet;
  const [which, setWhich] = useState(products[0]?.id ?? WATER);
  const [way, setWay] = useState<string>(WAYS[0]![0]);
  const [amount, setAmount] = useState('');
  const [words, setWords] = useState('');
  const isWater = which === WATER;
  const name = products.find(({ id }) => id === which)?.name ?? which;
  const needsAmount = way === OTHER || way === WATER_WAYS[1];
  const clause = isWater
    ? way === WATER_WAYS[1]
      ? `filled to ${amount}`
      : WATER_WAYS[0]
    : way === OTHER
      ? `${amount} of ${which}`
      : WAYS.find(([word]) => word === way)?.[1](which);
  const told = isWater
    ? needsAmount
      ? `filled to ${amount}`
      : WATER_WAYS[0]
    : `${name}: ${needsAmount ? amount : way}`;
  const choose = (id: string): void => {
    setWhich(id);
    setWay(id === WATER ? WATER_WAYS[0] : WAYS[0]![0]);
  };
  const add = (said: string, shown: string): void => change((b) => withDid(b, said, shown));
  return (
    <article>
      {batch.did.length > 0 && (
        <ul class="did">
          {batch.did.map(({ clause: said, words: shown }) => (
            <li key={said}>
              <span>{shown}</span>
              <button type="button" onClick={() => change((b) => withoutDid(b, said))}>
                Not so
              </button>
            </li>
          ))}
        </ul>
      )}
      <details>
        <summary>What happened?</summary>
        <label class="field">
          With which
          <select value={which} onChange={(event) => choose(event.currentTarget.value)}>
            {products.map(({ id, name: product }) => (
              <option key={id} value={id}>
                {product}
              </option>
            ))}
            <option value={WATER}>{WATER}</option>
          </select>
        </label>
        <fieldset class="ways">
          <legend>What</legend>
          {(isWater ? WATER_WAYS : [...WAYS.map(([word]) => word), OTHER]).map((word) => (
            <label key={word}>
              <input type="radio" name="happened" checked={way === word} onChange={() => setWay(word)} />
              <span>{word}</span>
            </label>
          ))}
        </fieldset>
        <form
          onSubmit={(event) => {
            event.preventDefault();
            if (clause !== undefined && (!needsAmount || amount.trim() !== '')) add(clause, told);
          }}
        >
          {needsAmount && (
            <label class="field">
              {isWater ? 'Filled to, such as 5 L' : 'What went in, such as 0.8 g or 1/2 tsp'}
              <input
                type="text"
                autocomplete="off"
                required
                value={amount}
                onInput={(event) => setAmount(event.currentTarget.value)}
              />
            </label>
          )}
          <button type="submit">Say so</button>
        </form>
        <form
          onSubmit={(event) => {
            event.preventDefault();
            if (words.trim() === '') return;
            add(words.trim(), words.trim());
            setWords('');
          }}
        >
          <label class="field">
            Or in your own words
            <input
              type="text"
              autocomplete="off"
              value={words}
              onInput={(event) => setWords(event.currentTarget.value)}
            />
          </label>
          <button type="submit">Say this</button>
        </form>
      </details>
    </article>
  );
}
