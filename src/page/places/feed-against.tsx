import { useState } from 'preact/hooks';
import { Blocks } from '../parts/blocks.js';
import { More } from '../parts/more.js';
import { PickTable } from '../parts/pick-table.js';
import { Problems } from '../parts/problems.js';
import { useAnswer } from '../parts/use-answer.js';
import { Waiting } from '../parts/waiting.js';
import type { Table } from '../table.js';
import type { PlaceProps } from './place.js';

/** How far another shelf reaches for the same feed, beside this one. */
export const FeedAgainst = (props: PlaceProps & { feed: string }) => (
  <More title="Another shelf beside this one">{() => <Against {...props} />}</More>
);

function Against({ feed, ...props }: PlaceProps & { feed: string }) {
  const { texts } = props.state.kept;
  const [other, setOther] = useState<Table | null>(null);
  const channel = 'tool against';
  const asked = other && { texts, tool: 'against' as const, wishes: { feed }, beside: other };
  const answer = useAnswer(props, channel, 'tool', asked);
  const isOurs = asked !== null && answer.isCurrent;
  const view = isOurs && answer.status === 'answered' ? answer.answer : undefined;
  const all = view ? view.warnings : isOurs ? answer.problems : [];
  const [its, rest] = [true, false].map((own) => all.filter(({ where }) => (where.file === other?.name) === own));
  return (
    <>
      <PickTable
        name="The other shelf, as a CSV file"
        hint="With the columns of shelf.csv, such as a neighbour’s; pick it, or drop it onto the button"
        as="other"
        picked={other}
        problems={its!}
        onPick={setOther}
      />
      {asked !== null && !view && (
        <Waiting answer={{ ...answer, problems: rest! }} desk={props.desk} channel={channel} />
      )}
      {view && (
        <div aria-live="polite">
          <p class={view.met ? 'answer' : 'answer off'}>{view.title}</p>
          <Problems problems={rest!} />
          <Blocks blocks={view.blocks} />
        </div>
      )}
    </>
  );
}
