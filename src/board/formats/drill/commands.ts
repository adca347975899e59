/** The commands of a drill file, line by line: tools, holes, slots and milled paths, in mm, y up. */
import { bad, type Fault, good, type Point, type Result, say, showValue } from '../../../base/index.ts'
import type { PieceDrill } from '../pieces.ts'
import type { TextLine } from '../text.ts'
import { arcThrough } from './arc.ts'
import { DrillNumbers } from './numbers.ts'
import { Plating } from './plating.ts'

const MOST_FAULTS = 20
const MOST_HOLES = 500_000
const MOST_POINTS = 2_000_000
const FARTHEST_MM = 100_000
const MOST_DIAMETER_MM = 500
const MOST_REPEATS = 10_000

interface Tool {
  /** Undefined where the file gives none. */
  readonly diameterMm: number | undefined
  readonly isPlated: boolean | undefined
}

interface Slot {
  readonly path: Point[]
  readonly tool: Tool
}

/** Of the header and of the body: what says nothing of holes. */
const NOTHING_SAID =
  /^(?:FMAT,\d|VER,.*|ICI,OFF|R,.*|DETECT,.*|ATC,.*|BLKD,.*|TCST,.*|OM48.*|SBK.*|\/.*|M48|M95|G05|G40|G41|G42|G7|M47.*|M9[78].*|N\d+|F\d[\d.]*|S\d[\d.]*|H\d+|AFS.*|CCW.*|CP.*|UP.*|Z[+-]?[\d.]+)$/

export interface DrillRead {
  readonly drills: readonly PieceDrill[]
  readonly isGuessed: boolean
}

export class DrillReader {
  private readonly name: string
  private readonly numbers = new DrillNumbers()
  private readonly plating = new Plating()
  private readonly tools = new Map<number, Tool>()
  private readonly drills: PieceDrill[] = []
  private readonly faults: Fault[] = []
  private tool: Tool | undefined
  private at: Point = { x: 0, y: 0 }
  private zero: Point = { x: 0, y: 0 }
  private isRouting = false
  /** Moves without cutting. */
  private isRapid = false
  private cut: Slot | undefined
  private isEnded = false
  private points = 0
  private lastLine = 1
  private mode: 'line' | 'clockwise' | 'counter-clockwise' = 'line'

  constructor(name: string) {
    this.name = name
  }

  take({ line, text }: TextLine): void {
    const word = text.replace(/^\uFEFF/, '').trim()
    if (word === '' || this.isEnded || this.faults.length >= MOST_FAULTS) return
    this.lastLine = line
    if (word.startsWith(';') || word.startsWith('(')) {
      this.numbers.takeComment(word)
      this.plating.takeComment(word)
    } else this.takeCommand(word.replaceAll(/\s/g, '').toUpperCase(), line)
  }

  done(): Result<DrillRead> {
    this.endCut()
    if (!this.isEnded && this.faults.length === 0)
      this.faults.push({
        path: `${this.name}, line ${this.lastLine}`,
        found: say('the end of the file'),
        expected: say('the last command, M30'),
        todo: say('The file is cut off; fetch it again.'),
      })
    if (this.faults.length > 0) return bad(...this.faults)
    return good({ drills: this.drills, isGuessed: this.numbers.isGuessed })
  }

  private refuse(line: number, found: string, expected: string): void {
    if (this.faults.length < MOST_FAULTS) this.faults.push({ path: `${this.name}, line ${line}`, found, expected })
  }

  private takeCommand(word: string, line: number): void {
    if (/^M(?:30|00|0)$/.test(word)) {
      this.endCut()
      this.isEnded = true
    } else if (word === '%' || NOTHING_SAID.test(word)) {
      if (word === 'G05') this.leaveRouting()
    } else if (this.numbers.takeUnit(word) || this.takeModes(word)) return
    else if (/^T\d/.test(word)) this.takeTool(word, line)
    else if (/^R\d/.test(word)) this.repeat(word, line)
    else if (/^(?:M25|M01|M02|M08)/.test(word))
      this.refuse(
        line,
        say('a pattern that is repeated, {word}', { word: showValue(word) }),
        say('each hole by itself'),
      )
    else this.takePlaces(word, line)
  }

