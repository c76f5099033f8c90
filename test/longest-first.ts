import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** Files that take longest by their rooms; the rest follow by size, so that two workers end together on a clean clone too. */
const LONG = ['golden/', 'page/', 'blend/', 'purchase/', 'cli/', 'meter/', 'dose/', 'desk/', 'files/'];

const rank = ({ moduleId }: TestSpecification): number => {
  const path = moduleId.split('/test/').at(-1)!;
  const place = LONG.findIndex((room) => path.startsWith(room));
  return place < 0 ? LONG.length : place;
};

/** The order in which a run takes its files. */
export default class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    return (await super.sort(files)).sort((a, b) => rank(a) - rank(b));
  }
}
