/** Lines of text over a pair of byte streams, as a serial port gives them: CR, LF or both end a line. */
import type { MeterLine } from '../../measure/index.ts'

export interface StreamLine extends MeterLine {
  readonly close: () => Promise<void>
}

export interface ByteStreams {
  readonly readable: ReadableStream<Uint8Array>
  readonly writable: WritableStream<Uint8Array>
}

const MOST_WAITING = 1000
/** Noise without an ending is no line; it is let go of. */
const LONGEST_LINE = 4096

export function lineOfStreams({ readable, writable }: ByteStreams): StreamLine {
  const reader = readable.getReader()
  const writer = writable.getWriter()
  const lines: string[] = []
  let waiting: (() => void) | undefined
  let gone: Error | undefined
  let rest = ''
  const take = (text: string): void => {
    const parts = (rest + text).split(/\r\n|\r|\n/)
    rest = (parts.pop() ?? '').slice(-LONGEST_LINE)
    for (const part of parts) if (part !== '') lines.push(part)
    lines.splice(0, Math.max(0, lines.length - MOST_WAITING))
    waiting?.()
  }
  const pump = async (): Promise<void> => {
    const decoder = new TextDecoder('utf-8', { fatal: false })
    try {
      for (;;) {
        const { done, value } = await reader.read()
        if (done) break
        take(decoder.decode(value, { stream: true }))
      }
      gone = new Error('the meter has closed the line')
    } catch (reason) {
      gone = reason instanceof Error ? reason : new Error(String(reason))
    }
    waiting?.()
  }
  void pump()
  return {
    send: async (text) => {
      if (gone !== undefined) throw gone
      await writer.write(new TextEncoder().encode(`${text}\n`))
    },
    receive: async (timeoutMs) => {
      if (lines.length === 0 && gone === undefined) {
        await new Promise<void>((resolve) => {
          const timer = setTimeout(resolve, timeoutMs)
          waiting = () => {
            if (lines.length === 0 && gone === undefined) return
            clearTimeout(timer)
            resolve()
          }
        })
        waiting = undefined
      }
      const line = lines.shift()
      if (line === undefined && gone !== undefined) throw gone
      return line
    },
    close: async () => {
      gone ??= new Error('the line is closed')
      await reader.cancel().catch(() => undefined)
      await writer.close().catch(() => undefined)
      reader.releaseLock()
      writer.releaseLock()
    },
  }
}
