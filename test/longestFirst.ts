import { BaseSequencer } from 'vitest/node';

type Files = Parameters<BaseSequencer['sort']>[0];

/** Where the tests stand that take longest: hundreds of random plans each. */
const LONGEST = '/test/properties/';

/** Where nothing is known of the last run, large files are taken first; the longest ones are small, and one begun last keeps every other core waiting. */
export class LongestFirst extends BaseSequencer {
  override async sort(files: Files): Promise<Files> {
    const rank = (file: Files[number]): number => (file.moduleId.includes(LONGEST) ? 0 : 1);
    return (await super.sort(files)).sort((a, b) => rank(a) - rank(b));
  }
}
