import { remember } from '../actions.js';
import type { PlaceProps } from '../places/place.js';

interface WhichFeedProps extends Pick<PlaceProps, 'desk'> {
  feeds: readonly { name: string }[];
  /** The feed that is remembered; null: the first of the bench. */
  feed: string | null;
}

/** Which of the bench's feeds is meant; nothing where there is but one. */
export function WhichFeed({ desk, feeds, feed }: WhichFeedProps) {
  if (feeds.length < 2) return null;
  return (
    <label class="field">
      Which feed
      <select
        value={feed ?? feeds[0]!.name}
        onChange={(event) => desk.change((s) => remember(s, 'feed', event.currentTarget.value))}
      >
        {feeds.map(({ name }) => (
          <option key={name} value={name}>
            {name}
          </option>
        ))}
      </select>
    </label>
  );
}
