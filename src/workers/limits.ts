/** How long a worker may say nothing, by kind of question, before it counts as stuck: many times what a slow machine takes. */
import { calls } from './contract.ts'

type CallName = keyof typeof calls

/**
 * In seconds without a word, progress included. Common practice, no source: about thirty times what each takes for a board of
 * twelve packages on a machine of two cores, and never under half a minute.
 */
const silenceS: Readonly<Record<CallName, number>> = {
  openBoard: 45,
  importLayout: 120,
  previewReport: 45,
  readReport: 60,
  assess: 45,
  nextSteps: 180,
  planRework: 300,
  heatFor: 180,
  whatIf: 300,
  rectifyPhoto: 60,
  huntShort: 60,
  playPractice: 60,
  askPractice: 180,
  endPractice: 300,
}

const isCallName = (name: string): name is CallName => name in silenceS

/** @returns seconds of silence after which a worker that has this question counts as stuck */
export const silenceLimitS = (name: string): number => (isCallName(name) ? silenceS[name] : silenceS.assess)

/** After these a worker knows a board: one that is started anew is told it again first. */
export const makesBoardKnown = (name: string): boolean =>
  name === calls.openBoard.name || name === calls.importLayout.name
