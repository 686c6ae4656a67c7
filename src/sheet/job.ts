/** What the job line needs of the wiring sheet, for one import that comes late. */
export { jobLine } from '../advise/jobLine.ts';
export { contextOf } from './context.ts';
export { jobLists } from './jobLists.ts';