  private takeModes(word: string): boolean {
    if (word === 'M71' || word === 'M72') this.numbers.unit = word === 'M71' ? 'mm' : 'inch'
    else if (word === 'G90' || word === 'G91') this.numbers.isIncremental = word === 'G91'
    else if (word === 'ICI' || word === 'ICI,ON') this.numbers.isIncremental = true
    else if (word === 'M15') this.beginCut()
    else if (word === 'M16' || word === 'M17') this.endCut()
    else return false
    return true
  }

  /** `T1C0.3` defines a tool, `T1` takes it up, `T1C0.3F200S100` in the body does both. */
  private takeTool(word: string, line: number): void {
    const found = /^T0*(\d{1,6})((?:[A-Z][+-]?[\d.]+)*)$/.exec(word)
    if (found === null) return this.refuse(line, showValue(word), say('a tool such as T1C0.3'))
    this.endCut()
    const number = Number(found[1])
    const size = /C([\d.]+)/.exec(found[2] ?? '')?.[1]
    if (size !== undefined) {
      const diameterMm = this.numbers.diameter(size)
      if (Number.isNaN(diameterMm)) return this.refuse(line, showValue(word), say('the unit before it, METRIC or INCH'))
      if (diameterMm < 0 || diameterMm > MOST_DIAMETER_MM)
        return this.refuse(line, showValue(word), say('a diameter of at most {most} mm', { most: MOST_DIAMETER_MM }))
      this.tools.set(number, { diameterMm, isPlated: this.plating.ofTool() })
    } else if (!this.tools.has(number) && number !== 0)
      this.tools.set(number, { diameterMm: undefined, isPlated: this.plating.ofTool() })
    this.tool = this.tools.get(number)
  }

  /** `X1Y2`, `X1Y2G85X3Y4`, `G00X1Y2`, `G03X1Y2A0.5`, `G93X0Y0`. */
  private takePlaces(word: string, line: number): void {
    const found =
      /^(?:G(\d{1,2}))?((?:[XYAIJ][+-]?(?:\d+\.?\d*|\.\d+))*)(?:G85((?:[XY][+-]?(?:\d+\.?\d*|\.\d+))+))?$/.exec(word)
    const [, general, places = '', end] = found ?? []
    if (found === null || (places === '' && general === undefined))
      return this.refuse(line, showValue(word), say('a tool, a hole or a mode of a drill file'))
    const code = general === undefined ? undefined : Number(general)
    if (code === 93) {
      this.zero = { x: 0, y: 0 }
      this.zero = this.placeOf(places, this.zero, line) ?? this.zero
      return
    }
    if (code !== undefined && !this.takeGeneral(code))
      return this.refuse(line, showValue(word), say('a mode of a drill file'))
    if (places === '') return
    const from = this.at
    const to = this.placeOf(places, from, line)
    if (to === undefined) return
    this.at = to
    if (end !== undefined) return this.slot(to, end, line)
    if (!this.isRouting) this.put([to], line)
    else if (!this.isRapid) this.cutTo(from, to, places, line)
  }

  private takeGeneral(code: number): boolean {
    if (code === 5 || code === 81) this.leaveRouting()
    else if (code === 0) {
      this.endCut()
      this.isRouting = true
      this.isRapid = true
    } else if (code === 1 || code === 2 || code === 3) {
      this.mode = code === 1 ? 'line' : code === 2 ? 'clockwise' : 'counter-clockwise'
      this.isRapid = false
    } else return false
    return true
  }

  private leaveRouting(): void {
    this.endCut()
    this.isRouting = false
  }

