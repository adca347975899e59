/** One process of the scorecard: gets a task, then numbers of cards; answers each with its score as a line of JSON. */
import { sayFault } from '../../../src/base/index.ts'
import { type Asker, createAsker, type Mixture, scoreCard, simulateCard } from '../../../src/rehearsal/index.ts'
import { shippedBoard } from '../../support/read-board.ts'
import { boardOfCard, isJudgedWithLess, isWorkedInOtherOrders, mixtureOf, seedOfCard, type Task } from './task.ts'

export type ToWorker = { readonly task: Task } | { readonly number: number }
export type FromWorker = { readonly number: number; readonly line: string }

const askers = new Map<string, Asker>()
let running: { readonly task: Task; readonly mixture: Mixture } | undefined

function askerFor(board: string): Asker {
  const asker = askers.get(board) ?? createAsker(shippedBoard(board))
  askers.set(board, asker)
  return asker
}

/** Processor time, so that a busy machine does not count. */
function processorMilliseconds(): number {
  const { user, system } = process.cpuUsage()
  return (user + system) / 1000
}

async function score(number: number): Promise<string> {
  if (running === undefined) throw new Error('a card came before the task')
  const { task, mixture } = running
  const asker = askerFor(boardOfCard(task, number))
  const seed = seedOfCard(task, number)
  try {
    const card = simulateCard(asker.model, seed, mixture)
    const wish = {
      now: processorMilliseconds,
      variants: isJudgedWithLess(number),
      steps: !task.oneShot,
      orders: isWorkedInOtherOrders(number),
      remedies: number < task.remedies,
    }
    const scored = await scoreCard(card, asker, wish)
    if (scored.ok) return JSON.stringify({ number, ...scored.value })
    return JSON.stringify({ number, seed, failed: scored.faults.map(sayFault).join(' ') })
  } catch (error) {
    return JSON.stringify({ number, seed, failed: error instanceof Error ? (error.stack ?? error.message) : 'unknown' })
  }
}

process.on('message', (message: ToWorker) => {
  if ('task' in message) {
    running = { task: message.task, mixture: mixtureOf(message.task) }
    return
  }
  void score(message.number).then((line) => process.send?.({ number: message.number, line }))
})
