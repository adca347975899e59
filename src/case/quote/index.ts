/** The quote: a range from a plan's endings, what was spent, the limit, and a quote that was declined. */
export { declinedHandBack, isDeclined } from './declined.ts'
export { type LimitState, limitState, limitWords } from './limit.ts'
export { percentile, type QuoteRange, quoteRange, type QuoteTerms } from './range.ts'
export { answeredHow, type Quote, quoteAnswers, quoteSchema } from './schema.ts'
export { costOfStep, settingsOf, type Spent, spentSoFar } from './spent.ts'
export { waitingHours } from './waiting.ts'
export { answerWords, daysWords, rangeWords, worseDraft } from './words.ts'