  private slot(from: Point, end: string, line: number): void {
    const to = this.placeOf(end, from, line)
    if (to === undefined) return
    this.at = to
    this.put([from, to], line)
  }

  private beginCut(from = this.at): void {
    this.endCut()
    if (this.tool !== undefined) this.cut = { path: [from], tool: this.tool }
  }

  private cutTo(from: Point, to: Point, places: string, line: number): void {
    // some writers put the tool down without saying so
    if (this.cut === undefined) this.beginCut(from)
    const cut = this.cut
    if (cut === undefined)
      return this.refuse(line, say('a cut'), say('a tool with a diameter before it, such as T1C0.3'))
    const points =
      this.mode === 'line'
        ? [to]
        : arcThrough(from, to, {
            isClockwise: this.mode === 'clockwise',
            radiusMm: this.along('A', places),
            i: this.along('I', places),
            j: this.along('J', places),
          })
    if (!this.isFull(line, points.length)) cut.path.push(...points)
  }

  private endCut(): void {
    const { cut } = this
    this.cut = undefined
    if (cut !== undefined && cut.path.length > 1) this.put(cut.path, this.lastLine, cut.tool)
  }

  private repeat(word: string, line: number): void {
    const found = /^R(\d{1,6})((?:[XY][+-]?(?:\d+\.?\d*|\.\d+))+)$/.exec(word)
    const count = Number(found?.[1] ?? 0)
    if (found === null || count > MOST_REPEATS)
      return this.refuse(line, showValue(word), say('at most {most} repeats such as R5X0.1', { most: MOST_REPEATS }))
    const [x, y] = [this.along('X', found[2] ?? '') ?? 0, this.along('Y', found[2] ?? '') ?? 0]
    for (let i = 0; i < count; i++) {
      this.at = { x: this.at.x + x, y: this.at.y + y }
      if (!this.isPlace(this.at, line)) return
      this.put([this.at], line)
    }
  }

  /** Millimetres behind a letter; undefined where it is left out. */
  private along(letter: string, places: string): number | undefined {
    const text = new RegExp(`${letter}([+-]?[\\d.]+)`).exec(places)?.[1]
    return text === undefined ? undefined : this.numbers.length(text)
  }

  /** Where a word leads; a coordinate that is left out stays. */
  private placeOf(places: string, from: Point, line: number): Point | undefined {
    const { isIncremental } = this.numbers
    const [x, y] = [this.along('X', places), this.along('Y', places)]
    const to = {
      x: x === undefined ? from.x : x + (isIncremental ? from.x : this.zero.x),
      y: y === undefined ? from.y : y + (isIncremental ? from.y : this.zero.y),
    }
    return this.isPlace(to, line) ? to : undefined
  }

  private isPlace(to: Point, line: number): boolean {
    if (Number.isNaN(to.x) || Number.isNaN(to.y)) {
      this.refuse(line, say('coordinates'), say('the unit before them, METRIC or INCH'))
      return false
    }
    if (Math.max(Math.abs(to.x), Math.abs(to.y)) <= FARTHEST_MM) return true
    this.refuse(
      line,
      say('a place farther away than any board'),
      say('within {farthestMm} mm', { farthestMm: FARTHEST_MM }),
    )
    return false
  }

  private put(path: readonly Point[], line: number, tool = this.tool): void {
    if (this.isFull(line, path.length)) return
    if (tool?.diameterMm === undefined)
      return this.refuse(line, say('a hole'), say('a tool with a diameter before it, such as T1C0.3'))
    if (!this.plating.endsInside) this.drills.push({ path, diameterMm: tool.diameterMm, isPlated: tool.isPlated })
  }

  private isFull(line: number, points: number): boolean {
    this.points += points
    if (this.points <= MOST_POINTS && this.drills.length < MOST_HOLES) return false
    this.refuse(line, say('more holes'), say('at most {most} holes', { most: MOST_HOLES }))
    return true
  }
}
