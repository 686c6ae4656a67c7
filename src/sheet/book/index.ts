export { bookHtml, GROUPS, limitText, linesOf, matches } from './bookHtml.ts';
export { type BookEntry, bookEntry } from './entry.ts';
