/** How a drill file writes coordinates: its unit, its digits and which zeros it leaves out. */
import { type Digits, digitsRead } from '../digits.ts'
import { MM_PER_INCH } from '../units.ts'

export type Unit = 'mm' | 'inch'

/** Digits of a file that does not say them: common practice, no source. */
const USUAL: Readonly<Record<Unit, Digits>> = { mm: { whole: 3, decimals: 3 }, inch: { whole: 2, decimals: 4 } }

export class DrillNumbers {
  unit: Unit | undefined
  isIncremental = false
  private digits: Digits | undefined
  /** Undefined where the file does not say which zeros it keeps. */
  private keepsLeading: boolean | undefined
  /** Some number had fewer digits than the format, and nothing said at which end. */
  isGuessed = false

  /** `METRIC`, `INCH,LZ`, `METRIC,TZ,000.000`. @returns whether it is one */
  takeUnit(text: string): boolean {
    const [word = '', ...more] = text.split(',').map((part) => part.trim())
    if (word !== 'METRIC' && word !== 'INCH') return false
    this.unit = word === 'METRIC' ? 'mm' : 'inch'
    for (const part of more) {
      const digits = /^(0+)\.(0+)$/.exec(part)
      if (part === 'LZ' || part === 'TZ') this.keepsLeading = part === 'LZ'
      else if (digits !== null) this.take(digits[1]?.length ?? 0, digits[2]?.length ?? 0)
      else return false
    }
    return true
  }

  /** What comments of some writers say: `FORMAT={3:3/ absolute / metric / suppress leading zeros}`, `FILE_FORMAT=2:5`. */
  takeComment(text: string): void {
    const digits = /FORMAT\s*=\s*\{?(\d):(\d)/i.exec(text)
    if (digits !== null) this.take(Number(digits[1]), Number(digits[2]))
    const zeros = /(suppress|keep) (leading|trailing) zeros/i.exec(text)
    if (zeros !== null)
      this.keepsLeading = (zeros[1]?.toLowerCase() === 'keep') === (zeros[2]?.toLowerCase() === 'leading')
  }

  /** Millimetres of digits with or without a point; NaN without a unit. */
  length(text: string): number {
    const mm = this.mmPerUnit()
    if (text.includes('.')) return Number(text) * mm
    const digits = this.digits ?? USUAL[this.unit ?? 'mm']
    const isShort = text.replace(/^[+-]/, '').length < digits.whole + digits.decimals
    if (isShort && this.keepsLeading === undefined && Number(text) !== 0) this.isGuessed = true
    return digitsRead(text, digits, this.keepsLeading === true) * mm
  }

  /** Millimetres of a tool's diameter, which is always written out. */
  diameter(text: string): number {
    return Number(text) * this.mmPerUnit()
  }

  private mmPerUnit(): number {
    if (this.unit === undefined) return Number.NaN
    return this.unit === 'mm' ? 1 : MM_PER_INCH
  }

  private take(whole: number, decimals: number): void {
    this.digits = { whole, decimals }
  }
}
