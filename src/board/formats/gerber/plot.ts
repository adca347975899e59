/**
 * What a Gerber file draws: flashes, lines and regions with their attributes, in mm, y up. Source: Ucamco, "The Gerber Layer
 * Format Specification", revision 2024.05, 3, 4 and 8 (deprecated commands).
 */
import { bad, type Fault, good, type Point, type Result, showValue, say } from '../../../base/index.ts'
import { MM_PER_INCH } from '../units.ts'
import { arcOf, type Mode } from './arcs.ts'
import { type Attributes, AttributeStore } from './attributes.ts'
import { type Macro, macroShape, standardShape } from './macros.ts'
import { type Coordinates, NumberFormat, operationIn } from './numbers.ts'
import type { Aperture, Flash, Plot, Region } from './objects.ts'
import { forEachWord, type GerberWord } from './words.ts'

const MOST_FAULTS = 20
const MOST_OBJECTS = 2_000_000
const MOST_POINTS = 10_000_000
/** Statements of macros that are gone through, counted for each aperture. */
const MOST_MACRO_WORK = 300_000
const FARTHEST_MM = 100_000

/** @returns faults by line for commands that can't be read, and for a file without its last command */
export function plotOf(name: string, text: string): Result<Plot> {
  const plotter = new Plotter(name)
  const broken = forEachWord(text, {
    plain: (word) => plotter.takePlain(word),
    extended: (words) => plotter.takeExtended(words),
  })
  return plotter.done(broken)
}

class Plotter {
  private readonly attributes = new AttributeStore()
  private readonly apertures = new Map<number, Aperture>()
  private readonly macros = new Map<string, Macro>()
  private readonly flashes: Flash[] = []
  private readonly drawn: { points: Point[]; aperture: Aperture; attributes: Attributes }[] = []
  private readonly regions: Region[] = []
  private readonly faults: Fault[] = []
  private readonly name: string
  private readonly numbers = new NumberFormat()
  private mode: Mode = 'line'
  private isSingleQuadrant = false
  private operation = 0
  private at: Point = { x: 0, y: 0 }
  private aperture: Aperture | undefined
  private contour: Point[] | undefined
  private isDrawing = false
  private isEnded = false
  private isSkipped = false
  /** What is drawn takes away; of an edge that is a cut-out, of copper it is nothing. */
  private isClear = false
  private repeats = false
  private points = 0
  private macroWork = 0
  private lastLine = 1

  constructor(name: string) {
    this.name = name
  }

  takePlain({ text, line }: GerberWord): void {
    this.lastLine = line
    if (this.isEnded || this.faults.length >= MOST_FAULTS) return
    if (/^G0?4/.test(text)) {
      // attributes of files that older readers must stand
      const hidden = /^G0?4\s*#@!\s*(T[FAOD].*)$/.exec(text)
      if (hidden !== null) this.attributes.take((hidden[1] ?? '').trim())
      return
    }
    const word = text.replaceAll(/\s/g, '')
    if (/^M0?[02]$/.test(word)) this.end()
    else if (!this.isSkipped) this.takeCodes(word, line)
  }

  takeExtended(words: readonly GerberWord[]): void {
    const [first, ...rest] = words
    if (first === undefined || this.isEnded || this.faults.length >= MOST_FAULTS) return
    this.lastLine = first.line
    if (first.text.startsWith('AM')) {
      this.macros.set(
        first.text.slice(2),
        rest.map(({ text }) => text),
      )
      return
    }
    for (const word of words) this.takeCommand(word)
  }

  done(broken: (Omit<Fault, 'path'> & { readonly line: number }) | undefined): Result<Plot> {
    if (broken !== undefined) {
      const { line, ...fault } = broken
      this.faults.push({ ...fault, path: `${this.name}, line ${line}` })
    } else if (!this.isEnded && this.faults.length === 0)
      this.faults.push({
        path: `${this.name}, line ${this.lastLine}`,
        found: say('the end of the file'),
        expected: say('the last command, M02'),
        todo: say('The file is cut off; fetch it again.'),
      })
    if (this.faults.length > 0) return bad(...this.faults)
    const { flashes, drawn, regions, repeats } = this
    return good({ file: this.attributes.file, flashes, drawn, regions, repeats })
  }

