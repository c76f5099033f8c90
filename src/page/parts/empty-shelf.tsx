import { remember } from '../actions.js';
import type { PlaceProps } from '../places/place.js';

/** In the place of an answer, while there is nothing yet to mix from. */
export const EmptyShelf = ({ desk }: Pick<PlaceProps, 'desk'>) => (
  <article>
    <p>Nothing stands on the shelf yet, so there is nothing to mix from.</p>
    <button type="button" class="main" onClick={() => desk.change((s) => remember(s, 'place', 'shelf'))}>
      Put your first label on the shelf
    </button>
  </article>
);
