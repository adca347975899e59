/// <reference types="w3c-web-serial" />
/** The ports at which a bench meter may hang: Web Serial, where the browser has it. */
import type { MeterLine } from '../../measure/index.ts'
import { lineOfStreams } from './streamLine.ts'

export interface OpenPort {
  readonly line: MeterLine
  readonly close: () => Promise<void>
}

export interface MeterPorts {
  /** Lets the user choose a port and opens it. Rejects with a `NotFoundError` where none was chosen. */
  readonly choose: (baudRate: number) => Promise<OpenPort>
}

export const baudRates = [1200, 2400, 4800, 9600, 19_200, 38_400, 57_600, 115_200] as const

/** Undefined where the browser has no Web Serial: then nothing of a meter is shown. */
export function webSerialPorts(): MeterPorts | undefined {
  if (typeof navigator === 'undefined' || !('serial' in navigator)) return undefined
  const { serial } = navigator
  return {
    choose: async (baudRate) => {
      const port = await serial.requestPort()
      await port.open({ baudRate })
      const { readable, writable } = port
      if (readable === null || writable === null) throw new Error('the port can’t be read and written')
      const line = lineOfStreams({ readable, writable })
      return {
        line,
        close: async () => {
          await line.close()
          await port.close()
        },
      }
    },
  }
}
