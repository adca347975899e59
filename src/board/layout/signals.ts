/** What a memory pin is, from its function as the design or the JEDEC ball map names it. */
import { ballsOf } from '../ball-field.ts'
import { packageOutlines } from '../packages.ts'
import type { ImportedPart } from './parts.ts'

/** A data pin: its channel (`A`, `B` or none), its half (`L`, `U` or none) and its number there. */
export interface DataPin {
  readonly channel: string
  readonly half: string
  readonly bit: number
}

/** The alternatives of a pin function without overline marks: `NF/~{LDM/~LDBI}` gives NF, LDM and LDBI. */
export function alternativesOf(signal: string): string[] {
  return signal
    .replaceAll('{slash}', '/')
    .replaceAll(/[~{}#!]/g, '')
    .toUpperCase()
    .split('/')
    .filter((name) => name !== '')
}

/** Names of data pins in JESD79 (DDR), JESD209 (LPDDR), JESD212 and JESD250 (GDDR), and as schematic symbols vary them. */
const DATA_PATTERNS: readonly (readonly [RegExp, (found: RegExpExecArray) => DataPin])[] = [
  [/^DQ(\d{1,2})$/, (f) => ({ channel: '', half: '', bit: Number(f[1]) })],
  [/^DQ([LU])(\d)$/, (f) => ({ channel: '', half: f[1] ?? '', bit: Number(f[2]) })],
  [/^([LU])DQ(\d)$/, (f) => ({ channel: '', half: f[1] ?? '', bit: Number(f[2]) })],
  [/^DQ(\d{1,2})[_.-]?([AB])$/, (f) => ({ channel: f[2] ?? '', half: '', bit: Number(f[1]) })],
  [/^DQ[_.-]?([AB])[_.-]?(\d{1,2})$/, (f) => ({ channel: f[1] ?? '', half: '', bit: Number(f[2]) })],
  [/^([AB])[_.-]?DQ(\d{1,2})$/, (f) => ({ channel: f[1] ?? '', half: '', bit: Number(f[2]) })],
]

/** The data pin that a memory part's pin function names, or undefined. */
export function dataPinOf(signal: string): DataPin | undefined {
  for (const name of alternativesOf(signal))
    for (const [pattern, read] of DATA_PATTERNS) {
      const found = pattern.exec(name)
      if (found) return read(found)
    }
  return undefined
}

const MEMORY_WORD =
  /^(NF|NC|DNU|RFU|L?U?DQ.*|DQS.*|[LU]?DM.*|[LU]?DBI.*|DMI.*|WCK.*|EDC.*|ZQ.*|VREF.*|V?REFCA|V(DD|SS|CC|PP|EE)[A-Z0-9]*|GND.*|TEN|C[KA]E?\d*([_-]?[ABTCNP])*|CLK.*|CS.*|CKE.*|ODT.*|RAS.*|CAS.*|WE.*|R?W|OE.*|ACT.*|RESET.*|ALERT.*|PAR.*|ABI.*|CABI.*|MF|SEN|BA\d+|BG\d+|A\d+.*|BC|AP|PRD\d|T(DI|DO|MS|CK)|EP)$/

/** A strobe or address pin that a memory has and a plain register has not. */
const COMMAND_WORD = /^(RAS|CAS|CK|CLK|CKE|CA|ACT|CS)([_-]?\d*[_-]?[ABTCNP]?)$/

export interface MemoryEvidence {
  readonly dataPins: number
  readonly commandPins: number
  /** Share of the named pins whose names a memory has. */
  readonly vocabulary: number
}

/** How much a set of pin functions looks like that of a memory part. */
export function memoryEvidence(signals: readonly string[]): MemoryEvidence {
  const named = signals.filter((signal) => signal !== '')
  const known = named.filter((signal) => alternativesOf(signal).some((name) => MEMORY_WORD.test(name)))
  const command = named.filter((signal) => alternativesOf(signal).some((name) => COMMAND_WORD.test(name)))
  const data = named.filter((signal) => dataPinOf(signal) !== undefined)
  return {
    dataPins: data.length,
    commandPins: command.length,
    vocabulary: named.length === 0 ? 0 : known.length / named.length,
  }
}

/** How many pads beyond a package's balls a footprint may have: thermal or mechanical ones. */
const EXTRA_PADS = 6

/** Outlines of memory packages whose balls are the part's pads, by name; empty for any other part. */
export function outlinesThatFit(part: ImportedPart): string[] {
  const numbers = new Set(part.pads.map(({ pad }) => pad.number))
  return [...packageOutlines.values()].flatMap((outline) => {
    if (outline.kind !== 'memory' || outline.joints !== 'balls' || numbers.size < outline.ballCount) return []
    if (numbers.size > outline.ballCount + EXTRA_PADS) return []
    return ballsOf(outline).every((ball) => numbers.has(ball.name)) ? [outline.name] : []
  })
}
