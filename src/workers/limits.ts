/** How long a worker may say nothing, by kind of question, before it counts as stuck: many times what a slow machine takes. */
import { calls } from './contract.ts'

type CallName = keyof typeof calls

/**
 * In seconds without a word, progress included. Chosen here, no source: suspects, checks, heat and plan of the demo on twelve
 * packages took 6 to 10 s each as whole commands, start included, on two cores with seven programs at work. A limit that is
 * too long costs waiting; one that is too short costs the answer.
 */
const silenceS: Readonly<Record<CallName, number>> = {
  openBoard: 60,
  readAddresses: 60,
  learnAddresses: 60,
  importLayout: 120,
  previewReport: 60,
  readReport: 60,
  assess: 90,
  nextSteps: 180,
  planRework: 300,
  heatFor: 180,
  whatIf: 300,
  rectifyPhoto: 60,
  openTrace: 60,
  straightenTrace: 60,
  snapTrace: 60,
  likesTrace: 120,
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
