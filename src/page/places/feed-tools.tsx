import { Tool } from '../parts/tool.js';
import { FeedAgainst } from './feed-against.js';
import type { PlaceProps } from './place.js';

/** Other questions about a feed: a recipe or advice held against it, how far the shelf reaches, what nearness costs. */
export const FeedTools = ({ feed, ...props }: PlaceProps & { feed: string }) => (
  <article>
    <h3>Other questions</h3>
    <Tool
      {...props}
      key={`assess ${feed}`}
      tool="assess"
      title="A recipe, or what others advise"
      fields={[{ key: 'recipe', name: 'Such as 1/2 tsp base in 1 US gal, or 125 ppm N, or half strength 20-10-20' }]}
      button="Hold it against this feed"
      wishes={({ recipe }) => ({ recipe, feed })}
    />
    <Tool
      {...props}
      key={`reach ${feed}`}
      tool="reach"
      title="How far this shelf reaches"
      fields={[]}
      button="Work it out, element by element"
      wishes={() => ({ feed })}
    />
    <Tool
      {...props}
      key={`prices ${feed}`}
      tool="prices"
      title="What it costs to insist"
      fields={[]}
      button="Price each limit and each jar"
      wishes={() => ({ feed })}
    />
    <FeedAgainst {...props} key={`against ${feed}`} feed={feed} />
    <Tool
      {...props}
      key={`frontier ${feed}`}
      tool="frontier"
      title="What nearness costs"
      fields={[]}
      button="Work out the curve"
      wishes={() => ({ feed })}
    />
  </article>
);