  private refuse(line: number, found: string, expected: string): void {
    if (this.faults.length < MOST_FAULTS) this.faults.push({ path: `${this.name}, line ${line}`, found, expected })
  }

  private end(): void {
    this.closeContour()
    this.isEnded = true
  }

  private takeCommand({ text, line }: GerberWord): void {
    const code = text.slice(0, 2)
    if (code === 'TF' || code === 'TA' || code === 'TO' || code === 'TD') this.attributes.take(text)
    else if (code === 'MO') this.takeUnit(text.slice(2), line)
    else if (code === 'FS' && !this.numbers.take(text))
      this.refuse(line, showValue(text), say('a format such as FSLAX46Y46'))
    else if (code === 'LP')
      this.isClear = text === 'LPC' && this.attributes.file.get('.FileFunction')?.[0] !== 'Profile'
    else if (code === 'AD') this.defineAperture(text, line)
    else if (code === 'SR') this.repeats ||= /X(?!1(\D|$))|Y(?!1(\D|$))/.test(text)
    // what a block aperture holds is drawn where it is flashed, and blocks hold no parts
    else if (code === 'AB') this.isSkipped = text.length > 2
  }

  private takeUnit(unit: string, line: number): void {
    if (unit === 'MM') this.numbers.mmPerUnit = 1
    else if (unit === 'IN') this.numbers.mmPerUnit = MM_PER_INCH
    else this.refuse(line, `MO${unit}`, say('MOMM or MOIN'))
  }

  private defineAperture(text: string, line: number): void {
    const found = /^ADD0*(\d{1,9})([A-Z_.$][^,]*)(?:,(.*))?$/i.exec(text)
    if (found === null) return this.refuse(line, showValue(text), say('an aperture such as ADD10C,0.1'))
    const [, number, template = '', list = ''] = found
    const parameters = list === '' ? [] : list.split(/X/i).map(Number)
    const macro = this.macros.get(template)
    this.macroWork += macro?.length ?? 0
    if (this.macroWork > MOST_MACRO_WORK)
      return this.refuse(line, say('more apertures of macros'), say('fewer or simpler ones'))
    const shape =
      standardShape(template, parameters) ?? (macro === undefined ? undefined : macroShape(macro, parameters))
    const isReadable = shape !== undefined && [shape.width, shape.length].every((size) => Number.isFinite(size))
    if (!isReadable) return this.refuse(line, showValue(text), say('an aperture of a known shape'))
    const mm = this.numbers.mmPerUnit ?? 1
    this.apertures.set(Number(number), {
      shape: { ...shape, width: shape.width * mm, length: shape.length * mm },
      attributes: this.attributes.aperture,
    })
  }

  /** `G01X100Y100D01`, `G36`, `D10` and, in older files, several of them in one word. */
  private takeCodes(word: string, line: number): void {
    let rest = word
    for (let found = /^[GD]0*(\d{1,9})/.exec(rest); found !== null; found = /^[GD]0*(\d{1,9})/.exec(rest)) {
      const number = Number(found[1])
      if (rest.startsWith('G')) this.takeGeneral(number)
      else if (number >= 10) this.select(number, line)
      else this.operate({}, number, line)
      rest = rest.slice(found[0].length)
    }
    if (rest === '') return
    const operation = operationIn(rest)
    if (operation === undefined) return this.refuse(line, showValue(word), say('coordinates with an operation'))
    this.operate(operation.to, operation.code ?? this.operation, line)
  }

  private takeGeneral(code: number): void {
    if (code === 1) this.mode = 'line'
    else if (code === 2) this.mode = 'clockwise'
    else if (code === 3) this.mode = 'counter-clockwise'
    else if (code === 36) this.beginRegion()
    else if (code === 37) this.endRegion()
    else if (code === 70) this.numbers.mmPerUnit = MM_PER_INCH
    else if (code === 71) this.numbers.mmPerUnit = 1
    else if (code === 74) this.isSingleQuadrant = true
    else if (code === 75) this.isSingleQuadrant = false
    else if (code === 90) this.numbers.isIncremental = false
    else if (code === 91) this.numbers.isIncremental = true
  }

