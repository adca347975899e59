/** Latest wins: at most one task runs and one waits; a newer one takes the waiting one's place. For work under a drag. */
import { abortError } from './client.ts'

interface Waiting<Input, Output> {
  readonly input: Input
  resolve(value: Output): void
  reject(reason: unknown): void
}

/** @returns a function that runs `task`; a call that was overtaken while it waited rejects with an `AbortError` */
export function latestWins<Input, Output>(task: (input: Input) => Promise<Output>): (input: Input) => Promise<Output> {
  let running = false
  let waiting: Waiting<Input, Output> | undefined

  const start = (next: Waiting<Input, Output>): void => {
    running = true
    task(next.input)
      .then(
        (value) => next.resolve(value),
        (reason: unknown) => next.reject(reason),
      )
      .finally(() => {
        running = false
        const following = waiting
        waiting = undefined
        if (following !== undefined) start(following)
      })
  }

  return (input) =>
    new Promise((resolve, reject) => {
      const asked = { input, resolve, reject }
      if (!running) return start(asked)
      waiting?.reject(abortError())
      waiting = asked
    })
}
