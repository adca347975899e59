/** The line to a meter, and how one question over it is asked: leftovers, echoes, timeouts. */

export interface MeterLine {
  /** Sends one line; the line adds its own ending. Rejects where the line is gone. */
  readonly send: (text: string) => Promise<void>
  /** The next whole line without its ending; undefined where none came in time. Rejects where the line is gone. */
  readonly receive: (timeoutMs: number) => Promise<string | undefined>
}

/** Takes what is left over from before, so that no old answer is taken for a new one. */
export async function clearLine(line: MeterLine): Promise<void> {
  for (let i = 0; i < MOST_LEFT_OVER; i++) {
    if ((await line.receive(LEFT_OVER_MS)) === undefined) return
  }
}

const MOST_LEFT_OVER = 50
const LEFT_OVER_MS = 20

/** @returns the first line that is neither empty nor the question sent back; undefined where none came in time */
export async function ask(line: MeterLine, question: string, timeoutMs: number): Promise<string | undefined> {
  await line.send(question)
  for (let i = 0; i < MOST_SKIPPED; i++) {
    const reply = await line.receive(timeoutMs)
    if (reply === undefined) return undefined
    const plain = tidied(reply)
    if (plain !== '' && plain.toUpperCase() !== question.toUpperCase()) return plain
  }
  return undefined
}

const MOST_SKIPPED = 5

/** Without control characters, such as a CR before the LF, and without the prompt that some send. */
const tidied = (text: string): string =>
  text
    .replaceAll(/\p{Cc}/gu, '')
    .trim()
    .replace(/^>\s*/, '')
