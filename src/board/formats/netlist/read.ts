/** An IPC-D-356 file as a piece of a board: nets at pins, places of pads, parts by the pads that bear their reference. */
import { bad, type Fault, good, type Result, showValue, say } from '../../../base/index.ts'
import { groupedBy } from '../../group.ts'
import { sideOfPads } from '../pads.ts'
import { emptyPart, emptyPiece, type PadAccess, type Piece, type PiecePad, type PieceStroke } from '../pieces.ts'
import { linesOf, type NamedText, type TextLine } from '../text.ts'
import { outlineRuns, type TestRecord, testRecord } from './records.ts'

const MOST_FAULTS = 20
const MOST_RECORDS = 1_000_000
const REF_LETTERS = 6
const NET_LETTERS = 14

interface Scale {
  readonly mmPerUnit: number
  readonly degPerUnit: number
}

/** `CUST 0` is 0.0001 inch, `CUST 1` and `SI` 0.001 mm, `CUST 2` 0.0001 inch with angles in radians. */
const SCALES: Readonly<Record<string, Scale>> = {
  'CUST 0': { mmPerUnit: 0.00254, degPerUnit: 1 },
  'CUST 1': { mmPerUnit: 0.001, degPerUnit: 1 },
  'CUST 2': { mmPerUnit: 0.00254, degPerUnit: 180 / Math.PI },
  SI: { mmPerUnit: 0.001, degPerUnit: 1 },
}

/** Records of pads, each a line of its kind. */
const PAD_RECORD = /^3[0-6][67]/
const KNOWN_CODE = /^(3\d\d|0\d\d|999)/

/** Whether a text has the records of such a file: at least one for a pad, and no line that is neither record nor remark. */
export function looksLikeNetlist(text: string): boolean {
  const lines = linesOf(text).filter((line) => line.text.trim() !== '')
  // the last line of a beginning may be cut
  const whole = lines.slice(0, Math.max(1, lines.length - 1))
  return (
    whole.every(({ text: line }) => /^[CP](\s|$)/.test(line) || KNOWN_CODE.test(line)) &&
    lines.some(({ text: line }) => PAD_RECORD.test(line) && testRecord(line) !== undefined)
  )
}

/** @returns faults by line for records that can't be read, for unknown units and for a file without its last record */
export function readNetlist({ name, text }: NamedText): Result<Piece> {
  const lines = joined(linesOf(text, 100_000))
  const faults: Fault[] = []
  const refuse = ({ line }: TextLine, found: string, expected: string): void => {
    if (faults.length < MOST_FAULTS) faults.push({ path: `${name}, line ${line}`, found, expected })
  }
  let scale = SCALES['CUST 0']
  const aliases = new Map<string, string>()
  const records: TestRecord[] = []
  const outline: PieceStroke[] = []
  let isEnded = false
  for (const line of lines) {
    if (isEnded || line.text.trim() === '' || /^C(\s|$)/.test(line.text)) continue
    if (line.text.startsWith('P')) {
      const units = /^P\s+UNITS\s+(.*\S)/.exec(line.text)?.[1]?.replaceAll(/\s+/g, ' ')
      if (units !== undefined) scale = SCALES[units]
      if (scale === undefined) return bad(unknownUnits(name, line, units))
      const [, alias, net] = /^P\s+(NNAME\S*)\s+(\S.*)/.exec(line.text) ?? []
      if (alias !== undefined && net !== undefined) aliases.set(alias, net.trim())
    } else if (line.text.startsWith('999')) isEnded = true
    else if (line.text.startsWith('389')) outline.push(...outlineOf(line.text, scale?.mmPerUnit ?? 1))
    else if (PAD_RECORD.test(line.text)) {
      const record = testRecord(line.text)
      if (record === undefined) refuse(line, showValue(line.text), say('a record with X and Y'))
      else if (records.push(record) > MOST_RECORDS)
        refuse(line, say('one record more'), say('at most {mostRecords}', { mostRecords: MOST_RECORDS }))
    } else if (!KNOWN_CODE.test(line.text)) refuse(line, showValue(line.text), say('a record such as 317 or 327'))
  }
  if (!isEnded && faults.length < MOST_FAULTS)
    faults.push({
      path: `${name}, line ${lines.length}`,
      found: say('the end of the file'),
      expected: say('the last record, 999'),
      todo: say('The file is cut off; fetch it again.'),
    })
  if (faults.length > 0 || scale === undefined) return bad(...faults)
  return good(pieceOf(name, records, { scale, aliases, outline }))
}

