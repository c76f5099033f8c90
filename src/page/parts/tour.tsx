import { remember, replaced } from '../actions.js';
import { OWN } from '../example.js';
import { More } from './more.js';
import type { PlaceName } from '../places/names.js';
import type { PlaceProps } from '../places/place.js';

const STOPS: [PlaceName, string, string][] = [
  ['shelf', 'Shelf', 'your jars and bottles. Paste a label as it is printed and see what was understood.'],
  ['plants', 'Plants', 'what grows in what, how strong you feed, and what you water, measure and read with.'],
  ['feed', 'Feed', 'what to measure. Open any figure to see its sum; move a slider to see what else could be.'],
  ['sink', 'Sink', 'one step at a time, each with the reading your pen should show; and what to do when it does not.'],
  ['buy', 'Buy', 'whole packs for every feed, for the least money, the fewest jars, or the nearest to the aims.'],
  ['year', 'Year', 'what is fed when, what was mixed, what is left, and what it cost.'],
  ['files', 'Files', 'the real copy of all this. Write it out whenever it matters.'],
];

/** On the first visit: what is seen here, and where to begin. */
export function Tour({ state, desk }: PlaceProps) {
  if (!state.kept.isExample || state.remembered.tourDone) return null;
  const go = (place: PlaceName) => desk.change((s) => remember(s, 'place', place));
  return (
    <section class="card tour" aria-labelledby="tour">
      <h3 id="tour">A bench to try things on</h3>
      <p>
        Pleurothallids in moss, ten jars, rain water: invented, and it works. Change anything; nothing leaves this
        device.
      </p>
      <div class="row">
        <button
          type="button"
          class="main"
          onClick={() => desk.change((s) => remember(replaced(s, OWN, false, null), 'place', 'shelf'))}
        >
          Begin a bench of my own
        </button>
        <button type="button" onClick={() => desk.change((s) => remember(s, 'tourDone', true))}>
          Look around first
        </button>
      </div>
      <More title="What is where">
        {() => (
          <ul class="list">
            {STOPS.map(([place, word, says]) => (
              <li key={place}>
                <button type="button" class="link" onClick={() => go(place)}>
                  {word}
                </button>
                : {says}
              </li>
            ))}
          </ul>
        )}
      </More>
    </section>
  );
}
