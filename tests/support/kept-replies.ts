/**
 * What workers answered, for all tests of one page: of one opened board the same question has the same answer (a law of the
 * cores, held in their tests), and hundreds of tests begin with the same case. Only questions that are plain data.
 */

/** Dear to answer, and nothing in the question or the answer that can't be copied: no file, no picture. */
const DEAR: ReadonlySet<string> = new Set([
  'assess',
  'nextSteps',
  'planRework',
  'heatFor',
  'whatIf',
  'playPractice',
  'askPractice',
  'endPractice',
])
const MOST_KEPT = 400

const answers = new Map<string, unknown>()

/** @returns the key of a question to a worker that has this board open; undefined where no answer is kept */
export function keyOfQuestion(board: string | undefined, name: string, input: unknown): string | undefined {
  if (board === undefined || !DEAR.has(name)) return undefined
  return `${name} ${plainText(input)} ${board}`
}

/** @returns a copy of what was answered; undefined where it was never asked, for every answer is a result */
export const keptReply = (key: string): unknown => structuredClone(answers.get(key))

/** Keeps a copy, in the place of the oldest where there are many. */
export function keepReply(key: string, value: unknown): void {
  const [oldest] = answers.keys()
  if (answers.size >= MOST_KEPT && oldest !== undefined) answers.delete(oldest)
  answers.set(key, structuredClone(value))
}

/** Everything that is in plain data, also what JSON leaves out. */
export function plainText(value: unknown): string {
  return JSON.stringify(value, (_, inner: unknown) => {
    if (inner instanceof Map) return { map: [...inner] }
    if (inner instanceof Set) return { set: [...inner] }
    if (ArrayBuffer.isView(inner))
      return {
        view: inner.constructor.name,
        of: Array.from(new Uint8Array(inner.buffer, inner.byteOffset, inner.byteLength)),
      }
    if (typeof inner === 'number' && !Number.isFinite(inner)) return { number: String(inner) }
    return inner
  })
}