  private select(number: number, line: number): void {
    this.aperture = this.apertures.get(number)
    this.isDrawing = false
    if (this.aperture === undefined) this.refuse(line, `D${number}`, say('an aperture that was defined before'))
  }

  private operate(to: Coordinates, operation: number, line: number): void {
    if (!this.numbers.isKnown)
      return this.refuse(line, 'coordinates', say('unit and format of numbers before them (MO, FS)'))
    this.operation = operation
    const from = this.at
    this.at = this.numbers.place(to, from)
    if (Math.max(Math.abs(this.at.x), Math.abs(this.at.y)) > FARTHEST_MM)
      return this.refuse(
        line,
        say('a place farther away than any board'),
        say('within {farthestMm} mm', { farthestMm: FARTHEST_MM }),
      )
    if (operation === 2) this.move(from)
    else if (operation === 1)
      this.draw(from, { x: this.numbers.length(to.i, 'x'), y: this.numbers.length(to.j, 'y') }, line)
    else if (operation === 3) this.flash(line)
  }

  /** Some writers move to where they are before each line. */
  private move(from: Point): void {
    if (this.isDrawing && Math.hypot(from.x - this.at.x, from.y - this.at.y) < 1e-9) return
    this.closeContour()
    this.isDrawing = false
  }

  private flash(line: number): void {
    this.isDrawing = false
    if (this.aperture === undefined) return this.refuse(line, say('a flash'), say('a chosen aperture before it'))
    if (this.isClear || this.isFull(line, 1)) return
    this.flashes.push({ at: this.at, aperture: this.aperture, attributes: this.attributes.object })
  }

  private draw(from: Point, centre: Point, line: number): void {
    const points =
      this.mode === 'line'
        ? [from, this.at]
        : arcOf(from, this.at, centre, { mode: this.mode, isSingleQuadrant: this.isSingleQuadrant })
    if (this.isFull(line, points.length)) return
    if (this.contour !== undefined) {
      if (this.contour.length === 0) this.contour.push(from)
      for (const point of points.slice(1)) this.contour.push(point)
      return
    }
    if (this.aperture === undefined) return this.refuse(line, say('a line'), say('a chosen aperture before it'))
    if (this.isClear) return
    const last = this.drawn.at(-1)
    if (this.isDrawing && last !== undefined && last.attributes === this.attributes.object)
      for (const point of points.slice(1)) last.points.push(point)
    else this.drawn.push({ points, aperture: this.aperture, attributes: this.attributes.object })
    this.isDrawing = true
  }

  private isFull(line: number, points: number): boolean {
    this.points += points
    const objects = this.flashes.length + this.drawn.length + this.regions.length
    if (this.points <= MOST_POINTS && objects < MOST_OBJECTS) return false
    this.refuse(
      line,
      say('more objects'),
      say('at most {mostObjects} objects of {mostPoints} points', {
        mostObjects: MOST_OBJECTS,
        mostPoints: MOST_POINTS,
      }),
    )
    return true
  }

  private beginRegion(): void {
    this.contour = []
  }

  private endRegion(): void {
    this.closeContour()
    this.contour = undefined
  }

  private closeContour(): void {
    if (this.contour === undefined || this.contour.length < 3) {
      if (this.contour !== undefined) this.contour = []
      return
    }
    const [first, last] = [this.contour[0], this.contour.at(-1)]
    if (this.isClear) {
      this.contour = []
      return
    }
    const isClosed = first !== undefined && last !== undefined && Math.hypot(first.x - last.x, first.y - last.y) < 1e-6
    this.regions.push({
      points: isClosed ? this.contour.slice(0, -1) : this.contour,
      attributes: this.attributes.object,
      apertureAttributes: this.attributes.aperture,
    })
    this.contour = []
  }
}
