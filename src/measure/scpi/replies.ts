/** Replies of a meter to questions about itself: who it is, what went wrong. */
import { say } from '../../base/index.ts'

export interface MeterIdentity {
  readonly maker: string
  readonly model: string
  readonly serial: string | undefined
  readonly firmware: string | undefined
  /** For the record: maker and model, with the serial number where it has one. */
  readonly words: string
}

/**
 * `*IDN?` answers with four fields: maker, model, serial, firmware (IEEE 488.2, 10.14); `0` stands for unknown. Taken with
 * fewer fields too; more belong to the firmware.
 * @returns undefined where there is no text or it is a bare number, left over from another question
 */
export function readIdentity(reply: string): MeterIdentity | undefined {
  const fields = reply.split(',').map((field) => field.trim().replace(/^"|"$/g, '').trim())
  const [maker = '', model = '', serial = '', ...firmware] = fields
  if (!/[a-z]/i.test(maker + model) || /^[+-]?[\d.]+e[+-]?\d+$/i.test(maker)) return undefined
  const known = (field: string): string | undefined => (field === '' || field === '0' ? undefined : field)
  const number = known(serial)
  const name = [maker, model].filter((field) => known(field) !== undefined).join(' ')
  return {
    maker,
    model,
    serial: number,
    firmware: known(firmware.join(', ')),
    words: number === undefined ? name : say('{name}, serial {number}', { name, number }),
  }
}

export interface MeterTrouble {
  readonly number: number
  readonly text: string
}

/**
 * `SYST:ERR?` answers `<number>,"<text>"`; some leave the quotes or the text out, or put a plus before 0.
 * @returns `none` for number 0; undefined where the reply is no such answer
 */
export function readTrouble(reply: string): MeterTrouble | 'none' | undefined {
  const [, digits, rest = ''] = /^\s*([+-]?\d{1,5})\s*(?:,(.*))?$/.exec(reply) ?? []
  if (digits === undefined) return undefined
  const number = Number(digits)
  const text = rest
    .trim()
    .replace(/^["']|["']$/g, '')
    .trim()
  return number === 0 ? 'none' : { number, text: text === '' ? say('no text') : text }
}