const unknownUnits = (name: string, { line }: TextLine, units = ''): Fault => ({
  path: `${name}, line ${line}`,
  found: `UNITS ${units}`,
  expected: `UNITS ${Object.keys(SCALES).join(', ')}`,
})

/** Codes that begin with 0 go on with the record before them, from their fourth letter. */
function joined(lines: readonly TextLine[]): TextLine[] {
  const whole: { line: number; text: string }[] = []
  for (const { line, text } of lines) {
    const before = whole.at(-1)
    if (/^0\d\d/.test(text) && before !== undefined) before.text += text.slice(3)
    else whole.push({ line, text })
  }
  return whole
}

function outlineOf(text: string, mmPerUnit: number): PieceStroke[] {
  if (!/^389\s*BOARD_EDGE/.test(text)) return []
  const scaled = outlineRuns(text.slice(3)).map((run) =>
    run.map(({ x, y }) => ({ x: x * mmPerUnit, y: y * mmPerUnit })),
  )
  return scaled.map((points) => ({ points, isClosed: false }))
}

interface Found {
  readonly scale: Scale
  readonly aliases: ReadonlyMap<string, string>
  readonly outline: readonly PieceStroke[]
}

function pieceOf(name: string, records: readonly TestRecord[], { scale, aliases, outline }: Found): Piece {
  const isOfPart = ({ ref }: TestRecord): boolean => ref !== '' && ref !== 'VIA' && ref !== 'NOREF'
  const parts = [...groupedBy(records.filter(isOfPart), ({ ref }) => ref)].map(([ref, own]) => {
    const pads = own.map((record) => padOf(record, scale, aliases))
    return { ...emptyPart(ref), side: sideOfPads(pads), pads }
  })
  const bare = records.filter((record) => !isOfPart(record) && record.ref !== 'VIA').length
  const hasAliases = aliases.size > 0
  const isCut = !hasAliases && records.some(({ net }) => net.length >= NET_LETTERS)
  const untold = [
    ...(bare === 0
      ? []
      : [
          say('{bare, plural, one {# pad} other {# pads}} of the netlist belong to no part and are left out.', {
            bare,
          }),
        ]),
    ...(isCut
      ? [
          say('The netlist cuts names of nets to {netLetters} letters; nets that end alike may be one in it.', {
            netLetters: NET_LETTERS,
          }),
        ]
      : []),
  ]
  return {
    ...emptyPiece(name, 'netlist'),
    outline,
    parts,
    refLetters: REF_LETTERS,
    netLetters: hasAliases ? undefined : NET_LETTERS,
    untold,
  }
}

function padOf(record: TestRecord, { mmPerUnit, degPerUnit }: Scale, aliases: ReadonlyMap<string, string>): PiecePad {
  const widthMm = record.width * mmPerUnit
  const lengthMm = record.length * mmPerUnit
  const { holeDiameter = 0 } = record
  return {
    number: record.pin,
    at: { x: record.at.x * mmPerUnit, y: record.at.y * mmPerUnit },
    widthMm,
    lengthMm: lengthMm === 0 ? widthMm : lengthMm,
    rotationDeg: (record.rotation * degPerUnit) % 360,
    isRound: lengthMm === 0,
    access: accessOf(record),
    hole:
      holeDiameter > 0
        ? { diameterMm: holeDiameter * mmPerUnit, isPlated: record.isPlated && record.code !== '367' }
        : undefined,
    net: record.net === 'N/C' || record.net === '' ? undefined : (aliases.get(record.net) ?? record.net),
    signal: undefined,
  }
}

function accessOf({ code, access }: TestRecord): PadAccess {
  if (code !== '327' || access === 0) return 'through'
  return access === 1 ? 'top' : 'bottom'
}
