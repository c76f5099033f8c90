import type * as z from 'zod';
import type { UnfedFeed } from '../feed/results.js';
import { restSays } from '../programme/programme.js';
import { schemaId } from './schema-id.js';
import type { unfedShape } from './blend-shapes.js';
import { facts, paragraph, type Sheet } from './sheet.js';

/** A feed that is none, in a sentence, with what stands behind it. */
export const unfedSheet = ({ feed, rest }: UnfedFeed): Sheet => ({
  title: `${feed.name}: do not feed`,
  blocks: [
    paragraph(sentence({ feed, rest })),
    facts(
      ['Plants', `${feed.plants} in ${feed.medium}, ${feed.phase}`],
      ['Why', `${rest.source} (${rest.evidence})`],
      ['Note', rest.notes || null],
    ),
  ],
});

/** The same as `blend --json` prints it. */
export const unfedJson = ({ feed, rest }: UnfedFeed): z.infer<typeof unfedShape> => ({
  schema: schemaId('blend') as 'velamen.blend/3',
  status: 'unfed',
  feed,
  says: sentence({ feed, rest }),
  rest,
});

const sentence = ({ rest }: Pick<UnfedFeed, 'feed' | 'rest'>): string =>
  `Do not feed. Water plainly ${restSays(rest)}.`;
